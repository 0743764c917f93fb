"""How a command ends: its exit codes, and messages that say what to do next."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from sootsayer.catalogue import Said, say
from sootsayer.console.output import write

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
    lines = say(WHAT_NEXT, what=what, instead=instead).split("\n")
    if _on_terminal(sys.stderr):
        from sootsayer.console.screen_width import width_of

        width = width_of(sys.stderr)
        lines = [part for line in lines for part in _laid(line, width)]
    complain_lines(lines)


def _on_terminal(stream: TextIO | None) -> bool:
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def _laid(line: str, width: int) -> list[str]:
    import textwrap

    return textwrap.wrap(
        line, width, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
    )


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
