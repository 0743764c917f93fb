"""`sootsayer rules ...`: the rulebook itself, checked, shown, added to and held against cases."""

from __future__ import annotations

import argparse
from types import ModuleType

from sootsayer.catalogue import say
from sootsayer.commands import rules_backtest, rules_check, rules_new, rules_rates, rules_show
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import HelpShape, Parser

# What each does is imported when it is run.
ACTIONS: dict[str, ModuleType] = {
    "check": rules_check,
    "show": rules_show,
    "new": rules_new,
    "backtest": rules_backtest,
    "rates": rules_rates,
}

SUMMARY = "check, show and add to the rules; try them on closed cases"
DESCRIPTION = """\
The rulebook: what is wrong with it, what it says, rules of your own, and what closed
cases say of it. Nothing here changes a number."""
EXAMPLE = """\
example:
  sootsayer rules check
      everything that can be found wrong with the rules in force
  sootsayer rules show soot-overload
      the page of a fault, a finding, a check or anything else with an id
  sootsayer rules new
      teach it something that you have seen
  sootsayer rules backtest packs/shop-own.yaml
      what a pack would have changed in closed cases

Each action has its own help: sootsayer rules check --help"""
NO_ACTION = "rules wants to know what to do"
ACTIONS_ARE = "write one of: {known}"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions."""
    actions = parser.add_subparsers(
        dest="action", metavar="ACTION", title="actions", parser_class=Parser
    )
    for name, module in ACTIONS.items():
        action = actions.add_parser(
            name,
            help=module.SUMMARY,
            description=module.DESCRIPTION,
            epilog=module.EXAMPLE,
            formatter_class=HelpShape,
            allow_abbrev=False,
        )
        module.fill(action)


def run(arguments: argparse.Namespace) -> int:
    """Do it. Raises Stop, Refused and OSError."""
    if arguments.action is None:
        raise Stop(say(NO_ACTION), say(ACTIONS_ARE, known=", ".join(ACTIONS)))
    code: int = ACTIONS[arguments.action].run(arguments)
    return code
