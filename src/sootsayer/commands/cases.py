"""`sootsayer cases`: the open cases of the shop, and synthetic ones."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.commands import cases_make
from sootsayer.commands.leaving import DONE
from sootsayer.commands.usage import HelpShape, Parser, add_language
from sootsayer.console.output import write

SUMMARY = "list the open cases of the shop; make synthetic ones"
LISTING = "list the open cases of the shop"
LISTS = "List the open cases of the shop."
DESCRIPTION = "The cases of a folder: which are open, and how far each is."
EXAMPLE = """\
example:
  sootsayer cases list
      the open cases of the shop, else of the folder cases here
  sootsayer cases list --all --json
      the closed ones too, for a program
  sootsayer cases list --demonstration
      the cases that came with sootsayer, each with its story"""


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions; `list` is meant where none is named."""
    actions = parser.add_subparsers(
        dest="action", metavar="ACTION", title="actions", parser_class=Parser
    )
    listing = actions.add_parser(
        "list", help=say(LISTING), description=say(LISTS), epilog=say(EXAMPLE),
        formatter_class=HelpShape, allow_abbrev=False,
    )  # fmt: skip
    making = actions.add_parser(
        "make", help=cases_make.SUMMARY, description=cases_make.DESCRIPTION,
        epilog=cases_make.EXAMPLE, formatter_class=HelpShape, allow_abbrev=False,
    )  # fmt: skip
    cases_make.fill(making)
    listing.add_argument(
        "--demonstration", action="store_true", help=say("those that came with sootsayer instead")
    )
    for each in (parser, listing):
        default = argparse.SUPPRESS if each is listing else None
        unsaid = default or False
        each.add_argument(
            "--all", action="store_true", default=unsaid, help=say("the closed ones too")
        )
        each.add_argument(
            "--json", action="store_true", default=unsaid,
            help=say("print it as JSON, for a program"),
        )  # fmt: skip
        each.add_argument(
            "--shop",
            metavar="DIR",
            default=default,
            help=say(
                "the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"
            ),
        )
        add_language(each)


def run(arguments: argparse.Namespace) -> int:
    """List them, or make some. Raises Stop, Refused and OSError."""
    if arguments.action == "make":
        return cases_make.run(arguments)
    from sootsayer.commands.case_shelf import SUFFIX, case_line, shelved
    from sootsayer.commands.find_case import HERE
    from sootsayer.commands.opened import as_text, language_of, open_shop
    from sootsayer.console import ask_texts as t
    from sootsayer.console.laying import laid

    shop = open_shop(arguments.shop)
    language_of(arguments.language, shop)
    if getattr(arguments, "demonstration", False):  # an option of `cases list` alone
        return _demonstrations(arguments.json)
    folder = Path(HERE) if shop is None else shop.cases
    cases = [case for case in shelved(folder) if arguments.all or not case.closed]
    if arguments.json:
        plain: list[object] = [
            {
                "case": case.id, "file": str(case.path), "vehicle": case.label,
                "entries": case.entries, "last": case.last or None, "closed": case.closed,
            }
            for case in cases
        ]  # fmt: skip
        write(as_text({"format": 1, "folder": str(folder), "cases": plain}), sys.stdout)
        return DONE
    readable = [case for case in cases if case.id is not None]
    lines = [say(t.OPEN_CASES if readable else t.NO_OPEN_CASES, folder=str(folder))]
    lines += [case_line(number, case) for number, case in enumerate(readable, start=1)]
    broken = (case for case in cases if case.id is None)
    lines += [say(t.UNREADABLE, file=case.path.name.removesuffix(SUFFIX)) for case in broken]
    write("".join(f"{line}\n" for line in laid(lines, sys.stdout)), sys.stdout)
    return DONE


def _demonstrations(as_json: bool) -> int:
    from sootsayer.commands.cases_shipped import WIDTH, lines_of, stories_in
    from sootsayer.commands.opened import as_text
    from sootsayer.rulebook.shipped import shipped_cases

    stories = stories_in(shipped_cases())
    if as_json:
        plain: list[object] = [{"case": case, "story": story} for case, story in stories.items()]
        write(as_text({"format": 1, "folder": str(shipped_cases()), "cases": plain}), sys.stdout)
    else:
        from sootsayer.console.screen_width import width_of

        lines = lines_of(stories, min(WIDTH, width_of(sys.stdout)))
        write("".join(f"{line}\n" for line in lines), sys.stdout)
    return DONE
