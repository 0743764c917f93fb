"""Writes docs/reference/commands.md from the commands' own help.

After a change of a command: `python -m tests.commands.reference`.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from sootsayer.commands.main import COMMANDS, parser

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "commands.md"

TOP = """\
# Commands

<!-- Written from the commands' own help by `python -m tests.commands.reference`. -->

CASE is the path of a case file; else the id of a case of the shop (without a shop, of a case in the
folder `cases` here); else the id of a demonstration case; else the name of a case file here
without its `.yaml`.
`sootsayer` alone says what it is and what to type next; `python -m sootsayer` does the same.

| exit code | means |
|---|---|
| 0 | done; for `judge`, any verdict |
| 1 | the answer is no: `readings` without a steady window; `compare` not shown, worse or refused; \
`rules check` with errors in packs that can be read; \
`rules backtest` with a looser permission; \
`records verify` and `replay` where something is not as it was |
| 2 | wrong or unreadable input, wrong usage, disk or rights |
| 130 | ended with Ctrl-C |

[Exit codes](exit-codes.md) has examples of each.

Problems go to stderr, each with what is wrong, where, and what would be right. A reader who closes
the pipe early (`sootsayer judge CASE | head`) is no problem: exit code 0.

**The moment** that a case is judged at is `--at`; else, of a state before the last entry
(`--as-of`), the time of that entry; else, of a closed or demonstration case, the time of the last
entry before the outcome; else the clock. It decides what has become too old to permit anything.

**The screen.** On a terminal the page is as wide as the terminal, between 40 and 100 columns; in a
pipe or file it is 80 columns of plain text. `NO_COLOR` turns colour off. What the terminal's
encoding does not know is replaced.

**JSON** (`--json`) is plain ASCII; its forms: [verdict](verdict.md), [why](why.md),
[comparison](comparison.md), [readings](readings.md), [the check of the rules](rules-check.md),
[backtest and rates](archive-json.md), [records](record-format.md).
"""


def commands() -> dict[str, argparse.ArgumentParser]:
    """Each command line by what is typed, the program itself first."""
    top = parser()
    subs = next(a for a in top._actions if isinstance(a, argparse._SubParsersAction))
    found: dict[str, argparse.ArgumentParser] = {"sootsayer": top}
    for name in COMMANDS:
        found[f"sootsayer {name}"] = subs.choices[name]
        found |= {f"sootsayer {name} {each}": below for each, below in _below(subs.choices[name])}
    return found


def _below(parser: argparse.ArgumentParser) -> list[tuple[str, argparse.ArgumentParser]]:
    """The actions of a command that has some."""
    return [
        pair
        for action in parser._actions
        if isinstance(action, argparse._SubParsersAction)
        for pair in action.choices.items()
    ]


def page() -> str:
    """The page as it should be."""
    parts = [TOP]
    for name, each in commands().items():
        parts.append(f"## {name}\n\n```text\n{each.format_help()}```\n")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
