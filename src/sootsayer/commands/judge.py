"""`sootsayer judge CASE`: the verdict with its grounds."""

from __future__ import annotations

import argparse
import sys

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE
from sootsayer.commands.usage import add_shared
from sootsayer.console.output import write

SUMMARY = "judge a case: may it be driven, what is wrong, why, what next"
DESCRIPTION = """\
Judge a case: whether it may be driven, which faults explain what was found and how
sure that is, what speaks for and against each, what was set aside, what is open."""
EXAMPLE = """\
example:
  sootsayer judge blocked-by-short-trips
      the short page of a demonstration case
  sootsayer judge my-case.yaml --more
      everything, with the entry and the rule's line behind each thing said

CASE is the path of a case file, or the id of a demonstration case.
The exit code is 0 for any verdict, and 2 where there is none because something
could not be read."""


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("case", metavar="CASE", help=say("path of a case file, or an id"))
    parser.add_argument(
        "--more", action="store_true", help=say("everything, instead of one screen of it")
    )
    add_shared(parser)


def run(arguments: argparse.Namespace) -> int:
    """Judge and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_case

    opened = open_case(arguments)

    from sootsayer.judgement.judge import judge
    from sootsayer.judgement.wishes import wish_entered

    verdict = judge(
        opened.case,
        opened.rulebook,
        now=opened.now,
        as_of=opened.as_of,
        shop=opened.shop,
        # No page of this command draws it, but for the lawful work where a wish is declined.
        planning=arguments.json or wish_entered(opened.case),
    )
    if arguments.json:
        from sootsayer.judgement.verdict_json import as_json

        write(as_text(as_json(verdict)), sys.stdout)
        return DONE

    from sootsayer.console.names import names_of
    from sootsayer.console.screen import show

    names = names_of(opened.rulebook.model, opened.case, opened.shop)
    if arguments.more:
        from sootsayer.console.judge_more import judge_more_page

        show(judge_more_page(verdict, names), sys.stdout)
        return DONE
    from sootsayer.console.judge_page import judge_page

    show(judge_page(verdict, names), sys.stdout)
    return DONE
