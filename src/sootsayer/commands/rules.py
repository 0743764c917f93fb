"""`sootsayer rules ...`: the rulebook itself, checked, shown, added to and held against cases."""

from __future__ import annotations

import argparse
from types import ModuleType

from sootsayer.commands import rules_backtest, rules_check, rules_new, rules_rates, rules_show
from sootsayer.commands.usage import add_actions, run_action

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


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions."""
    add_actions(parser, ACTIONS)


def run(arguments: argparse.Namespace) -> int:
    """Do it. Raises Stop, Refused and OSError."""
    return run_action(arguments, ACTIONS)
