"""Cells: the flat list that compiled conditions read.

A cell is one place in the list: an input slot, a derived slot, a limit, a constant.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sootsayer.engine.conditions import Const, Limit, Linear, Operand, Slot, Truth, Value
from sootsayer.engine.numbers import Number, number, scaled

Cells = list[Value]
Test = Callable[[Cells], Truth]
Level = Callable[[Cells], str | None]
Resolver = Callable[[Cells], Number]


class Layout:
    """Which cell holds what. Constants and the answers of `known` take new cells at the end."""

    def __init__(self, slots: Sequence[str], limits: Sequence[str]) -> None:
        self.slot = {name: i for i, name in enumerate(slots)}
        self.limit = {name: i for i, name in enumerate(limits, len(slots))}
        self.given = len(slots) + len(limits)  # indices of derived slots that are given
        self.scratch = self.given + 1  # where steps without a slot of their own report
        self.tail: Cells = [None, None]
        self.blanks: dict[str, int] = {}
        self._constants: dict[float, int] = {}

    def constant(self, value: float) -> int:
        """The cell of a constant. Raises ValueError for NaN."""
        if value != value:
            raise ValueError("a constant is not a number")
        if value not in self._constants:
            self._constants[value] = self._add(float(value))
        return self._constants[value]

    def blank(self, slot: str) -> int:
        """The cell with what `known` says of `slot` while it has no value: false.

        Grounds put unknown there for a slot that has a value but is not looked at.
        """
        if slot not in self.blanks:
            self.blanks[slot] = self._add(False)
        return self.blanks[slot]

    def _add(self, value: Value) -> int:
        self.tail.append(value)
        return self.given + len(self.tail) - 1


def resolver(operand: Operand, layout: Layout) -> Resolver:
    """A closure that gives the operand's number."""
    if isinstance(operand, Linear):
        times, of, plus = (
            resolver(part, layout) for part in (operand.times, operand.of, operand.plus)
        )
        return _linear(times, of, plus)
    i = cell_of(operand, layout)
    if isinstance(operand, Slot):
        return lambda cells: number(cells[i])
    # A constant or a limit is a float.
    return lambda cells: cells[i]  # type: ignore[return-value]


def _linear(times: Resolver, of: Resolver, plus: Resolver) -> Resolver:
    def linear(cells: Cells) -> Number:
        x, y, z = times(cells), of(cells), plus(cells)
        if x.__class__ is float and y.__class__ is float and z.__class__ is float:
            found: float = x * y + z
            return found if found == found else None
        return scaled(x, y, z)

    return linear


def cell_of(operand: Const | Slot | Limit, layout: Layout) -> int:
    """The cell that holds an operand."""
    if isinstance(operand, Const):
        return layout.constant(operand.value)
    return layout.slot[operand.name] if isinstance(operand, Slot) else layout.limit[operand.name]
