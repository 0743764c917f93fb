"""`sootsayer rules new`: a conversation that makes a rule of what somebody has seen."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, INTERRUPTED, Stop
from sootsayer.commands.usage import add_language
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.commands.ask_typing import Typing

SUMMARY = "teach it a rule: a conversation that writes and proves a small pack"
DESCRIPTION = """\
Teach it something that you have seen. It asks in sentences: what you see, how one
knows it, from what value, with which fault and how often, how you know. It makes the
proofs itself, tries the rule with those in force, writes a small commented pack into
the shop's folder, and says which closed cases it would have changed."""
EXAMPLE = """\
example:
  sootsayer rules new
      nine questions; nothing is written before the last
  sootsayer rules new --answers answers.txt
      the same from a file: one answer a line, - for what stands in [ ]

Ctrl-C and `stop` leave with nothing written. The exit code is 0 when it ends, 2 where
something could not be read or written or an answer in the file was not taken, 130
after Ctrl-C."""


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "--answers", metavar="FILE", help=say("one answer a line, from FILE (- is standard input)")
    )
    parser.add_argument(
        "--shop", metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )  # fmt: skip
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Ask, try, write. Raises Stop, Refused and OSError."""
    from sootsayer.commands.teaching.lesson import Lesson
    from sootsayer.commands.teaching.talk import Left, Talk
    from sootsayer.console import rules_new_texts as t

    typing = _typing(arguments.answers)
    lesson = Lesson.begun(arguments.shop, arguments.language, Talk(typing))
    try:
        lesson.run()
    except Left:
        write(f"{say(t.LEFT)}\n", sys.stdout)
    except KeyboardInterrupt:
        write(f"\n{say(t.NOTHING_WRITTEN)}\n", sys.stdout)
        return INTERRUPTED
    return DONE


def _typing(answers: str | None) -> Typing:
    from sootsayer.commands.ask_typing import AtTerminal, answers_from, at_a_terminal
    from sootsayer.console import rules_new_texts as t

    if answers is not None:
        return answers_from(answers)
    if not at_a_terminal():
        raise Stop(say(t.NOBODY), say(t.NOBODY_NEXT))
    sys.stdin.reconfigure(errors="replace")  # type: ignore[union-attr]
    return AtTerminal()
