"""`sootsayer why CASE THING`: why, why not, and what would change it."""

from __future__ import annotations

import argparse
import sys

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import add_shared, short
from sootsayer.console.output import write

SUMMARY = "tell why, why not, and what would change it, for one thing"
DESCRIPTION = """\
Tell of one thing why it is so, or why not, down to the entry and the rule's line;
which unknown facts could change it, and which checks would tell them."""
EXAMPLE = """\
example:
  sootsayer why blocked-by-short-trips soot-overload
      what speaks for and against a fault
  sootsayer why my-case.yaml drive-on
      what an action waits for
  sootsayer why my-case.yaml dp@2500
      where a reading came from, and what reads it

THING is any id: a fault, finding, family, instrument, interlock, action, remedy,
limit, check, a signal or a signal at a point. judge --more names them."""

NO_THING = 'neither the rulebook nor the case has anything called "{thing}"'
NEAR = "did you mean: {near}? All ids: sootsayer judge {case} --more"
ALL_IDS = "see the ids: sootsayer judge {case} --more"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("case", metavar="CASE", help=say("path of a case file, or an id"))
    parser.add_argument("thing", metavar="THING", help=say("the id of what is asked about"))
    add_shared(parser)


def run(arguments: argparse.Namespace) -> int:
    """Ask and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_case

    opened = open_case(arguments)

    from sootsayer.judgement.why import why
    from sootsayer.judgement.why_answer import UnknownThing

    try:
        answer = why(
            opened.case,
            opened.rulebook,
            arguments.thing,
            now=opened.now,
            as_of=opened.as_of,
            shop=opened.shop,
        )
    except UnknownThing as unknown:
        raise _no_thing(unknown.thing, unknown.near, arguments.case) from None
    if arguments.json:
        from sootsayer.judgement.why_json import as_json

        write(as_text(as_json(answer)), sys.stdout)
        return DONE

    from sootsayer.console.names import names_of
    from sootsayer.console.screen import show
    from sootsayer.console.why_page import why_page

    names = names_of(opened.rulebook.model, opened.case, opened.shop)
    show(why_page(answer, names), sys.stdout)
    return DONE


def _no_thing(thing: str, near: tuple[str, ...], case: str) -> Stop:
    what = say(NO_THING, thing=short(thing))
    if near:
        return Stop(what, say(NEAR, near=", ".join(near), case=short(case)))
    return Stop(what, say(ALL_IDS, case=short(case)))
