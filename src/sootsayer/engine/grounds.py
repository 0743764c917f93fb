"""What decides derived slots: for each a minimal set of known slots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.engine.conditions import Value
from sootsayer.engine.layout import Cells
from sootsayer.engine.program import Program, Step
from sootsayer.engine.waiting import Waits, awaits

__all__ = ["Grounds", "Waits", "awaits", "minimal_grounds"]

# Of so few slots each is tried by itself; of more, many are left out at once.
FEW = 3


def minimal_grounds(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> tuple[str, ...]:
    """A set of known slots that alone decides the present value of `name`, and none to spare.

    They are input slots, and derived slots that are given in `values`. Found by leaving
    out one after another in sorted order, for which `known` of a slot left out is unknown:
    the set decides the value whatever the others hold. What is unknown in `values` stays
    unknown. Empty if `name` is unknown, or known whatever the inputs are. Raises KeyError
    for an unknown name or a missing limit.
    """
    layout, only = program.layout, (name,)
    goal = layout.slot[name]
    cells = program.load(values, limits, only)
    start = cells.copy()
    program.evaluate(cells, only)
    value = cells[goal]
    if value is None:
        return ()
    for slot, blank in layout.blanks.items():
        if cells[layout.slot[slot]] is not None:
            start[blank] = None
    kept: list[str] = []
    for slot in sorted(program.cone_given(name, values)):
        i = layout.slot[slot]
        if start[i] is None:
            continue
        saved, start[i] = start[i], None
        trial = start.copy()
        program.evaluate(trial, only)
        if trial[goal] != value:
            start[i] = saved
            kept.append(slot)
    return tuple(kept)


class Grounds:
    """The same for many slots of one case, which is loaded and decided once for all of them."""

    def __init__(
        self, program: Program, values: Mapping[str, Value], limits: Mapping[str, float]
    ) -> None:
        self._program, self._values, self._limits = program, values, limits
        self._given = program.definitions.keys() & values.keys()
        self._cells = program.load(values, limits)
        program.evaluate(self._cells, None)
        slots = program.layout.slot
        for slot, blank in program.layout.blanks.items():
            if self._cells[slots[slot]] is not None:
                self._cells[blank] = None

    def of(self, name: str) -> tuple[str, ...]:
        """As `minimal_grounds`."""
        program, cells = self._program, self._cells
        if program.cyclic or not self._given.isdisjoint(program.cone((name,))):
            return minimal_grounds(program, self._values, self._limits, name)
        goal = program.layout.slot[name]
        if cells[goal] is None:
            return ()
        inputs, steps = program.deciding(name)
        known = [pair for pair in inputs if cells[pair[0]] is not None]
        before = [(i, cells[i]) for i, _ in known]
        derived = [(i, cells[i]) for i, _ in steps]
        kept = _Leaving(cells, steps, goal, before).needed()
        for i, value in (*before, *derived):
            cells[i] = value
        return tuple(known[number][1] for number in kept)


class _Leaving:
    """Inputs (cell and value, in order) left out of cells until only those are left that decide
    the goal. Whatever is decided stays so with more inputs: logic is monotone in what is known."""

    def __init__(
        self,
        cells: Cells,
        steps: Sequence[Step],
        goal: int,
        inputs: Sequence[tuple[int, Value]],
    ) -> None:
        self._cells, self._steps, self._goal, self._inputs = cells, steps, goal, inputs
        self._value = cells[goal]

    def needed(self) -> list[int]:
        """The numbers of the inputs that stay: each the first without which, those before it that
        do not stay being left out, what follows does not decide the goal."""
        kept: list[int] = []
        start, end = 0, len(self._inputs)
        while start < end:
            if end - start > FEW and self._stands_without(start, end):
                break
            first = self._first(start, end)
            if first < end:
                kept.append(first)
            start = first + 1
        return kept

    def _first(self, start: int, end: int) -> int:
        """The first input that cannot be left out with those from `start` on; else `end`."""
        if end - start <= FEW:
            while start < end and self._stands_without(start, start + 1):
                start += 1
            if start < end:
                self._put_back(start, start + 1)
            return start
        low, high = start, end - 1
        while low < high:
            self._put_back(start, end)
            middle = (low + high) // 2
            if self._stands_without(start, middle + 1):
                low = middle + 1
            else:
                high = middle
        self._put_back(low, end)
        for i, _ in self._inputs[start:low]:
            self._cells[i] = None
        return low

    def _stands_without(self, start: int, end: int) -> bool:
        """Leaves these out; whether the goal is decided as it was."""
        cells = self._cells
        for i, _ in self._inputs[start:end]:
            cells[i] = None
        for i, test in self._steps:
            cells[i] = test(cells)
        return cells[self._goal] == self._value

    def _put_back(self, start: int, end: int) -> None:
        for i, value in self._inputs[start:end]:
            self._cells[i] = value
