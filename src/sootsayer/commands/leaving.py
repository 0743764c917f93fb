"""How a command ends: its exit codes, and messages that say what to do next."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING, TextIO

from sootsayer.catalogue import Said, say
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.documents.problems import Problem

DONE = 0
NO = 1  # the answer is no
WRONG = 2  # wrong or unreadable input, usage, disk or rights
INTERRUPTED = 130

WHAT_NEXT = "sootsayer: {what}\n  → {instead}"


class Stop(Exception):  # noqa: N818 (it ends a command; what is wrong need not be an error)
    """Ends a command with exit code 2: `what` is wrong, `instead` is the next action."""

    def __init__(self, what: Said, instead: Said) -> None:
        self.what = what
        self.instead = instead
        super().__init__(what)


def complain(what: Said, instead: Said) -> None:
    """On stderr: what is wrong, and the next action. On a terminal no word is broken in two."""
    from sootsayer.console.laying import laid

    complain_lines(laid(say(WHAT_NEXT, what=what, instead=instead).split("\n"), sys.stderr))


def complain_problems(problems: Iterable[Problem]) -> None:
    """On stderr: each with its place, the line that it is in, and what would be right."""
    from sootsayer.console.laying import laid, on_terminal
    from sootsayer.console.screen_width import width_of
    from sootsayer.documents.report_problems import QUOTED, QUOTED_AT, problem_lines

    stream = sys.stderr
    quoted = QUOTED
    if stream is not None and on_terminal(stream):
        quoted = min(QUOTED, width_of(stream) - QUOTED_AT)
    complain_lines(laid(problem_lines(problems, quoted), stream))


def complain_lines(lines: list[str]) -> None:
    """On stderr, as it can take it; nothing where there is no stderr to write to."""
    if sys.stderr is None:
        return
    try:
        write("".join(f"{line}\n" for line in lines), sys.stderr)
    except (OSError, ValueError):
        hush(sys.stderr)


def hush(stream: TextIO | None) -> None:
    """Point a broken stream at nothing, so that Python's own last flush cannot fail."""
    if stream is None:
        return
    try:
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, stream.fileno())
        os.close(nothing)
    except (OSError, ValueError):
        return
