"""`sootsayer completion SHELL`: the script that completes the command line in a shell."""

from __future__ import annotations

import argparse
import sys

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE
from sootsayer.console.output import write

SHELLS = ("bash", "zsh", "fish", "powershell")
SUMMARY = "print what makes your shell complete commands, cases and ids"
DESCRIPTION = """\
Print a script that lets the Tab key complete commands, options, cases, packs and the
ids of the rules. The script looks into folders by itself: Tab never waits for this
program. Print it again after an upgrade."""
EXAMPLE = """\
example:
  eval "$(sootsayer completion bash)"
      bash: this line in ~/.bashrc
  eval "$(sootsayer completion zsh)"
      zsh: this line in ~/.zshrc, below compinit
  sootsayer completion fish > ~/.config/fish/completions/sootsayer.fish
      fish
  sootsayer completion powershell | Out-String | Invoke-Expression
      PowerShell: this line in the file that $PROFILE names"""


def fill(parser: argparse.ArgumentParser) -> None:
    """Its argument."""
    parser.add_argument(
        "shell",
        metavar="SHELL",
        choices=SHELLS,
        help=say("one of: {known}", known=", ".join(SHELLS)),
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the script. Raises OSError."""
    from sootsayer.commands.completing.script import script
    from sootsayer.commands.completing.table import table
    from sootsayer.commands.main import parser
    from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

    text = script(arguments.shell, table(parser()), shipped_rules(), shipped_cases())
    write(text, sys.stdout)
    return DONE
