"""The short page fitted: one thing after another is granted room, while the page still fits.

The page has parts, and each grant changes one of them. So a part is worded and measured once for
all that the room says of it, and a page is what its parts are together.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from sootsayer.console.paper import BLANK, Line, rows
from sootsayer.console.room import Room, granted, grants, least
from sootsayer.console.screen import PLAIN_WIDTH, plain_console

# The screen's 24 lines less one for the prompt that comes after.
MOST_LINES = 23


class Part(NamedTuple):
    """A part of the page: what of the room it depends on, and its lines."""

    reads: tuple[str, ...]
    lines: Callable[[Room], list[Line]]


class _Block(NamedTuple):
    """A part as it is in some room, and how many lines it takes when it is drawn."""

    lines: list[Line]
    rows: int


def fitted(parts: Sequence[Part], checks: int) -> list[Line]:
    """The lines of the roomiest page that fits. `checks`: how many are open."""
    drafts = _Drafts(parts)
    room = next((each for each in least(checks) if drafts.fits(each)), Room())
    lines = drafts.page(room)
    for name, value in grants(checks):
        roomier = granted(room, name, value)
        attempt = drafts.page(roomier)
        if attempt == lines or drafts.fits(roomier):
            room, lines = roomier, attempt
    return lines


class _Drafts:
    """The parts as they were worded so far."""

    def __init__(self, parts: Sequence[Part]) -> None:
        self._parts = parts
        self._blocks: dict[tuple[object, ...], _Block] = {}

    def page(self, room: Room) -> list[Line]:
        """The parts one below the other, a blank line between them where there is room for it."""
        lines: list[Line] = []
        for index, block in enumerate(self._in(room)):
            if index and room.blanks:
                lines.append(BLANK)
            lines += block.lines
        return lines

    def fits(self, room: Room) -> bool:
        blanks = len(self._parts) - 1 if room.blanks else 0
        return blanks + sum(block.rows for block in self._in(room)) <= MOST_LINES

    def _in(self, room: Room) -> list[_Block]:
        return [self._block(index, part, room) for index, part in enumerate(self._parts)]

    def _block(self, index: int, part: Part, room: Room) -> _Block:
        key = (index, *(getattr(room, name) for name in part.reads))
        if key not in self._blocks:
            lines = part.lines(room)
            taken = sum(rows(line, plain_console(), PLAIN_WIDTH) for line in lines)
            self._blocks[key] = _Block(lines, taken)
        return self._blocks[key]
