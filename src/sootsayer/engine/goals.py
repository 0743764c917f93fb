"""What must be so of the slots for a condition to be true, or false: a tree of plain demands.

The tree is over values that are known: three-valued logic is monotone, so what some facts make
true stays true with more of them. Only `known` asks for a fact to be missing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Known,
    Limit,
    Not,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
)
from sootsayer.engine.reading import needed, operand_slots


@dataclass(frozen=True, slots=True)
class Line:
    """The sum of `parts` (factor times slot) and `rest` is below 0, or, not `strict`, at most 0."""

    parts: tuple[tuple[str, Fraction], ...]
    rest: Fraction
    strict: bool


@dataclass(frozen=True, slots=True)
class Among:
    """The slot holds one of these words or booleans, or, if `other`, one of its kind but these."""

    slot: str
    values: tuple[str | bool, ...]
    other: bool = False


@dataclass(frozen=True, slots=True)
class Absent:
    """The vehicle does not have it."""

    slot: str


@dataclass(frozen=True, slots=True)
class Has:
    """The slot has a value, or, if not `value`, has none."""

    slot: str
    value: bool


@dataclass(frozen=True, slots=True)
class Hard:
    """Something that is not worked out: a product of two readings, or a ring of rules."""


@dataclass(frozen=True, slots=True)
class Count:
    """At least `count` of the parts: all of them, one of them, or some."""

    count: int
    parts: tuple[Goal, ...]


Goal = Line | Among | Absent | Has | Hard | Count


def every(parts: Sequence[Goal]) -> Goal:
    return parts[0] if len(parts) == 1 else Count(len(parts), tuple(parts))


def some(parts: Sequence[Goal]) -> Goal:
    return parts[0] if len(parts) == 1 else Count(1, tuple(parts))


class Goals:
    """Makes goals of conditions, given the numbers of limits and what is derived."""

    def __init__(self, definitions: Mapping[str, Definition], limits: Mapping[str, float]) -> None:
        self._definitions = definitions
        self._limits = limits

    def level(self, name: str, level: str | bool) -> Goal:
        """A derived slot has this level, or this truth."""
        return self._derived(name, (level,), ())

    def truth(self, condition: Condition, wanted: bool, *, absent_is_false: bool = False) -> Goal:
        """A condition is true, or false. `absent_is_false`: as in an `applies when`."""
        return self._part(condition, wanted, absent_is_false, ())

    def _part(self, part: Condition, wanted: bool, absent: bool, above: tuple[str, ...]) -> Goal:
        if isinstance(part, Not):
            return self._part(part.part, not wanted, absent, above)
        if isinstance(part, All | Any | AtLeast):
            parts = tuple(self._part(each, wanted, absent, above) for each in part.parts)
            return Count(needed(part, wanted), parts)
        if isinstance(part, Known):
            return self._known(part.slot, wanted, above)
        if isinstance(part, OneOf) and part.slot in self._definitions:
            values = part.values if wanted else self._others(part)
            return self._derived(part.slot, values, above)
        test = self._compare(part, wanted) if isinstance(part, Compare) else _among(part, wanted)
        if absent and not wanted:  # in an `applies when`, what is not fitted makes a test false
            reads = (part.slot, *_read_beside(part))
            return some([test, *(Absent(slot) for slot in dict.fromkeys(reads))])
        return test

    def _known(self, slot: str, wanted: bool, above: tuple[str, ...]) -> Goal:
        definition = self._definitions.get(slot)
        if definition is None:
            return Has(slot, wanted)
        levels = (True, False) if isinstance(definition, Rule) else definition.levels
        return self._derived(slot, levels, above) if wanted else Hard()

    def _others(self, test: OneOf) -> tuple[str | bool, ...]:
        definition = self._definitions[test.slot]
        every_ = (True, False) if isinstance(definition, Rule) else definition.levels
        return tuple(value for value in every_ if value not in test.values)

    def _derived(self, name: str, values: Sequence[str | bool], above: tuple[str, ...]) -> Goal:
        if name in above:
            return Hard()
        definition = self._definitions[name]
        above = (*above, name)
        if isinstance(definition, Rule):
            gone = definition.absent_is_false
            ways = [self._part(definition.when, value is True, gone, above) for value in values]
        else:
            ways = [self._graded(definition, value) for value in values]
        goal = some(ways)
        if definition.applies is None:
            return goal
        return every([self._part(definition.applies, True, True, above), goal])

    def _graded(self, grade: Grade, level: str | bool) -> Goal:
        rank = grade.levels.index(str(level))
        at = [self._half(grade.of, Op.AT_LEAST, cut) for cut in grade.cuts[:rank]]
        below = [self._half(grade.of, Op.BELOW, cut) for cut in grade.cuts[rank : rank + 1]]
        return every([*at, *below])

    def _compare(self, test: Compare, wanted: bool) -> Goal:
        low, high = test.operands[0], test.operands[-1]
        inside = test.op is Op.BETWEEN if wanted else test.op is Op.OUTSIDE
        if test.op in (Op.BETWEEN, Op.OUTSIDE):
            if inside:
                return every(
                    [
                        self._half(test.slot, Op.AT_LEAST, low),
                        self._half(test.slot, Op.AT_MOST, high),
                    ]
                )
            return some(
                [self._half(test.slot, Op.BELOW, low), self._half(test.slot, Op.ABOVE, high)]
            )
        return self._half(test.slot, test.op if wanted else _OPPOSITE[test.op], low)

    def _half(self, slot: str, op: Op, operand: Operand) -> Goal:
        right = self._linear(operand)
        if right is None:
            return Hard()
        parts, rest = right
        down = op in (Op.BELOW, Op.AT_MOST)
        sign = 1 if down else -1
        sums = {name: -sign * factor for name, factor in parts.items()}
        sums[slot] = sums.get(slot, Fraction(0)) + sign
        return Line(tuple(sorted(sums.items())), -sign * rest, op in (Op.BELOW, Op.ABOVE))

    def _linear(self, operand: Operand) -> tuple[dict[str, Fraction], Fraction] | None:
        """Factors of slots, and the rest; None for a product of slots."""
        if isinstance(operand, Const):
            return {}, Fraction(operand.value)
        if isinstance(operand, Limit):
            return {}, Fraction(self._limits[operand.name])
        if isinstance(operand, Slot):
            return {operand.name: Fraction(1)}, Fraction(0)
        parts = [self._linear(each) for each in (operand.times, operand.of, operand.plus)]
        times, of, plus = parts
        if times is None or of is None or plus is None or (times[0] and of[0]):
            return None
        if times[0]:
            times, of = of, times
        sums = {name: times[1] * factor for name, factor in of[0].items()}
        for name, factor in plus[0].items():
            sums[name] = sums.get(name, Fraction(0)) + factor
        return sums, times[1] * of[1] + plus[1]


_OPPOSITE = {
    Op.BELOW: Op.AT_LEAST,
    Op.AT_LEAST: Op.BELOW,
    Op.ABOVE: Op.AT_MOST,
    Op.AT_MOST: Op.ABOVE,
}


def _read_beside(test: Compare | OneOf) -> tuple[str, ...]:
    """The slots that a test compares with."""
    if isinstance(test, OneOf):
        return ()
    return tuple(slot for operand in test.operands for slot in operand_slots(operand))


def _among(test: OneOf, wanted: bool) -> Goal:
    return Among(test.slot, test.values, other=not wanted)
