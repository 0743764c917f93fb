"""What decides derived slots: for each a minimal set of known slots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.engine.conditions import Value
from sootsayer.engine.layout import Cells
from sootsayer.engine.program import Program
from sootsayer.engine.sufficient import (
    NOT_YET,
    Form,
    TooManySetsError,
    least_form,
    table_form,
)
from sootsayer.engine.supports import compile_support, sole_cell
from sootsayer.engine.supports_joined import Seen, Support
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
    first name being its highest bit: so that one is chosen, and it holds no other that decides.
    """

    def __init__(
        self, program: Program, values: Mapping[str, Value], limits: Mapping[str, float]
    ) -> None:
        self._program, self._values, self._limits = program, values, limits
        self._cells = program.load(values, limits)
        program.evaluate(self._cells, None)
        given = sorted(program.definitions.keys() & values.keys())
        self._form = form = _form(program, self._cells, given)
        self._seen: Seen = [*form.alone[: len(program.inputs)], *[NOT_YET] * len(program.order)]
        for i in map(program.layout.slot.__getitem__, given):
            self._seen[i] = form.alone[i]
        self._wide: set[int] = set()  # slots with too many sets to tell
        self._told = program.cyclic

    def of(self, name: str) -> tuple[str, ...]:
        """As `minimal_grounds`."""
        program = self._program
        goal = program.layout.slot[name]
        if self._cells[goal] is None:
            return ()
        if not self._told:
            self._tell()
        if program.cyclic or goal in self._wide:
            return minimal_grounds(program, self._values, self._limits, name)
        sets = self._seen[goal]
        found = self._form.names.get(sets)
        return self._form.named(sets) if found is None else found

    def _tell(self) -> None:
        """Find what decides each derived slot, in the order in which they read one another."""
        seen, cells, either = self._seen, self._cells, self._form.either
        program, first = self._program, len(self._program.inputs)
        false, true = program.supports
        for i in range(first, first + len(program.order)):
            value = cells[i]
            if value is None or seen[i] != NOT_YET:  # unknown, or given
                continue
            if self._wide and not self._wide.isdisjoint(program.deciding(program.order[i - first])):
                self._wide.add(i)
                continue
            support = false[i - first] if value is False else true[i - first]
            if support is None:
                support = _support(program, i - first, value)
            if isinstance(support, int):
                seen[i] = seen[support]
                continue
            try:
                # What is decided has something that decides it.
                seen[i] = support(cells, seen, either)  # type: ignore[assignment]
            except TooManySetsError:
                self._wide.add(i)
        self._told = True


def _form(program: Program, cells: Cells, given: Sequence[str]) -> Form:
    """The form for what is known: one for each few slots, one for all cases where more are."""
    slot, inputs = program.layout.slot, len(program.inputs)
    few = inputs - cells[:inputs].count(None) + len(given) <= FEW
    told: tuple[str, ...] | None = None
    if few:
        slots = sorted((*program.inputs, *given))
        told = tuple([name for name in slots if cells[slot[name]] is not None])
    found = program.forms.get(told)
    if found is None:
        if len(program.forms) > 64:
            program.forms.clear()
        found = least_form(sorted(slot), slot) if told is None else table_form(told, slot)
        program.forms[told] = found
    return found


def _support(program: Program, number: int, value: Value) -> Support | int:
    """The closure that says what gives a derived slot its value, or the only cell that does."""
    wanted, definition = value is not False, program.definitions[program.order[number]]
    found: Support | int | None = sole_cell(definition, program.layout)
    if found is None:
        found = compile_support(definition, wanted, program.layout)
    program.supports[wanted][number] = found
    return found
