"""`sootsayer records replay [ID]`: the verdict given again, then and today."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.commands.leaving import DONE, NO
from sootsayer.commands.records_shared import add_json, add_ledger, add_shop, ledger_at
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.ledger.folder import Ledger
    from sootsayer.ledger.model import Record
    from sootsayer.ledger.rebuilding import Rebuilt
    from sootsayer.ledger.replay_model import Replayed, Today
    from sootsayer.rulebook.shop import Shop

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


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("id", metavar="ID", nargs="?", help="a number, a digest or a case")
    parser.add_argument(
        "--more", action="store_true", help="every difference, not the first twelve"
    )
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Replay and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_shop
    from sootsayer.console.records_replay import all_json, all_told, one_json, one_told
    from sootsayer.console.screen import show
    from sootsayer.ledger.parts import VERDICT
    from sootsayer.ledger.reading import records
    from sootsayer.ledger.replay_model import Again

    shop = open_shop(arguments.shop)
    ledger = ledger_at(arguments.ledger, shop)
    if arguments.id is not None:
        record = verdict_of(ledger, arguments.id)
        results = [_both(ledger, record, todays(shop))]
        told = one_told(*results[0], more=arguments.more)
        plain = one_json(*results[0])
    else:
        now = todays(shop)
        closed = [r for r in records(ledger) if r.kind == VERDICT or r.line.body is None]
        results = [_both(ledger, record, now) for record in closed]
        told, plain = all_told(results), all_json(results)
    if arguments.json:
        write(as_text(plain), sys.stdout)
    else:
        show(told, sys.stdout)
    return DONE if all(r.again is Again.SAME for _, r, _ in results) else NO


def todays(shop: Shop | None) -> Rebuilt:
    """The rulebook and settings in force now."""
    from sootsayer.commands.records_given import rebuilt_of_today

    return rebuilt_of_today(shop)


def _both(ledger: Ledger, record: Record, now: Rebuilt) -> tuple[Record, Replayed, Today | None]:
    from sootsayer.ledger.replay_model import Why
    from sootsayer.ledger.replaying import replay
    from sootsayer.ledger.today import with_todays

    then = replay(ledger, record)
    if then.why is Why.CLOSED:
        return record, then, None
    return record, then, with_todays(ledger, record, now)


def verdict_of(ledger: Ledger, wanted: str) -> Record:
    """The record that is meant; an outcome is no verdict. Raises Refused."""
    from sootsayer.ledger.folder import refused
    from sootsayer.ledger.parts import OUTCOME, whole
    from sootsayer.ledger.reading import find

    record = find(ledger, wanted)
    if record.kind == OUTCOME:
        of = whole(record.body, "of", "number")
        what = f"record {record.number} is an outcome, and there is no verdict in it"
        raise refused(ledger, what, f"name the record that it points back to: {of}", record.number)
    return record
