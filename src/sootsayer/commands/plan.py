"""`sootsayer plan CASE`: the work, permitted or not, by what it costs to a lasting repair."""

from __future__ import annotations

import argparse
import sys

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import add_shared
from sootsayer.console.output import write

SUMMARY = "plan the work: what is permitted, in which order, at what cost"
DESCRIPTION = """\
Plan the work on a case: which remedies are permitted, forbidden or not yet clear, and
why; among the permitted, the order that costs least to a lasting repair; steps,
cautions, when to stop, what to verify, when to look again."""
EXAMPLE = """\
example:
  sootsayer plan blocked-by-short-trips
      the plan of a demonstration case
  sootsayer plan my-case.yaml --shop my-shop
      with the prices and times of a shop's own folder
  sootsayer plan --new-shop shop.yaml
      write a commented shop.yaml, never over a file that is there

CASE is the path of a case file, or the id of a case.
The exit code is 0 for any plan, and 2 where there is none because something
could not be read."""

NO_CASE = "no case is named"
NO_CASE_NEXT = "name one: sootsayer plan CASE; or write prices: sootsayer plan --new-shop FILE"
NOT_BOTH = "--new-shop writes a file and plans nothing"
NOT_BOTH_NEXT = "leave out the case, or --new-shop"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "case", metavar="CASE", nargs="?", help=say("path of a case file, or an id")
    )
    parser.add_argument(
        "--more",
        action="store_true",
        help=say("every remedy and every reason, instead of those that count"),
    )
    parser.add_argument(
        "--new-shop",
        metavar="FILE",
        help=say("write a commented shop.yaml to FILE, and nothing else"),
    )
    add_shared(parser)


def run(arguments: argparse.Namespace) -> int:
    """Plan and draw, or write a new shop's file. Raises Stop, Refused and OSError."""
    if arguments.new_shop is not None:
        if arguments.case is not None:
            raise Stop(say(NOT_BOTH), say(NOT_BOTH_NEXT))
        from sootsayer.commands.new_shop import write_new_shop

        return write_new_shop(arguments.new_shop)
    if arguments.case is None:
        raise Stop(say(NO_CASE), say(NO_CASE_NEXT))
    return _plan(arguments)


def _plan(arguments: argparse.Namespace) -> int:
    from sootsayer.commands.opened import as_text, open_case

    opened = open_case(arguments)

    from sootsayer.judgement.judge import judge

    verdict = judge(
        opened.case,
        opened.rulebook,
        now=opened.now,
        as_of=opened.as_of,
        shop=opened.shop,
        proposing=False,
        planning=True,
    )
    if arguments.json:
        from sootsayer.judgement.plan_json import as_json

        write(as_text(as_json(verdict)), sys.stdout)
        return DONE

    from sootsayer.console.names import names_of
    from sootsayer.console.plan_page import plan_page
    from sootsayer.console.screen import show

    names = names_of(opened.rulebook.model, opened.case, opened.shop)
    show(plan_page(verdict, names, more=arguments.more), sys.stdout)
    return DONE
