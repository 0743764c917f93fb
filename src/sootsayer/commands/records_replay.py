"""`sootsayer records replay [ID]`: the verdict given again, then and today."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, NO
from sootsayer.commands.records_shared import add_json, add_ledger, add_shop, ledger_at
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.ledger.folder import Ledger
    from sootsayer.ledger.model import Record
    from sootsayer.ledger.replay_model import Replayed, Today
    from sootsayer.rulebook.shop import Shop

    Result = tuple[Record, Replayed, Today | None]

SUMMARY = "give a verdict again: the same bytes, and what today's rulebook would say"
DESCRIPTION = """\
Give verdicts again from what was kept with them. With the rulebook of that day the
bytes must be the same. With today's rulebook and settings: what would differ, and
which rule or number makes it so. Without ID all records, as counts."""
EXAMPLE = """\
example:
  sootsayer records replay 12
      one record, by its number; its digest or its case do too
  sootsayer records replay
      all of them, counted

The exit code is 0 where every verdict came out the same with the rulebook of its
day, and 1 where one did not or cannot be replayed. What today's rulebook says
changes nothing of it."""
NO_VERDICT = "record {number} is an outcome, and there is no verdict in it"
NO_VERDICT_NEXT = "name the record that it points back to: {number}"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("id", metavar="ID", nargs="?", help=say("a number, a digest or a case"))
    parser.add_argument(
        "--more", action="store_true", help=say("every difference, not the first twelve")
    )
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Replay and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_shop
    from sootsayer.commands.records_called import called_of
    from sootsayer.console.records_replay import all_json, all_told, one_json, one_told
    from sootsayer.console.screen import show
    from sootsayer.ledger.parts import VERDICT
    from sootsayer.ledger.reading import records
    from sootsayer.ledger.replay_model import Again

    shop = open_shop(arguments.shop)
    ledger = ledger_at(arguments.ledger, shop)
    if arguments.id is None:
        closed = [r for r in records(ledger) if r.kind == VERDICT or r.line.body is None]
        results = _each(ledger, closed, shop)
    else:
        results = [_both(ledger, verdict_of(ledger, arguments.id), shop)]
    one = None if arguments.id is None else results[0]
    if arguments.json:
        write(as_text(all_json(results) if one is None else one_json(*one)), sys.stdout)
    else:
        called = called_of(ledger, results, shop)
        told = one_told(*one, called, more=arguments.more) if one else all_told(results, called)
        show(told, sys.stdout)
    return DONE if all(r.again is Again.SAME for _, r, _ in results) else NO


def _each(ledger: Ledger, closed: list[Record], shop: Shop | None) -> list[Result]:
    """Each takes a second or two: a terminal shows how far it is."""
    if sys.stderr is None or not sys.stderr.isatty():
        return [_both(ledger, record, shop, many=True) for record in closed]
    from sootsayer.console.progress import REPLAYING, reading_bar

    found = []
    with reading_bar(len(closed), sys.stderr, REPLAYING) as done:
        for record in closed:
            found.append(_both(ledger, record, shop, many=True))
            done(1)
    return found


def _both(ledger: Ledger, record: Record, shop: Shop | None, *, many: bool = False) -> Result:
    """With the rulebook of that day, and with today's in the words of that day's language."""
    from sootsayer.commands.records_given import rebuilt_of_today
    from sootsayer.ledger.replay_model import Why
    from sootsayer.ledger.replaying import language_of, replay
    from sootsayer.ledger.today import MOST_CHANGES, MOST_CHANGES_OF_MANY, with_todays

    then = replay(ledger, record)
    if then.why is Why.CLOSED:
        return record, then, None
    most = MOST_CHANGES_OF_MANY if many else MOST_CHANGES
    now = rebuilt_of_today(shop, language_of(record))
    return record, then, with_todays(ledger, record, now, most)


def verdict_of(ledger: Ledger, wanted: str) -> Record:
    """The record that is meant; an outcome is no verdict. Raises Refused."""
    from sootsayer.ledger.folder import refused
    from sootsayer.ledger.parts import OUTCOME, whole
    from sootsayer.ledger.reading import find

    record = find(ledger, wanted)
    if record.kind == OUTCOME:
        of = whole(record.body, "of", "number")
        what = say(NO_VERDICT, number=record.number)
        raise refused(ledger, what, say(NO_VERDICT_NEXT, number=of), record.number)
    return record
