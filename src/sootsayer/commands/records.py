"""`sootsayer records ...`: what was recommended, and why, months later."""

from __future__ import annotations

import argparse
from types import ModuleType

from sootsayer.catalogue import say
from sootsayer.commands import (
    records_explain,
    records_export,
    records_keep,
    records_list,
    records_outcome,
    records_replay,
    records_verify,
)
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import HelpShape, Parser, add_language

SUMMARY = "keep verdicts, and prove, replay and explain them months later"
DESCRIPTION = """\
A ledger of verdicts as they were given, in which each record names the one before:
what was recommended, on what grounds, by which rules, what was decided otherwise,
and what came of it. It is no electronic signature."""
EXAMPLE = """\
example:
  sootsayer records keep blocked-by-short-trips --by tech-1
      keep the verdict, and print the head digest for the job sheet
  sootsayer records verify --head "1f0c..."
      whether the ledger is whole, and holds the record that is on paper

Each action has its own help: sootsayer records keep --help"""

ACTIONS: dict[str, ModuleType] = {
    "keep": records_keep,
    "verify": records_verify,
    "list": records_list,
    "replay": records_replay,
    "explain": records_explain,
    "outcome": records_outcome,
    "export": records_export,
}
NO_ACTION = "no action is named"
NO_ACTION_NEXT = "name one of: {known}; each has its own help"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions."""
    actions = parser.add_subparsers(
        dest="action", metavar="ACTION", title="actions", parser_class=Parser
    )
    for name, module in ACTIONS.items():
        below = actions.add_parser(
            name,
            help=module.SUMMARY,
            description=module.DESCRIPTION,
            epilog=module.EXAMPLE,
            formatter_class=HelpShape,
            allow_abbrev=False,
        )
        module.fill(below)
        if module is not records_keep:  # whose words are part of what it keeps
            add_language(below)


def run(arguments: argparse.Namespace) -> int:
    """Do it. Raises Stop, Refused and OSError."""
    if arguments.action is None:
        raise Stop(say(NO_ACTION), say(NO_ACTION_NEXT, known=", ".join(ACTIONS)))
    if arguments.language is not None:
        from sootsayer.commands.opened import language_of

        language_of(arguments.language, None)
    code: int = ACTIONS[arguments.action].run(arguments)
    return code
