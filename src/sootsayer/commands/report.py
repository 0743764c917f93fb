"""`sootsayer report CASE`: the printable page for customer and file."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

from sootsayer.catalogue import language, say, shown, speaking
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import add_moment, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.commands.opened import Opened
    from sootsayer.console.compare_page import Told
    from sootsayer.console.names import Names
    from sootsayer.judgement.verdict import Verdict
    from sootsayer.judgement.workings import Workings
    from sootsayer.report.reported import Reported

SUMMARY = "the printable page: one for the customer, one for the file"
DESCRIPTION = """\
Write a report on a case as one self-contained HTML page, or as plain text: a sheet
for the customer in everyday words (what was wrong, how sure that is, what was done,
what it cost, how it stays good, when to come back, what was not checked), and a
sheet for the file (readings and conditions, rules and revisions, confidence,
cautions shown, who and when, digests)."""
EXAMPLE = """\
example:
  sootsayer report estate-before-and-after -o report.html
      both sheets, to be opened in a browser and printed on A4 or Letter
  sootsayer report my-case.yaml --customer --text
      the customer's sheet as plain text on the screen

CASE is the path of a case file, or the id of a demonstration case.
A file that is there already is never written over."""

TITLE = "Report on {case}"
CANNOT_WRITE = "{file}: {why}"
WRITTEN = "Written: {file}"
CANNOT_WRITE_NEXT = "give another name for the report; nothing was written"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("case", metavar="CASE", help=say("path of a case file, or an id"))
    parser.add_argument(
        "-o", dest="out", metavar="FILE", help=say("write it here (else on the screen)")
    )
    only = parser.add_mutually_exclusive_group()
    only.add_argument("--customer", action="store_true", help=say("the customer's sheet alone"))
    only.add_argument("--file", action="store_true", help=say("the sheet for the file alone"))
    parser.add_argument("--text", action="store_true", help=say("plain text, as on a terminal"))
    parser.add_argument(
        "--customer-language",
        metavar="LANGUAGE",
        help=say("the customer's sheet in this language (else in that of the file's)"),
    )
    add_moment(parser)


def run(arguments: argparse.Namespace) -> int:
    """Judge, gather and write. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import open_case
    from sootsayer.console.screen_width import width_of
    from sootsayer.report.customer_page import customer_page
    from sootsayer.report.file_page import file_page
    from sootsayer.report.html_page import html_page
    from sootsayer.report.plain_page import WIDTH, plain_page

    opened = open_case(arguments)
    of = gathered(opened)
    sheets = []
    if not arguments.file:
        with _for_customer(opened, arguments.customer_language) as for_customer:
            told = of if for_customer is opened else gathered(for_customer)
            sheets.append(replace(customer_page(told), language=language()))
    if not arguments.customer:
        sheets.append(replace(file_page(of), language=language()))
    if arguments.text or (arguments.out is None and sys.stdout.isatty()):
        text = plain_page(sheets, WIDTH if arguments.out else width_of(sys.stdout))
    else:
        whole = sheets[-1].language  # the file's sheet, else the only one
        with speaking(whole):
            title = say(TITLE, case=opened.case.id)
        text = html_page(sheets, title, whole)
    if arguments.out is None:
        write(text, sys.stdout)
    else:
        _save(arguments.out, text)
        write(say(WRITTEN, file=short(arguments.out)) + "\n", sys.stdout)
    return DONE


@contextmanager
def _for_customer(opened: Opened, named: str | None) -> Iterator[Opened]:
    """What was opened in the customer's language, which is in force meanwhile. Raises Stop for a
    language without words."""
    from sootsayer.commands.opened import in_language

    with speaking(language()):
        yield opened if named is None else in_language(opened, named)


def gathered(opened: Opened) -> Reported:
    """What the sheets draw, from a case that is read."""
    from sootsayer.console.names import names_of
    from sootsayer.judgement.judge import tell
    from sootsayer.judgement.workings import work_out
    from sootsayer.report.reported import Reported

    case, rulebook = opened.case, opened.rulebook
    work = work_out(case, rulebook, opened.now, opened.as_of, opened.shop)
    verdict = tell(work, proposing=False, planning=True)
    names = names_of(rulebook.model, case, opened.shop)
    return Reported(
        work=work,
        verdict=verdict,
        at_arrival=_at_arrival(opened, work, verdict),
        names=names,
        told=_told(work, verdict, names),
        digest=opened.digest,
        made=opened.now,
        head=_head(opened),
    )


def _head(opened: Opened) -> tuple[int, str] | None:
    """The last record of the ledger; number 0 where that does not hold or cannot be read, which
    is no reason to refuse a report."""
    from sootsayer.commands.records_shared import ledger_at
    from sootsayer.documents.problems import Refused
    from sootsayer.ledger.adding import head_of

    try:
        line = head_of(ledger_at(None, opened.shop))
    except (Refused, OSError):
        return 0, ""
    return None if line is None else (line.number, line.digest)


def _at_arrival(opened: Opened, work: Workings, verdict: Verdict) -> Verdict:
    """As the case stood when its first round had been read, before later rounds and work."""
    from sootsayer.casework.facts import rounds_read
    from sootsayer.judgement.judge import judge

    rounds = list(rounds_read(opened.case, work.model, work.sheet.as_of).values())
    if len(rounds) < 2:
        return verdict
    last = min(rounds[0][1], rounds[1][0] - 1)
    now = opened.case.entries[last - 1].at
    return judge(
        opened.case, opened.rulebook, now=now, as_of=last, shop=opened.shop, proposing=False
    )


def _told(work: Workings, verdict: Verdict, names: Names) -> Told | None:
    """Before and after, of the first round that has readings and the newest."""
    from sootsayer.console.compare_page import Told
    from sootsayer.judgement.compare import compare, rounds_of
    from sootsayer.judgement.compare_flow import flow_picture
    from sootsayer.judgement.compare_remains import what_remains

    rounds = rounds_of(work)
    if len(rounds) < 2:
        return None
    compared = compare(work, rounds[0], rounds[-1])
    remains = what_remains(work, verdict, compared.to_round)
    return Told(compared, remains, flow_picture(work, compared), names)


def _save(file: str, text: str) -> None:
    """Write the report; a file that is there already is never written over. Raises Stop."""
    from pathlib import Path

    from sootsayer.documents.writing import CannotWrite, replace_file

    try:
        replace_file(Path(file), text, new=True)
    except CannotWrite as refused:
        raise Stop(
            say(CANNOT_WRITE, file=short(file), why=shown(refused.why)), say(CANNOT_WRITE_NEXT)
        ) from None
