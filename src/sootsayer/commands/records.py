"""`sootsayer records ...`: what was recommended, and why, months later."""

from __future__ import annotations

import argparse
from types import ModuleType

from sootsayer.commands import (
    records_explain,
    records_export,
    records_keep,
    records_list,
    records_outcome,
    records_replay,
    records_verify,
)
from sootsayer.commands.usage import add_actions, add_language, run_action

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


def fill(parser: argparse.ArgumentParser) -> None:
    """Its actions."""
    for name, below in add_actions(parser, ACTIONS).items():
        if ACTIONS[name] is not records_keep:  # whose words are part of what it keeps
            add_language(below)


def run(arguments: argparse.Namespace) -> int:
    """Do it. Raises Stop, Refused and OSError."""
    if arguments.language is not None:
        from sootsayer.commands.opened import language_of

        language_of(arguments.language, None)
    return run_action(arguments, ACTIONS)
