"""`sootsayer records explain ID`: the page for an assessor."""

from __future__ import annotations

import argparse
import sys

from sootsayer.catalogue import language, say, shown
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.records_shared import add_ledger, add_shop, ledger_of
from sootsayer.commands.usage import short
from sootsayer.console.output import write

SUMMARY = "the page for an assessor: what was known when, and why it was said"
DESCRIPTION = """\
The page for an assessor of one record: what was known when, entry by entry, and what
each answer did to the confidence; what was advised, permitted and cautioned; what was
decided otherwise; what came of it. Nothing that was learned later is used but in the
part that says so."""
EXAMPLE = """\
example:
  sootsayer records explain 12
      as plain text on the screen
  sootsayer records explain 12 -o record-12.html
      as a page to print

ID is the record's number, its digest, or its case (then the newest of it)."""

TITLE = "Record {number}: {case}"
CANNOT_WRITE = "{file}: {why}"
CANNOT_WRITE_NEXT = "give another name for the page; nothing was written"
_HTML = (".html", ".htm")


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("id", metavar="ID", help=say("a number, a digest or a case"))
    parser.add_argument(
        "-o",
        dest="out",
        metavar="FILE",
        help=say("write it here: .html as a page, else plain text"),
    )
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Go through the record and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.records_replay import verdict_of
    from sootsayer.console.screen_width import width_of
    from sootsayer.ledger.explaining import explain
    from sootsayer.ledger.reading import outcomes_of
    from sootsayer.ledger.replaying import replay
    from sootsayer.report.assessor_page import Assessed, assessor_page
    from sootsayer.report.html_page import html_page
    from sootsayer.report.plain_page import plain_page

    ledger = ledger_of(arguments)
    record = verdict_of(ledger, arguments.id)
    of = Assessed(
        record, explain(ledger, record), replay(ledger, record), outcomes_of(ledger, record)
    )
    sheet = assessor_page(of)
    out = arguments.out
    if out is None:
        write(plain_page([sheet], width_of(sys.stdout)), sys.stdout)
        return DONE
    text = plain_page([sheet])
    if out.lower().endswith(_HTML):
        title = say(TITLE, number=record.number, case=record.case)
        text = html_page([sheet], title, language())
    _save(out, text)
    return DONE


def _save(file: str, text: str) -> None:
    """A file that is there already is never written over. Raises Stop."""
    from pathlib import Path

    from sootsayer.documents.writing import CannotWrite, replace_file

    try:
        replace_file(Path(file), text, new=True)
    except CannotWrite as refused:
        what = say(CANNOT_WRITE, file=short(file), why=shown(refused.why))
        raise Stop(what, say(CANNOT_WRITE_NEXT)) from None
