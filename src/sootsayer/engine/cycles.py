"""Rules that depend on one another without negation: two bounds, so that none supports itself."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import cast

from sootsayer.engine.layout import Cells, Test


@dataclass(frozen=True, slots=True)
class Member:
    """A rule of the cycle: its cell, its condition, and its `applies`, read from outside."""

    cell: int
    when: Test
    applies: Test | None


def settle(members: Sequence[Member], given: int) -> Test:
    """A step that decides all members at once and reports nothing.

    True is what must be true where the unknown counts as false; false is what cannot be
    true even where the unknown counts as possible; the rest is unknown. `given` is the
    cell with the cells whose value is given: those are left as they are.
    """

    def step(cells: Cells) -> None:
        fixed = cast(Collection[int], cells[given]) or ()
        free = [member for member in members if member.cell not in fixed]
        ruled = [m for m in free if m.applies is None or m.applies(cells) is True]
        for member in free:
            cells[member.cell] = None
        surely = _grow(ruled, cells)
        for member in ruled:
            cells[member.cell] = False
        _grow_possible(ruled, cells)
        for member in ruled:
            if member.cell in surely:
                cells[member.cell] = True
            elif cells[member.cell] is not False:
                cells[member.cell] = None

    return step


def _grow(members: Sequence[Member], cells: Cells) -> set[int]:
    surely: set[int] = set()
    grown = True
    while grown:
        grown = False
        for member in members:
            if member.cell not in surely and member.when(cells) is True:
                cells[member.cell] = True
                surely.add(member.cell)
                grown = True
    return surely


def _grow_possible(members: Sequence[Member], cells: Cells) -> None:
    grown = True
    while grown:
        grown = False
        for member in members:
            if cells[member.cell] is False and member.when(cells) is not False:
                cells[member.cell] = True
                grown = True
