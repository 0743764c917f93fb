"""Where the numbers of a case are cut: the thresholds that a reading can stand close to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import isfinite

from sootsayer.engine.conditions import (
    Compare,
    Const,
    Definition,
    Grade,
    Limit,
    Linear,
    Operand,
    Slot,
    Value,
)
from sootsayer.engine.numbers import number
from sootsayer.engine.program import Compared, Comparing, Program
from sootsayer.engine.reading import leaves_of, operand_slots

# A number that grows evenly with one slot: (how much per unit of the slot, the rest).
Line = tuple[float, float]


def thresholds(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> dict[str, tuple[float, ...]]:
    """For each input slot compared as a number on the way to `name`, where it is cut, sorted.

    Numbers are in the unit of the slot. Every other slot keeps its value in `values`, so a
    comparison of two slots cuts each of them at what the other one makes of it. A cut that
    is not known, or that no value of the slot can reach, is left out; so is a slot without
    cuts, and all that stands before a derived slot given in `values`. Raises KeyError for
    an unknown name, or where anything is compared for a missing limit.
    """
    comparing = _comparing(program, name)
    if not comparing:
        return {}
    program.check_limits(limits)
    cone = program.cone_given(name, values)
    found: dict[str, set[float]] = {}
    for derived, compared in comparing:
        if derived in values or derived not in cone:
            continue
        for left, operand, slots in compared:
            for slot in slots:
                cut = _cut(left, operand, slot, values, limits)
                if cut is not None:
                    found.setdefault(slot, set()).add(cut)
    return {slot: tuple(sorted(found[slot])) for slot in sorted(found)}


def _comparing(program: Program, name: str) -> Comparing:
    """Which definitions on the way to a slot compare anything, and what: few rules read numbers."""
    found = program.compared.get(name)
    if found is None:
        each = ((derived, _compared(program, derived)) for derived in program.leading_to(name))
        found = program.compared[name] = tuple(pair for pair in each if pair[1])
    return found


def _compared(program: Program, name: str) -> tuple[Compared, ...]:
    """What a definition compares, with the input slots that each comparison cuts."""
    return tuple(
        (left, operand, tuple({left, *operand_slots(operand)} & program.inputs))
        for left, operand in _comparisons(program.definitions[name])
    )


def _comparisons(definition: Definition) -> Iterator[tuple[str, Operand]]:
    if isinstance(definition, Grade):
        for cut in definition.cuts:
            yield definition.of, cut
    for test, _ in leaves_of(definition):
        if isinstance(test, Compare):
            for operand in test.operands:
                yield test.slot, operand


def _cut(
    left: str,
    operand: Operand,
    slot: str,
    values: Mapping[str, Value],
    limits: Mapping[str, float],
) -> float | None:
    """The value of `slot` at which `left` equals the operand, all else kept."""
    one = _line(Slot(left), slot, values, limits)
    other = _line(operand, slot, values, limits)
    if one is None or other is None or one[0] == other[0]:
        return None
    cut = (other[1] - one[1]) / (one[0] - other[0])
    return cut + 0.0 if isfinite(cut) else None  # + 0.0 turns -0.0 into 0.0


def _line(
    operand: Operand, slot: str, values: Mapping[str, Value], limits: Mapping[str, float]
) -> Line | None:
    if isinstance(operand, Const):
        return 0.0, operand.value
    if isinstance(operand, Limit):
        return 0.0, limits[operand.name]
    if isinstance(operand, Slot):
        if operand.name == slot:
            return 1.0, 0.0
        value = number(values.get(operand.name))
        return (0.0, value) if isinstance(value, float) else None
    return _linear(operand, slot, values, limits)


def _linear(
    operand: Linear, slot: str, values: Mapping[str, Value], limits: Mapping[str, float]
) -> Line | None:
    times, of, plus = (
        _line(part, slot, values, limits) for part in (operand.times, operand.of, operand.plus)
    )
    if times is None or of is None or plus is None:
        return None
    if times[0] and of[0]:
        return None  # a square has no single cut
    return times[0] * of[1] + times[1] * of[0] + plus[0], times[1] * of[1] + plus[1]
