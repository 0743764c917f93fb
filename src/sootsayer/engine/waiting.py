"""What an undecided slot still waits for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sootsayer.engine.conditions import (
    AtLeast,
    Compare,
    Condition,
    Definition,
    Grade,
    Known,
    Not,
    NotFitted,
    OneOf,
    Operand,
    Rule,
    Truth,
    Value,
)
from sootsayer.engine.layout import Cells
from sootsayer.engine.numbers import HALVES, half, number
from sootsayer.engine.program import Program, absent_in_when
from sootsayer.engine.reading import operand_slots

Names = frozenset[str]
NOTHING: Names = frozenset()


def awaits(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> tuple[str, ...]:
    """For an unknown slot, the unknown slots that can still matter to it, sorted.

    They are input slots, and derived slots given as unknown: those reached through parts
    that are undecided and can still be decided. Empty if `name` is known, does not apply,
    or tests only what is not fitted or of the wrong kind. Raises KeyError for an unknown
    name or a missing limit.
    """
    if _all_open(program, values, name):
        program.check_limits(limits)
        return _of_all_open(program, limits, name)
    return _awaited(program, values, limits, name)


def _awaited(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> tuple[str, ...]:
    cone = program.cone_given(name, values)
    walk = _Waiting(program, values, program.settled(values, limits, name))
    names = [slot for slot in program.derived_in(cone) if slot not in values]
    while walk.once(names) and program.cyclic:
        pass  # within a cycle, what one member waits for the others wait for too
    return tuple(sorted(walk.slot(name)))


def _all_open(program: Program, values: Mapping[str, Value], name: str) -> bool:
    """Whether nothing is known of what a slot depends on, and nothing of it is given."""
    if any(values.get(slot) is not None for slot in program.reads(name)):
        return False
    return values.keys().isdisjoint(program.leading_to(name))


def _of_all_open(program: Program, limits: Mapping[str, float], name: str) -> tuple[str, ...]:
    """What a slot waits for of which nothing is known: the same in every case."""
    found = program.waiting.get(name)
    if found is None:
        found = program.waiting[name] = _awaited(program, {}, limits, name)
    return found


class Waits:
    """What slots of one case wait for; what they share is looked into once."""

    def __init__(
        self, program: Program, values: Mapping[str, Value], limits: Mapping[str, float]
    ) -> None:
        self._program, self._values, self._limits = program, values, limits
        program.check_limits(limits)
        self._walk: _Waiting | None = None

    def of(self, name: str) -> tuple[str, ...]:
        """As `awaits`, of a slot that is not given in `values`."""
        if _all_open(self._program, self._values, name):
            return _of_all_open(self._program, self._limits, name)
        if self._program.cyclic:
            return awaits(self._program, self._values, self._limits, name)
        walk = self._walked()
        walk.into(each for each in self._program.leading_to(name) if each not in self._values)
        return tuple(sorted(walk.slot(name)))

    def _walked(self) -> _Waiting:
        if self._walk is None:
            cells = self._program.load(self._values, self._limits)
            self._program.evaluate(cells, None)
            self._walk = _Waiting(self._program, self._values, cells)
        return self._walk


class _Waiting:
    """What each slot waits for, those read before those that read them.

    Nothing awaited by an undecided part means that it can never be decided.
    """

    def __init__(self, program: Program, values: Mapping[str, Value], cells: Cells) -> None:
        self._program, self._values, self._cells = program, values, cells
        self._found: dict[str, Names] = {}

    def once(self, names: list[str]) -> bool:
        """Look into `names` in order; true if anything new was found."""
        before = dict(self._found)
        for name in names:
            if self._value(name) is None:
                self._found[name] = self._definition(self._program.definitions[name])
        return before != self._found

    def into(self, names: Iterable[str]) -> None:
        """Look into those of `names`, in evaluation order, that were not looked into before."""
        for name in names:
            if name not in self._found and self._value(name) is None:
                self._found[name] = self._definition(self._program.definitions[name])

    def slot(self, name: str) -> Names:
        if self._value(name) is not None:
            return NOTHING
        if name in self._program.definitions and name not in self._values:
            return self._found.get(name, NOTHING)
        return frozenset((name,))

    def _value(self, name: str) -> Value:
        return self._cells[self._program.layout.slot[name]]

    def _definition(self, definition: Definition) -> Names:
        if isinstance(definition, Rule):
            absent = absent_in_when(definition)
            known = self._program.truth(definition.when, self._cells, absent) is not None
            waits = self._part(definition.when, absent)
        else:
            known, waits = self._grade(definition)
        if definition.applies is None:
            return waits
        gate = self._program.truth(definition.applies, self._cells, False)
        if gate is not None:
            return waits if gate else NOTHING
        opens = self._part(definition.applies, False)
        # In a cycle a condition may look open only because its own rule is not yet let in.
        possible = known or waits or self._program.cyclic
        return opens | waits if opens and possible else NOTHING

    def _part(self, part: Condition, absent: Truth) -> Names:
        if self._program.truth(part, self._cells, absent) is not None:
            return NOTHING
        if isinstance(part, Compare):
            return self._compare(part, absent)
        if isinstance(part, OneOf | Known):
            return self.slot(part.slot)
        if isinstance(part, Not):
            return self._part(part.part, absent)
        waits = [self._part(each, absent) for each in part.parts]
        # In a cycle a part that waits for nothing may still turn false, for want of support.
        cyclic = self._program.cyclic
        if isinstance(part, AtLeast) and not cyclic and not self._can_settle(part, absent, waits):
            return NOTHING
        return NOTHING.union(*waits)

    def _can_settle(self, part: AtLeast, absent: Truth, waits: list[Names]) -> bool:
        truths = [self._program.truth(each, self._cells, absent) for each in part.parts]
        surely, live = truths.count(True), sum(map(bool, waits))
        possible = surely + truths.count(None)
        return surely + live >= part.count or possible - live < part.count

    def _compare(self, part: Compare, absent: Truth) -> Names:
        left, waits = self._number(part.slot), NOTHING
        for test, operand in zip(HALVES[part.op], part.operands, strict=True):
            right = self._program.number(operand, self._cells)
            if half(test, left, right, absent) is None:
                waits |= self._both(self._side(part.slot), self._operand(operand))
        return waits

    def _grade(self, grade: Grade) -> tuple[bool, Names]:
        """Whether the level is known, and what it waits for."""
        left = self._number(grade.of)
        waits = NOTHING
        for cut in grade.cuts:
            right = self._program.number(cut, self._cells)
            if isinstance(left, float) and isinstance(right, float):
                if left < right:
                    return not waits, waits
                continue
            more = self._both(self._side(grade.of), self._operand(cut))
            if not more:
                return False, waits
            waits |= more
        if left is None and not grade.cuts:
            waits = self._side(grade.of) or NOTHING
        return isinstance(left, float) and not waits, waits

    def _number(self, name: str) -> float | NotFitted | None:
        return number(self._value(name))

    def _side(self, name: str) -> Names | None:
        """What a number waits for; None if it will never be one."""
        value = self._value(name)
        if value is not None:
            return NOTHING if isinstance(number(value), float) else None
        return self.slot(name) or None

    def _operand(self, operand: Operand) -> Names | None:
        """As `_side`, for all the slots of an operand."""
        sides = [self._side(name) for name in operand_slots(operand)]
        known = [side for side in sides if side is not None]
        waits = NOTHING.union(*known)
        never = not waits and not isinstance(self._program.number(operand, self._cells), float)
        return None if never or len(known) < len(sides) else waits

    @staticmethod
    def _both(one: Names | None, other: Names | None) -> Names:
        return NOTHING if one is None or other is None else one | other
