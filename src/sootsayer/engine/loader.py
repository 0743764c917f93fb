"""Values and limits put into cells, before a program runs on them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import ne
from typing import cast

from sootsayer.engine.conditions import Value
from sootsayer.engine.layout import Cells, Layout

Cell = tuple[int, str]  # its number, and the slot that it holds


class Loader:
    """Cells of one layout; its tail may still grow."""

    def __init__(
        self, layout: Layout, inputs: Sequence[str], derived: Sequence[str], limits: Sequence[str]
    ) -> None:
        self._layout, self._inputs, self._limits = layout, tuple(inputs), tuple(limits)
        self._defined = frozenset(derived)
        self._derived = tuple((layout.slot[name], name) for name in derived)
        self._blank: Cells = [None] * len(derived)
        self._unknown: Cells = [None] * (len(inputs) + len(derived))
        self._bounds: tuple[dict[str, float], Cells] = ({}, [])

    def whole(self, values: Mapping[str, Value], bounds: Cells) -> Cells:
        """The cells of all slots. A NaN is unknown."""
        found: Cells = list(map(values.get, self._inputs))
        if any(map(ne, found, found)):  # only NaN differs from itself
            found = [value if value == value else None for value in found]
        cells = [*found, *self._blank, *bounds, *self._layout.tail]
        if not self._defined.isdisjoint(values):
            self._fill(cells, values, self._derived)
        return cells

    def part(self, values: Mapping[str, Value], bounds: Cells, needed: Iterable[Cell]) -> Cells:
        """As `whole`, with values only in the cells that are `needed`: a case has hundreds of
        values, and one rule reads a few."""
        cells = [*self._unknown, *bounds, *self._layout.tail]
        self._fill(cells, values, needed)
        return cells

    def _fill(self, cells: Cells, values: Mapping[str, Value], which: Iterable[Cell]) -> None:
        given: list[int] = []
        inputs = len(self._inputs)
        for i, name in which:
            value = values.get(name)
            if value is not None and value == value:
                cells[i] = value
            if i >= inputs and name in values:
                given.append(i)
        if given:
            cells[self._layout.given] = cast(Value, frozenset(given))

    def bounds(self, limits: Mapping[str, float]) -> Cells:
        """The numbers of all limits, in their order; those of the last time, where the limits are
        the same. Raises KeyError for a missing one and ValueError for one that is no number."""
        known, bounds = self._bounds
        if limits != known or not bounds:
            bounds = list(map(float, map(limits.__getitem__, self._limits)))
            if any(map(ne, bounds, bounds)):
                raise ValueError("a limit is not a number")
            self._bounds = dict(limits), bounds
        return bounds
