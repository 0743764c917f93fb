"""`sootsayer records outcome ID`: what came of it, in the case and in the ledger."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import say, say_count
from sootsayer.commands.clock import to_the_second
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.records_outcome_said import ids_of, outcome_said
from sootsayer.commands.records_shared import (
    add_json,
    add_ledger,
    add_shop,
    cannot_write,
    ledger_at,
    person_of,
)
from sootsayer.commands.usage import short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.casework.model import Case
    from sootsayer.ledger.adding import Added
    from sootsayer.ledger.model import Record
    from sootsayer.ledger.outcome import Confirmed
    from sootsayer.ledger.withholding import Pattern
    from sootsayer.rulebook.model import Model
    from sootsayer.rulebook.shop import Shop

SUMMARY = "enter what was confirmed, in the case and as a record"
DESCRIPTION = """\
Close the case of a record with its confirmed outcome: an entry at its end, then a
record that points back to the verdict. Rates are learned from cases only; the record
proves when it was known. What is not given is asked."""
EXAMPLE = """\
example:
  sootsayer records outcome 12 --by tech-1 --faults sensor-offset \\
      --cured-by zero-sensor --proved-by recheck
  sootsayer records outcome 12 --by tech-1
      asks; of a case that has its outcome already, only the record is added

Faults and work by their ids, with commas; `--faults none` where none was found."""

OTHER_CASE = '{file} is case "{case}", and the record is of case "{wanted}"'
OTHER_CASE_NEXT = "name the file of that case: --case FILE"
SHORTER = (
    "{file} has {count} entry, and had {then} when the record was kept",
    "{file} has {count} entries, and had {then} when the record was kept",
)
SHORTER_NEXT = "a case is only added to: find the file as it was"
DEMONSTRATION = "{case} is a demonstration case, and nothing is written into it"
DEMONSTRATION_NEXT = "take a copy, and name it with --case FILE"
HAS_OTHER = "the case has another outcome already (entry {entry}: {faults})"
HAS_OTHER_NEXT = "correct it in the case with `corrects: {entry}`, then run this without --faults"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("id", metavar="ID", help=say("a number, a digest or a case"))
    parser.add_argument(
        "--by", metavar="ID", required=True, help=say("who confirmed it, like tech-1")
    )
    parser.add_argument(
        "--faults", metavar="IDS", help=say("the faults that were confirmed, or none")
    )
    parser.add_argument("--cured-by", metavar="IDS", help=say("the work that cured them"))
    parser.add_argument("--proved-by", metavar="TEXT", help=say("how that was proved"))
    parser.add_argument("--case", metavar="FILE", help=say("the file of the case, if it has moved"))
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Append the entry, then the record. Raises Stop, Refused and OSError."""
    by = person_of(arguments.by)

    from sootsayer.commands.opened import open_rulebook, open_shop
    from sootsayer.commands.records_given import patterns_for
    from sootsayer.commands.records_replay import verdict_of
    from sootsayer.documents.reading import read_bytes
    from sootsayer.documents.writing import CannotWrite
    from sootsayer.ledger.adding import add
    from sootsayer.ledger.outcome import already, outcome_body

    shop = open_shop(arguments.shop)
    ledger = ledger_at(arguments.ledger, shop)
    record = verdict_of(ledger, arguments.id)
    path, shown_as = _file(arguments.case or record.case, shop)
    rulebook, _ = open_rulebook(shop, "en")
    data = read_bytes(path, shown_as)
    case = _read(data, shown_as, rulebook.model)
    _is_of(record, case, shown_as)
    try:
        patterns = patterns_for(path, case.id, shop)
        case, found = _closed(arguments, record, by, path, data, rulebook.model, patterns)
        there = already(ledger, record, found)
        if there is None:
            added = add(ledger, outcome_body(record, case, found, at=to_the_second(), by=by))
    except CannotWrite as refused:
        raise cannot_write(refused.path, refused.why) from None
    entry = {"entry": found.entry, "file": shown_as}
    if there is None:
        _tell_new(arguments, record, added, entry)
    else:
        _tell_known(arguments, record, there.number, entry)
    return DONE


def _file(case: str, shop: Shop | None) -> tuple[Path, str]:
    """The case's file. Raises Stop."""
    from sootsayer.commands.find_case import find_case
    from sootsayer.rulebook.shipped import shipped_cases

    found = find_case(case, shipped_cases(), None if shop is None else shop.cases)
    if found.demonstration:
        raise Stop(say(DEMONSTRATION, case=short(case)), say(DEMONSTRATION_NEXT))
    return found.path, found.shown_as


def _read(data: bytes, file: str, model: Model) -> Case:
    from sootsayer.casework.case_file import case_of
    from sootsayer.casework.no_entries import parse_case

    return case_of(parse_case(data, file), model)


def _is_of(record: Record, case: Case, file: str) -> None:
    """Raises Stop for a file of another case, or one that lost entries."""
    from sootsayer.ledger.parts import whole

    if case.id != record.case:
        slots = {"file": short(file), "case": short(case.id), "wanted": short(record.case)}
        raise Stop(say(OTHER_CASE, **slots), say(OTHER_CASE_NEXT))
    then = whole(record.body, "case", "entries") or 0
    if len(case.entries) < then:
        what = say_count(*SHORTER, count=len(case.entries), file=short(file), then=then)
        raise Stop(what, say(SHORTER_NEXT))


def _closed(
    arguments: argparse.Namespace,
    record: Record,
    by: str,
    path: Path,
    data: bytes,
    model: Model,
    patterns: tuple[Pattern, ...],
) -> tuple[Case, Confirmed]:
    """The case with its outcome, appended where it has none. Raises Stop, Refused, CannotWrite."""
    from sootsayer.casework.append import append_entries, entry_line
    from sootsayer.documents.torn import split_torn
    from sootsayer.ledger.outcome import Confirmed, confirmed
    from sootsayer.ledger.withholding import withhold, without_people

    # Ids that name somebody are refused. A torn last line is no YAML; the next writer moves it.
    withhold(split_torn(data)[0], str(path), patterns)
    case = _read(data, str(path), model)
    there = confirmed(case)
    if there is not None:
        _is_the_same(arguments, there)
        return case, there
    told = outcome_said(arguments, record, model)
    told = replace(told, proved_by=without_people(told.proved_by, patterns)[0])
    line = entry_line(at=to_the_second(), by=by, outcome=told)
    whole = split_torn(data)[0].removesuffix(b"\n") + b"\n"
    after = _read(whole + line.encode() + b"\n", str(path), model)  # before it is written
    append_entries(path, (line,), was=data)
    return after, Confirmed(told, len(after.entries))


def _is_the_same(arguments: argparse.Namespace, there: Confirmed) -> None:
    faults = None if arguments.faults is None else ids_of(arguments.faults)
    if faults is not None and sorted(faults) != sorted(there.outcome.faults):
        told = ", ".join(there.outcome.faults) or "none"
        what = say(HAS_OTHER, entry=there.entry, faults=told)
        raise Stop(what, say(HAS_OTHER_NEXT, entry=there.entry))


def _tell_new(
    arguments: argparse.Namespace, record: Record, added: Added, entry: dict[str, object]
) -> None:
    from sootsayer.console import records_texts as t
    from sootsayer.console.records_verify import head_lines
    from sootsayer.console.screen import show_lines

    if arguments.json:
        _tell_json(record, added.number, entry, head=added.digest)
        return
    lines = [say(t.OUTCOME_KEPT, **entry, number=added.number, record=record.number)]
    lines += head_lines(added.number, added.digest)
    show_lines(lines, sys.stdout)


def _tell_known(
    arguments: argparse.Namespace, record: Record, number: int, entry: dict[str, object]
) -> None:
    from sootsayer.console import records_texts as t
    from sootsayer.console.screen import show_lines

    if arguments.json:
        _tell_json(record, number, entry, head=None)
        return
    line = say(t.OUTCOME_THERE, **entry, number=number, record=record.number)
    show_lines([line], sys.stdout)


def _tell_json(record: Record, number: int, entry: dict[str, object], head: str | None) -> None:
    from sootsayer.commands.opened import as_text

    told = {"format": 1, "record": number, "of": record.number, "entry": entry["entry"]}
    write(as_text({**told, "head": head}), sys.stdout)
