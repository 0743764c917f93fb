"""How a log is written, told from its first lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from sootsayer.casework.logs.cells import is_missing, is_over, number, split, with_unit
from sootsayer.casework.logs.j1979 import word_column
from sootsayer.casework.logs.model import Shape
from sootsayer.casework.logs.naming import best_of, score, split_unit, tokens
from sootsayer.casework.logs.times import clock_of
from sootsayer.casework.logs.units import head_unit
from sootsayer.casework.logs.words import LONG_NAME, LONG_UNIT, LONG_VALUE, ROLES
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import whole
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

HEAD_LINES = 120
MOST_COLUMNS = 2_000
_MOST_HEAD = 60
BEGINS_WITH_NAMES = (
    "a log begins with a line of names, as: time [s]; engine speed [rpm]; "
    "differential pressure [mbar]"
)
COMMAS_TWICE = (
    "the rows have more cells than the {width} names above them: commas are decimals and "
    "separators at once"
)
_LETTER = re.compile(r"[^\W\d_]")
_COMMA_NUMBER = re.compile(r"[-+]?[0-9]+,[0-9]+")
_POINT_NUMBER = re.compile(r"[-+]?[0-9]+\.[0-9]+")


def shape_of(head: Sequence[str], encoding: str, file: str) -> Shape:
    """The shape of a log that begins with the lines `head`. Raises Refused."""
    if not any(line.strip() for line in head):
        raise _refused(file, 1, say("the log is empty: it has no rows"), say("record it again"))
    widest = max(range(len(head)), key=lambda i: max(head[i].count(d) for d in ";\t,"))
    delimiter = _delimiter(head, file)
    columns = head[widest].count(delimiter) + 1
    if columns > MOST_COLUMNS:
        raise _refused(
            file,
            widest + 1,
            say(
                "this line has {count} columns, more than the {most} that are read",
                count=whole(columns),
                most=whole(MOST_COLUMNS),
            ),
            say("export only the channels that are needed"),
            head[widest][:200],
        )
    rows = [split(line, delimiter) for line in head]
    comma = _decimal_comma(rows)
    at = _header(rows, comma, file, head)
    names = [cell.strip().strip("\ufeff").strip() for cell in rows[at]]
    first, second = _second_row(rows, at, names)
    _check_split_numbers(rows, at, first, delimiter, head, file)
    units: list[str] = []
    for index, name in enumerate(names):
        own = second[index] if index < len(second) else None
        units.append(own if own is not None else split_unit(name)[1] or "")
    return Shape(
        encoding, delimiter, comma, tuple(names), tuple(units), first + 1, tuple(head[:at]),
        long=_is_long(names), header=at + 1,
    )  # fmt: skip


def long_columns(names: Sequence[str]) -> tuple[int, int, int | None]:
    """Of a long log: the columns of the channel's name, its value, and its unit."""
    words = [tokens(split_unit(name)[0] or name) for name in names]
    weigh = [[best_of(each, table) if len(each) <= 3 else 0.0 for each in words]
             for table in (LONG_NAME, LONG_VALUE, LONG_UNIT)]  # fmt: skip
    name, value, unit = (max(range(len(w)), key=w.__getitem__) for w in weigh)
    return name, value, unit if weigh[2][unit] > 0 else None


def _is_long(names: Sequence[str]) -> bool:
    if not 3 <= len(names) <= 8:
        return False
    words = [tokens(name) for name in names]
    named = [best_of(each, LONG_NAME) if len(each) <= 3 else 0.0 for each in words]
    valued = [best_of(each, LONG_VALUE) if len(each) <= 3 else 0.0 for each in words]
    return (
        max(named) > 0 and max(valued) > 0 and named.index(max(named)) != valued.index(max(valued))
    )


def _delimiter(head: Sequence[str], file: str) -> str:
    """The separator that cuts most lines into equally many cells; tab, semicolon, comma."""
    best, most = "", 0.0
    for candidate, weight in (("\t", 1.1), (";", 1.05), (",", 1.0)):
        counts = [line.count(candidate) for line in head if line.strip()]
        some = [count for count in counts if count]
        if not some:
            continue
        common = max(set(some), key=lambda n: (some.count(n), n))
        # Decimal commas cut numbers in two: where another separator cuts too, that one counts.
        worth = weight * some.count(common) / len(counts)
        if worth > most:
            best, most = candidate, worth
    if not best:
        raise _refused(
            file,
            1,
            say("no line is cut into columns by commas, semicolons or tabs"),
            say("export the log as text with separators (CSV)"),
            head[0][:200],
        )
    return best


def _decimal_comma(rows: Sequence[Sequence[str]]) -> bool:
    cells = [cell.strip() for row in rows for cell in row]
    commas = sum(bool(_COMMA_NUMBER.fullmatch(cell)) for cell in cells)
    points = sum(bool(_POINT_NUMBER.fullmatch(cell)) for cell in cells)
    return commas > points


def _header(rows: Sequence[Sequence[str]], comma: bool, file: str, head: Sequence[str]) -> int:
    """The row of names: the one that fits known words best, else the last before numbers."""
    worths = [_worth(row, comma) if i < _MOST_HEAD else 0.0 for i, row in enumerate(rows)]
    at = max(range(len(rows)), key=lambda i: (worths[i], -i))
    if worths[at] > 0:
        return at
    for index in range(len(rows) - 1):
        row, below = rows[index], rows[index + 1]
        names = sum(bool(cell.strip()) and not _numeric(cell, comma) for cell in row)
        if names >= 2 and names * 2 > len(row) and sum(_numeric(c, comma) for c in below) >= 2:
            return index
    numbers = next((i for i, row in enumerate(rows) if any(_numeric(c, comma) for c in row)), None)
    what = say("no line names the columns") if numbers is not None else say("no rows with numbers")
    line = (numbers or 0) + 1
    raise _refused(file, line, what, say(BEGINS_WITH_NAMES), head[line - 1][:200])


def _worth(row: Sequence[str], comma: bool) -> float:
    """How much a row looks like names of channels."""
    if len(row) < 2 or len(row) > MOST_COLUMNS:
        return 0.0
    total, some = 0.0, 0
    for cell in row:
        bare = cell.strip()
        if not bare or len(bare) > 200 or number(bare, comma) is not None:
            continue
        best = _name_worth(bare)
        if best >= 0.5:
            total, some = total + best, some + 1
    return total if some >= 2 else 0.0


@lru_cache(maxsize=4096)
def _name_worth(name: str) -> float:
    """How well one cell names any channel, or a column of a long log."""
    if word_column(name) is not None:
        return 1.0
    if not _LETTER.search(name):
        return 0.0
    bare, unit = split_unit(name)
    words = tokens(bare or name)
    long = max(best_of(words, table) for table in (LONG_NAME, LONG_VALUE, LONG_UNIT))
    return max(
        max(score(words, unit, role) for role in ROLES), 0.6 * long if len(words) <= 2 else 0.0
    )


def _second_row(
    rows: Sequence[Sequence[str]], at: int, names: Sequence[str]
) -> tuple[int, list[str | None]]:
    """The row where numbers begin, and the units where a row of them stands between."""
    if at + 1 >= len(rows):
        return at + 1, []
    below = rows[at + 1]
    units = [head_unit(cell) for cell in below]
    known = sum(unit is not None for unit in units)
    filled = sum(bool(cell.strip()) for cell in below)
    numbers = sum(number(cell, False) is not None for cell in below)
    if known and known * 2 >= filled and not numbers and len(below) <= len(names) + 1:
        return at + 2, list(units)
    return at + 1, []


def _check_split_numbers(
    rows: Sequence[Sequence[str]], at: int, first: int, delimiter: str, head: Sequence[str],
    file: str,
) -> None:  # fmt: skip
    """Decimal commas beside comma separators cannot be told apart."""
    width = len(rows[at])
    data = [(i, row) for i, row in enumerate(rows) if i >= first and any(c.strip() for c in row)]
    wide = [i for i, row in data if len([*row]) > width + 1 or (len(row) == width + 1 and row[-1])]
    if delimiter == "," and data and len(wide) * 2 > len(data):
        raise _refused(
            file,
            wide[0] + 1,
            say(COMMAS_TWICE, width=width),
            say("export with semicolons or tabs, or with decimal points"),
            head[wide[0]][:200],
        )


def _numeric(cell: str, comma: bool) -> bool:
    bare = cell.strip()
    if number(bare, comma) is not None or is_over(bare):
        return True
    return with_unit(bare) is not None or (
        bool(bare) and not is_missing(bare) and clock_of([bare], "", comma) is not None
    )


def _refused(file: str, line: int, what: str, instead: str, text: str = "") -> Refused:
    return Refused([Problem(Place(file, line, 1), what, instead, text)])
