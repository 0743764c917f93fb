"""Plain lines laid out for the screen they go to: on a terminal none is wider than that is."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from typing import TextIO

from sootsayer.console.screen_width import width_of

_HANGING = "    "
# A line of a file that is quoted, the mark below it, and the mended line: they stay as they are.
_QUOTED = (_HANGING, "  + ")


def on_terminal(stream: TextIO | None) -> bool:
    """Whether somebody sits in front of it."""
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def laid(lines: Iterable[str], stream: TextIO | None) -> list[str]:
    """On a terminal texts are folded between words, with what follows hanging; elsewhere, and
    where a file is quoted, they are as they are."""
    if stream is None or not on_terminal(stream):
        return list(lines)
    width = width_of(stream)
    return [part for line in lines for part in _folded(line, width)]


def _folded(line: str, width: int) -> list[str]:
    if line.startswith(_QUOTED):
        return [line]
    return textwrap.wrap(
        line, width, subsequent_indent=_HANGING, break_long_words=False, break_on_hyphens=False
    ) or [line]
