"""What decides derived slots: for each a minimal set of known slots."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sootsayer.engine.conditions import Value
from sootsayer.engine.program import Program
from sootsayer.engine.sufficient import (
    Sets,
    TooMany,
    either,
    either_table,
    first_of_least,
    first_of_table,
    tables,
)
from sootsayer.engine.supports import Seen, Support, compile_support
from sootsayer.engine.waiting import Waits, awaits

__all__ = ["Grounds", "Waits", "awaits", "minimal_grounds"]

# So few known slots make tables of at most a thousand bits, joined as quickly as any number.
FEW = 10


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
    """The same for many slots of one case, in one pass over the rules behind them.

    Each slot is told with all the sets of known slots that decide it (see `sufficient`). Leaving
    out one after another in sorted order ends at the set that is the smallest as a number, the
    first name being its highest bit: so that is chosen, and it holds no other that decides.
    """

    def __init__(
        self, program: Program, values: Mapping[str, Value], limits: Mapping[str, float]
    ) -> None:
        self._program, self._values, self._limits = program, values, limits
        self._cells = program.load(values, limits)
        program.evaluate(self._cells, None)
        self._seen: Seen = [None] * len(program.layout.slot)
        self._wide: set[int] = set()  # slots with too many sets to tell
        slots = {*program.inputs, *(program.definitions.keys() & values.keys())}
        known = sorted(each for each in slots if self._cells[program.layout.slot[each]] is not None)
        self._names: dict[Sets, tuple[str, ...]] = {}
        self._known = known
        self._few = len(known) <= FEW
        self._either = either_table if self._few else either
        for name, sets in zip(known, self._single(len(known)), strict=True):
            self._seen[program.layout.slot[name]] = sets

    def _single(self, count: int) -> Iterable[Sets]:
        """For each known slot the sets that it is in."""
        return tables(count) if self._few else (~(1 << n) for n in reversed(range(count)))

    def of(self, name: str) -> tuple[str, ...]:
        """As `minimal_grounds`."""
        program, cells = self._program, self._cells
        goal = program.layout.slot[name]
        if cells[goal] is None:
            return ()
        if program.cyclic or not self._looked_into(program.deciding(name)):
            return minimal_grounds(program, self._values, self._limits, name)
        sets = self._seen[goal]
        found = self._names.get(sets)
        if found is None:
            found = self._names[sets] = self._named(sets)
        return found

    def _looked_into(self, behind: Sequence[int]) -> bool:
        """Find what decides these derived slots, each after those that it reads; false where
        there are too many ways."""
        seen, cells = self._seen, self._cells
        for i in behind:
            if seen[i] is None and cells[i] is not None:
                if i in self._wide:
                    return False
                try:
                    seen[i] = _support(self._program, i, cells[i])(cells, seen, self._either)
                except TooMany:
                    self._wide.add(i)
                    return False
        return True

    def _named(self, sets: Sets | None) -> tuple[str, ...]:
        if sets is None:
            raise AssertionError("decided, but by nothing")
        chosen = first_of_table(sets) if isinstance(sets, int) and self._few else first_of_least(sets)
        top = len(self._known) - 1
        return tuple(name for n, name in enumerate(self._known) if chosen >> top - n & 1)


def _support(program: Program, i: int, value: Value) -> Support:
    """The closure that says what gives a derived slot its value."""
    wanted = value is not False
    found = program.supports.get((i, wanted))
    if found is None:
        definition = program.definitions[program.order[i - len(program.inputs)]]
        found = program.supports[i, wanted] = compile_support(definition, wanted, program.layout)
    return found
