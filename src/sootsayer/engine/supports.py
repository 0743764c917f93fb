"""Conditions compiled once to closures that say which sets of known inputs decide them."""

from __future__ import annotations

from sootsayer.engine.closures import compile_condition
from sootsayer.engine.conditions import (
    Compare,
    Condition,
    Definition,
    Grade,
    Known,
    Linear,
    Not,
    OneOf,
    Rule,
    Slot,
    Truth,
)
from sootsayer.engine.joining import Flag, flag_of, flattened
from sootsayer.engine.layout import Cells, Layout
from sootsayer.engine.reading import needed
from sootsayer.engine.sufficient import ALWAYS, Either, Sets
from sootsayer.engine.supports_joined import Seen, Support, at_least, every, some
from sootsayer.engine.supports_numbers import support_of_compare, support_of_grade


def compile_support(definition: Definition, wanted: bool, layout: Layout) -> Support:
    """The sets that make a rule true, or if not `wanted` false; those that give a grade its
    level. Read in settled cells, with the sets of every slot that the definition reads."""
    if isinstance(definition, Rule):
        absent = False if definition.absent_is_false else None
        found = _condition(definition.when, wanted, layout, absent)
    else:
        found = support_of_grade(definition, layout)
    if definition.applies is None:
        return found
    return every([_condition(definition.applies, True, layout, False), found])


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
        return support_of_compare(part, wanted, layout, absent)
    if isinstance(part, OneOf):
        return _one_of(part, wanted, layout, absent)
    if isinstance(part, Known):
        return _known(part, wanted, layout)
    count = needed(part, wanted)
    if count not in (1, len(part.parts)):
        return at_least(count, [_condition(each, wanted, layout, absent) for each in part.parts])
    flags: list[Flag] = []
    parts: list[Support] = []
    for each, denied in flattened(part, not wanted):
        flag = flag_of(each, layout, absent, denied)
        if flag is None:
            parts.append(_condition(each, not denied, layout, absent))
        else:
            flags.append(flag)
    return every(parts, flags) if count == len(part.parts) else some(parts, flags)


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
