"""A page of lines: text that is wrapped with a hanging indent, and may have a right column.

Drawn as rich `Text`, never as markup; every text in it has been made visible before.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from rich.cells import cell_len
from rich.console import Console, ConsoleOptions, RenderResult
from rich.text import Text

from sootsayer.catalogue import Said

# The one accent, and emphasis; colour only repeats what words and places already say.
HEADING = "bold cyan"  # not said
BAR = "cyan"
STRONG = "bold"
QUIET = "dim"

_LEAST_WIDTH = 20
# rich folds at every space, at one that holds its neighbours together as well: while it folds, a
# character stands for those that no text has (the escaping writes it out).
_HELD, _STANDS_FOR_HELD = "\u00a0", "\ufdd0"


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence. `mark` stands before its first line (`+ `); what wraps hangs behind it.

    `right` stands at the right edge of the first line, its last `bar` characters in the accent.
    `styled`: how many characters of the text have the style, 0 for all.
    """

    text: Said
    indent: int = 0
    mark: str = ""
    style: str = ""
    right: str = ""
    bar: int = 0
    styled: int = 0


BLANK = Line(Said(""))


@dataclass(frozen=True, slots=True)
class Page:
    """Lines, top to bottom; drawn at whatever width the console has."""

    lines: tuple[Line, ...]

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        for line in self.lines:
            yield from _drawn(line, console, max(options.max_width, _LEAST_WIDTH))

    def fits(self, console: Console, width: int, most: int) -> bool:
        """Whether it takes at most `most` lines at this width."""
        return sum(rows(line, console, width) for line in self.lines) <= most


def page(lines: Iterable[Line]) -> Page:
    return Page(tuple(lines))


def clipped(text: Said, most: int) -> Said:
    """At most `most` characters; the cut, between words where it can be, shows an ellipsis."""
    if len(text) <= most:
        return text
    cut = text[: max(1, most - 1)]
    words = cut.rsplit(" ", 1)[0]
    return Said((words if len(words) * 3 > len(cut) * 2 else cut).rstrip() + "…")


def rows(line: Line, console: Console, width: int) -> int:
    """How many lines one takes at this width."""
    beside = line.indent + cell_len(line.mark) + (len(line.right) + 2 if line.right else 0)
    if line.text.isprintable() and beside + cell_len(line.text) <= width:
        return 1
    return _rows_folded(line, console, width)


@lru_cache(maxsize=256)
def _rows_folded(line: Line, console: Console, width: int) -> int:
    """Remembered, for a page is fitted by trying it with and without its other lines."""
    return len(_drawn(line, console, width))


def _drawn(line: Line, console: Console, width: int) -> list[Text]:
    if len(line.right) * 2 > width:  # no right column: it follows as text
        line = replace(line, text=Said(f"{line.text} {line.right}"), right="", bar=0)
    lead = " " * line.indent + line.mark
    gap = len(line.right) + 2 if line.right else 0
    room = max(width - len(lead) - gap, _LEAST_WIDTH // 2)
    held = line.text.replace(_HELD, _STANDS_FOR_HELD)
    rows = Text(held).wrap(console, room, overflow="fold", no_wrap=False)
    drawn: list[Text] = []
    styled = line.styled or len(line.text)
    for index, row in enumerate(rows or [Text("")]):
        row.rstrip()
        plain = row.plain.replace(_STANDS_FOR_HELD, _HELD)
        out = Text(lead if index == 0 else " " * len(lead), no_wrap=True, overflow="ignore")
        out.append(plain[:styled], style=line.style)
        out.append(plain[styled:])
        styled = max(0, styled - len(plain) - 1)  # the space at which it was folded
        if index == 0 and line.right:
            _add_right(out, line, width)
        out.rstrip()
        drawn.append(out)
    return drawn


def _add_right(out: Text, line: Line, width: int) -> None:
    out.append(" " * max(2, width - out.cell_len - len(line.right)))
    split = len(line.right) - line.bar
    out.append(line.right[:split])
    out.append(line.right[split:], style=BAR)
