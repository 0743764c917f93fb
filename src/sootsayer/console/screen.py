"""The screen as it is: how wide, and whether it has colour."""

from __future__ import annotations

import io
import os
from collections.abc import Iterable
from functools import cache
from typing import TextIO

from rich.console import Console, RenderableType

from sootsayer.catalogue import Said
from sootsayer.console.output import write
from sootsayer.console.paper import Line, page
from sootsayer.console.screen_width import PLAIN_WIDTH, width_of

__all__ = ["PLAIN_WIDTH", "drawn", "has_colour", "plain_console", "show", "show_lines", "width_of"]


def has_colour(stream: TextIO) -> bool:
    """Only on a terminal that takes it, and never with NO_COLOR set (to anything but "")."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    return stream.isatty()


@cache
def plain_console(width: int = PLAIN_WIDTH) -> Console:
    """A console that draws to nowhere without a single escape code, to measure with."""
    return _console(io.StringIO(), width, colour=False)


def drawn(renderable: RenderableType, *, width: int = PLAIN_WIDTH, colour: bool = False) -> str:
    """The renderable as text, with escape codes only when `colour`."""
    out = io.StringIO()
    _console(out, width, colour=colour).print(
        renderable, markup=False, highlight=False, emoji=False, crop=False, soft_wrap=False
    )
    return out.getvalue()


def show(renderable: RenderableType, stream: TextIO) -> None:
    """Draw on `stream` as it can take it. Raises OSError, BrokenPipeError among them."""
    colour = has_colour(stream) and not Console(file=stream).legacy_windows
    write(drawn(renderable, width=width_of(stream), colour=colour), stream)


def show_lines(lines: Iterable[Said], stream: TextIO) -> None:
    """Sentences one below the other, wrapped; what is indented stays so."""
    show(
        page([Line(Said(s.lstrip(" ")), indent=len(s) - len(s.lstrip(" "))) for s in lines]), stream
    )


def _console(out: TextIO, width: int, *, colour: bool) -> Console:
    return Console(
        file=out,
        width=width,
        color_system="standard" if colour else None,
        force_terminal=colour,
        no_color=not colour,
        legacy_windows=False,
        markup=False,
        highlight=False,
        emoji=False,
        _environ={},
    )
