"""The list of records as a table of plain text, and as JSON, fast for a hundred thousand rows."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from textwrap import wrap

from sootsayer.catalogue import say, say_count
from sootsayer.catalogue_numbers import day_of
from sootsayer.console import records_texts as t
from sootsayer.documents.escaping import visible
from sootsayer.ledger.model import Found, Row
from sootsayer.ledger.parts import OUTCOME, VERDICT

_LEAST = (10, 14, 8)  # of vehicle, case, person: what they keep where room is short
_LEAST_LAST = 24
_DAY = 10
_INDENT = "    "
_LEAST_WIDTH = 72  # of a table; below it a record has lines of its own
_FIELDS = Row._fields


def table(found: Found, width: int) -> str:
    """Newest first, one line each."""
    if not found.rows:
        return _ending(found, f"{say(t.NO_RECORDS)}\n")
    rows = found.rows
    if width < _LEAST_WIDTH:
        return _ending(found, _shown(_apart(rows, width)) + "\n")
    heads = [str(say(head)) for head in (t.NUMBER, t.DATE, t.CASE, t.VEHICLE, t.BY, t.WHAT)]
    number = max(len(heads[0]), len(str(max(row.number for row in rows))))
    case = max(len(heads[2]), max(len(row.case) for row in rows))
    vehicle = max(len(heads[3]), max(map(len, {row.vehicle for row in rows})))
    by = max(len(heads[4]), max(map(len, {row.by for row in rows})))
    case, vehicle, by = _narrowed(case, vehicle, by, width - number - _DAY - 10 - _LEAST_LAST)
    last = max(_LEAST_LAST, width - number - _DAY - 10 - case - vehicle - by)

    def line(*cells: str) -> str:
        first, day, *rest, what = cells
        shown = [
            _cut(c, room).ljust(room) for c, room in zip(rest, (case, vehicle, by), strict=True)
        ]
        return "  ".join((first.rjust(number), day.ljust(_DAY), *shown, _cut(what, last)))

    known: dict[tuple[object, ...], str] = {}  # what many rows share is cut and filled once
    days: dict[str, str] = {}
    lines = [line(*heads)]
    for row in rows:
        key = (row.vehicle, row.by, row.faults, row.kind, row.of)
        rest = known.get(key)
        if rest is None:
            parts = _cut(row.vehicle, vehicle).ljust(vehicle), _cut(row.by, by).ljust(by)
            rest = known[key] = "  ".join((*parts, _cut(_what(row), last)))
        day = days.get(row.at[:_DAY])
        if day is None:
            day = days[row.at[:_DAY]] = day_of(row.at)
        first = f"{row.number:>{number}}  {day:<{_DAY}}"
        lines.append(f"{first}  {_cut(row.case, case):<{case}}  {rest}")
    return _ending(found, _shown(lines) + "\n")


def _apart(rows: Sequence[Row], width: int) -> list[str]:
    """Each record by itself, for a screen too narrow for columns: what is long is folded."""
    lines = []
    for row in rows:
        head = "  ".join((f"{row.number}", day_of(row.at), row.case))
        own = ("", head), (_INDENT, f"{row.vehicle}  {row.by}"), (_INDENT, _what(row))
        for first, cells in own:
            told = visible(cells)
            lines += wrap(told, width, initial_indent=first, subsequent_indent=_INDENT)
    return lines


def nothing_yet(folder: Path) -> str:
    """Where a ledger would be and none is: nothing is wrong with that."""
    return f"{say(t.NO_LEDGER_YET, folder=folder)}\n"


def _shown(lines: list[str]) -> str:
    """Every cell comes from outside. Plain ASCII needs no second look."""
    whole = "".join(lines)
    if whole.isascii() and whole.isprintable():
        return "\n".join(lines)
    return "\n".join(visible(line).rstrip() for line in lines)


def _what(row: Row) -> str:
    faults = row.faults.replace(" ", ", ")
    if row.kind == OUTCOME:
        return say(t.OUTCOME_OF, number=row.of, faults=faults or say(t.NO_FAULT_FOUND))
    if row.kind != VERDICT:
        return say(t.BODY_CLOSED)
    return faults or say(t.NOTHING_LED)


def _narrowed(case: int, vehicle: int, by: int, room: int) -> tuple[int, int, int]:
    """The columns before the last leave it room: the vehicle gives way, the case, the person."""
    over = case + vehicle + by - room
    given = []
    for has, least in zip((vehicle, case, by), _LEAST, strict=True):
        gives = max(0, min(over, has - least))
        over -= gives
        given.append(has - gives)
    return given[1], given[0], given[2]


def _cut(cell: str, room: int) -> str:
    return cell if len(cell) <= room else cell[: room - 1] + "…"


def _ending(found: Found, body: str) -> str:
    lines = [body]
    if found.count > len(found.rows):
        lines.append(f"{say_count(*t.LIST_MORE, count=found.count - len(found.rows))}\n")
    if found.unreadable:
        lines.append(f"{say_count(*t.UNREADABLE, count=found.unreadable)}\n")
    return "".join(lines)


def as_json(found: Found) -> str:
    """One record a line, plain ASCII."""
    head = json.dumps({"format": 1, "count": found.count, "unreadable": found.unreadable})
    lists: dict[str, list[str]] = {
        faults: faults.split() for faults in {r.faults for r in found.rows}
    }
    plain = [
        dict(zip(_FIELDS, (*r[:6], lists[r.faults], r.drive, r.of or None, r.digest), strict=True))
        for r in found.rows
    ]
    # No text can hold these signs: JSON writes a quotation mark within one otherwise.
    rows = json.dumps(plain)[1:-1].replace('}, {"number": ', '},\n{"number": ')
    return f'{head[:-1]}, "records": [\n{rows}\n]}}\n'.replace("\x7f", "\\u007f")
