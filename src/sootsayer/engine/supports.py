"""Conditions compiled once to closures that say which sets of known inputs decide them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sootsayer.engine.closures import compile_condition
from sootsayer.engine.comparing import compile_grade
from sootsayer.engine.conditions import (
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Known,
    Limit,
    Linear,
    Not,
    NotFitted,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
    Truth,
)
from sootsayer.engine.joining import Flag, flag_of, flattened
from sootsayer.engine.layout import Cells, Layout, resolver
from sootsayer.engine.numbers import HALVES, half, number
from sootsayer.engine.reading import needed
from sootsayer.engine.sufficient import ALWAYS, Either, Sets

# The sets that decide each slot, by its cell; of one that is unknown it means nothing.
Seen = list[Sets]

# The sets that make a condition what it was compiled for; None where it is not that.
Support = Callable[[Cells, Seen, Either | None], Sets | None]


def compile_support(definition: Definition, wanted: bool, layout: Layout) -> Support:
    """The sets that make a rule true, or if not `wanted` false; those that give a grade its
    level. Read in settled cells, with the sets of every slot that the definition reads."""
    if isinstance(definition, Rule):
        absent = False if definition.absent_is_false else None
        found = _condition(definition.when, wanted, layout, absent)
    else:
        found = _grade(definition, layout)
    if definition.applies is None:
        return found
    return _every([_condition(definition.applies, True, layout, False), found])


def sole_cell(definition: Definition, layout: Layout) -> int | None:
    """The cell of the only slot that a definition tests, and tests once: whatever that slot makes
    of it rests on it. None for all other definitions."""
    if definition.applies is not None:
        return None
    test = definition if isinstance(definition, Grade) else definition.when
    while isinstance(test, Not):
        test = test.part
    if isinstance(test, OneOf):
        return layout.slot[test.slot]
    if not isinstance(test, Grade | Compare):
        return None
    operands = test.cuts if isinstance(test, Grade) else test.operands
    if any(isinstance(each, Slot | Linear) for each in operands):
        return None
    return layout.slot[test.of if isinstance(test, Grade) else test.slot]


def _condition(part: Condition, wanted: bool, layout: Layout, absent: Truth) -> Support:
    if isinstance(part, Not):
        return _condition(part.part, not wanted, layout, absent)
    if isinstance(part, Compare):
        return _compare(part, wanted, layout, absent)
    if isinstance(part, OneOf):
        return _one_of(part, wanted, layout, absent)
    if isinstance(part, Known):
        return _known(part, wanted, layout)
    count = needed(part, wanted)
    if count not in (1, len(part.parts)):
        return _count(count, [_condition(each, wanted, layout, absent) for each in part.parts])
    flags: list[Flag] = []
    parts: list[Support] = []
    for each, denied in flattened(part, not wanted):
        flag = flag_of(each, layout, absent, denied)
        if flag is None:
            parts.append(_condition(each, not denied, layout, absent))
        else:
            flags.append(flag)
    return _every(parts, flags) if count == len(part.parts) else _some(parts, flags)


def _one_of(part: OneOf, wanted: bool, layout: Layout, absent: Truth) -> Support:
    i, test = layout.slot[part.slot], compile_condition(part, layout, absent)

    def support(cells: Cells, seen: Seen, _either: Either | None) -> Sets | None:
        return seen[i] if test(cells) is wanted else None

    def flag(cells: Cells, seen: Seen, _either: Either | None) -> Sets | None:
        x = cells[i]
        if x is True or x is False:
            return seen[i] if x is looked_for else None
        return seen[i] if x is not None and test(cells) is wanted else None

    if len(part.values) == 1 and isinstance(part.values[0], bool):
        looked_for = part.values[0] is wanted
        return flag
    return support


def _known(part: Known, wanted: bool, layout: Layout) -> Support:
    """What is known rests on itself; that a thing is not known, on nothing."""
    i = layout.slot[part.slot]
    if wanted:
        return lambda cells, seen, _either: None if cells[i] is None else seen[i]
    return lambda cells, _seen, _either: ALWAYS if cells[i] is None else None


def _compare(part: Compare, wanted: bool, layout: Layout, absent: Truth) -> Support:
    if not any(isinstance(each, Slot | Linear) for each in part.operands):
        i, test = layout.slot[part.slot], compile_condition(part, layout, absent)
        return lambda cells, seen, _either: seen[i] if test(cells) is wanted else None
    halves = [
        _half(test, part.slot, operand, wanted, layout, absent)
        for test, operand in zip(HALVES[part.op], part.operands, strict=True)
    ]
    # Between is both of its halves, outside either; denied the other way round.
    return _some(halves) if (part.op is Op.OUTSIDE) is wanted else _every(halves)


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
            return _joined(one, other, either) if isinstance(right, NotFitted) else one
        return other if isinstance(right, NotFitted) else _both(one, other)

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
                found = _joined(found, sets_of(cells, seen, either), either)
        if found is not None:
            return found
        found = ALWAYS
        for _, sets_of in parts:
            found = _both(found, sets_of(cells, seen, either))
        return found

    return linear


def _grade(grade: Grade, layout: Layout) -> Support:
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
                found = _both(found, sets_of(cells, seen, either))
        return found

    return support


def _every(parts: Sequence[Support], flags: Sequence[Flag] = ()) -> Support:
    if len(parts) == 1 and not flags:
        return parts[0]
    if len(flags) == 2 and not parts:
        return _two_flags(flags[0], flags[1])

    def every(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        found: Sets = ALWAYS
        for i, value in flags:
            if cells[i] is not value:
                return None
            found &= seen[i]
        for part in parts:
            sets = part(cells, seen, either)
            if sets is None:
                return None
            found &= sets
        return found

    return every


def _two_flags(one: Flag, other: Flag) -> Support:
    (i, a), (j, b) = one, other

    def both(cells: Cells, seen: Seen, _either: Either | None) -> Sets | None:
        return seen[i] & seen[j] if cells[i] is a and cells[j] is b else None

    return both


def _some(parts: Sequence[Support], flags: Sequence[Flag] = ()) -> Support:
    if len(parts) == 1 and not flags:
        return parts[0]

    def some(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        if either is not None:
            found = [seen[i] for i, value in flags if cells[i] is value]
            every = (part(cells, seen, either) for part in parts)
            found.extend(sets for sets in every if sets is not None)
            return either(found) if found else None
        table = 0
        for i, value in flags:
            if cells[i] is value:
                table |= seen[i]  # type: ignore[operator]
        for part in parts:
            sets = part(cells, seen, None)
            if sets is not None:
                table |= sets  # type: ignore[operator]
        return table or None

    return some


def _count(count: int, parts: Sequence[Support]) -> Support:
    """At least so many: for each number up to it, the sets that decide so many of the parts yet."""
    if count <= 0:
        return lambda _cells, _seen, _either: ALWAYS
    if count > len(parts):
        return lambda _cells, _seen, _either: None

    def at_least(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        reached: list[Sets | None] = [ALWAYS, *[None] * count]
        for part in parts:
            sets = part(cells, seen, either)
            if sets is not None:
                for n in range(count, 0, -1):
                    reached[n] = _joined(reached[n], _both(reached[n - 1], sets), either)
        return reached[count]

    return at_least


def _both(one: Sets | None, other: Sets | None) -> Sets | None:
    return None if one is None or other is None else one & other


def _joined(one: Sets | None, other: Sets | None, either: Either | None) -> Sets | None:
    if one is None or other is None:
        return other if one is None else one
    if either is None:
        return one | other  # type: ignore[operator]
    return either((one, other))
