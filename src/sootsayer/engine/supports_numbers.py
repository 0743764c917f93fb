"""What comparisons and grades rest on."""

from __future__ import annotations

from collections.abc import Callable

from sootsayer.engine.closures import compile_condition
from sootsayer.engine.comparing import compile_grade
from sootsayer.engine.conditions import (
    Compare,
    Const,
    Grade,
    Limit,
    Linear,
    NotFitted,
    Op,
    Operand,
    Slot,
    Truth,
)
from sootsayer.engine.layout import Cells, Layout, resolver
from sootsayer.engine.numbers import HALVES, half, number
from sootsayer.engine.sufficient import ALWAYS, Either, Sets
from sootsayer.engine.supports_joined import Seen, Support, both, every, joined, some


def support_of_compare(part: Compare, wanted: bool, layout: Layout, absent: Truth) -> Support:
    if not any(isinstance(each, Slot | Linear) for each in part.operands):
        i, test = layout.slot[part.slot], compile_condition(part, layout, absent)
        return lambda cells, seen, _either: seen[i] if test(cells) is wanted else None
    halves = [
        _half(test, part.slot, operand, wanted, layout, absent)
        for test, operand in zip(HALVES[part.op], part.operands, strict=True)
    ]
    # Between is both of its halves, outside either; denied the other way round.
    return some(halves) if (part.op is Op.OUTSIDE) is wanted else every(halves)


def _half(
    test: Callable[[float, float], bool],
    slot: str,
    operand: Operand,
    wanted: bool,
    layout: Layout,
    absent: Truth,
) -> Support:
    i, number_of, sets_of = layout.slot[slot], resolver(operand, layout), _operand(operand, layout)

    def support(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        left, right = number(cells[i]), number_of(cells)
        if half(test, left, right, absent) is not wanted:
            return None
        one, other = seen[i], sets_of(cells, seen, either)
        if isinstance(left, NotFitted):  # either side suffices that is not fitted
            return joined(one, other, either) if isinstance(right, NotFitted) else one
        return other if isinstance(right, NotFitted) else both(one, other)

    return support


def _operand(operand: Operand, layout: Layout) -> Support:
    """The sets that give an operand its number, or make it one that is not fitted."""
    if isinstance(operand, Const | Limit):
        return lambda _cells, _seen, _either: ALWAYS
    if isinstance(operand, Slot):
        i = layout.slot[operand.name]
        return lambda _cells, seen, _either: seen[i]
    parts = [
        (resolver(each, layout), _operand(each, layout))
        for each in (operand.times, operand.of, operand.plus)
    ]

    def linear(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        found: Sets | None = None
        for number_of, sets_of in parts:
            if isinstance(number_of(cells), NotFitted):
                found = joined(found, sets_of(cells, seen, either), either)
        if found is not None:
            return found
        found = ALWAYS
        for _, sets_of in parts:
            found = both(found, sets_of(cells, seen, either))
        return found

    return linear


def support_of_grade(grade: Grade, layout: Layout) -> Support:
    """The number, and every cut up to the first that it is below."""
    i, level_of = layout.slot[grade.of], compile_grade(grade, layout)
    cuts = [(n, _operand(cut, layout)) for n, cut in enumerate(grade.cuts)]
    moving = [(n, sets) for n, sets in cuts if not isinstance(grade.cuts[n], Const | Limit)]
    rank = {level: n for n, level in enumerate(grade.levels)}

    def support(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        level = level_of(cells)
        if level is None:
            return None
        found: Sets | None = seen[i]
        for n, sets_of in moving:
            if n <= rank[level]:
                found = both(found, sets_of(cells, seen, either))
        return found

    return support
