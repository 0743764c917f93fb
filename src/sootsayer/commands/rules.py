"""`sootsayer rules ...`: what may be done with packs; each action has its own file."""

from __future__ import annotations

import argparse
from types import ModuleType

from sootsayer.catalogue import say
from sootsayer.commands import rules_backtest, rules_rates
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import HelpShape, Parser

SUMMARY = "try packs on closed cases; count how often findings come with faults"
DESCRIPTION = "What may be done with packs and closed cases. Nothing here changes a rule."
EXAMPLE = """\
example:
  sootsayer rules backtest packs/shop-own.yaml
  sootsayer rules rates"""

ACTIONS: dict[str, ModuleType] = {"backtest": rules_backtest, "rates": rules_rates}

WHICH = "rules needs an action"
ACTIONS_ARE = "write one of: {known}"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions."""
    actions = parser.add_subparsers(
        dest="action", metavar="ACTION", title="actions", parser_class=Parser
    )
    for name, module in ACTIONS.items():
        sub = actions.add_parser(
            name,
            help=module.SUMMARY,
            description=module.DESCRIPTION,
            epilog=module.EXAMPLE,
            formatter_class=HelpShape,
            allow_abbrev=False,
        )
        module.fill(sub)


def run(arguments: argparse.Namespace) -> int:
    """The action's own exit code. Raises Stop, Refused and OSError."""
    if arguments.action is None:
        raise Stop(say(WHICH), say(ACTIONS_ARE, known=", ".join(ACTIONS)))
    code: int = ACTIONS[arguments.action].run(arguments)
    return code
