"""`sootsayer records list`: by date, vehicle, fault, technician."""

from __future__ import annotations

import argparse
import re
import sys
from datetime import datetime, timedelta

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.records_shared import add_json, add_ledger, add_shop, ledger_of
from sootsayer.commands.usage import short
from sootsayer.console.output import write

SUMMARY = "list records by date, vehicle, fault or technician"
DESCRIPTION = """\
List the records of the ledger, newest first: when, which case, who, and what led or
came of it. Without --all the newest twenty."""
EXAMPLE = """\
example:
  sootsayer records list --since 2031-03-01 --fault soot-overload
      of March on, where this fault led or was confirmed
  sootsayer records list --all --json
      all of them, for a program"""

USUAL = 20
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
NO_DAY = '"{text}" is no day'
NO_DAY_NEXT = "write it like 2031-03-14"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("--since", metavar="DAY", help=say("kept on this day or later"))
    parser.add_argument("--until", metavar="DAY", help=say("kept on this day or earlier"))
    parser.add_argument("--vehicle", metavar="TEXT", help=say("with this in the vehicle's label"))
    parser.add_argument(
        "--fault", metavar="ID", help=say("in which this fault led or was confirmed")
    )
    parser.add_argument("--by", metavar="ID", help=say("kept by this person"))
    parser.add_argument("--case", metavar="ID", help=say("of this case"))
    parser.add_argument(
        "--all", action="store_true", help=say("all of them, not the newest twenty")
    )
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Search and draw. Raises Stop, Refused and OSError."""
    from sootsayer.ledger.index import Wanted, search

    wanted = Wanted(
        since=_day(arguments.since, 0),
        until=_day(arguments.until, 1),
        vehicle=arguments.vehicle,
        fault=arguments.fault,
        by=arguments.by,
        case=arguments.case,
    )
    from sootsayer.console.records_list import as_json, nothing_yet, table

    ledger = ledger_of(arguments)
    if arguments.ledger is None and not arguments.json and not ledger.exists():
        write(nothing_yet(ledger.folder), sys.stdout)
        return DONE
    found = search(ledger, wanted, None if arguments.all else USUAL)

    from sootsayer.console.screen_width import width_of

    write(as_json(found) if arguments.json else table(found, width_of(sys.stdout)), sys.stdout)
    return DONE


def _day(text: str | None, later: int) -> float | None:
    """The beginning of a day here, or of the one after it. Raises Stop."""
    if text is None:
        return None
    try:
        if not _DAY.fullmatch(text):
            raise ValueError
        return (datetime.fromisoformat(text) + timedelta(days=later)).timestamp()
    except (ValueError, OverflowError):
        raise Stop(say(NO_DAY, text=short(text)), say(NO_DAY_NEXT)) from None
