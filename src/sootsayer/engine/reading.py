"""Who reads whom: the slots, limits and tests in a definition."""

from __future__ import annotations

from collections.abc import Iterator

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
    Linear,
    Not,
    OneOf,
    Operand,
    Rule,
    Slot,
)

Leaf = Compare | OneOf | Known


def operand_leaves(operand: Operand) -> Iterator[Const | Slot | Limit]:
    """The constants, slots and limits in an operand, left to right."""
    if isinstance(operand, Linear):
        for part in (operand.times, operand.of, operand.plus):
            yield from operand_leaves(part)
    else:
        yield operand


def operand_slots(operand: Operand) -> tuple[str, ...]:
    """The slots in an operand, left to right."""
    return tuple(leaf.name for leaf in operand_leaves(operand) if isinstance(leaf, Slot))


def leaves_in(condition: Condition, plain: bool = True) -> Iterator[tuple[Leaf, bool]]:
    """The tests in a condition, left to right, each with whether no `not` stands above it."""
    if isinstance(condition, Compare | OneOf | Known):
        yield condition, plain
    elif isinstance(condition, Not):
        yield from leaves_in(condition.part, False)
    else:
        for part in condition.parts:
            yield from leaves_in(part, plain)


def leaves_of(definition: Definition) -> Iterator[tuple[Leaf, bool]]:
    """The tests that a definition makes, each with whether it may stand in a cycle.

    It may if it only asks that a slot is true, with no `not` above it and not in `applies`:
    such a test cannot turn false because more becomes true.
    """
    if isinstance(definition, Rule):
        for test, plain in leaves_in(definition.when):
            yield test, plain and isinstance(test, OneOf) and test.values == (True,)
    if definition.applies is not None:
        yield from ((test, False) for test, _ in leaves_in(definition.applies))


def operands_of(definition: Definition) -> Iterator[Operand]:
    """Every operand that a definition reads."""
    if isinstance(definition, Grade):
        yield from definition.cuts
    for test, _ in leaves_of(definition):
        if isinstance(test, Compare):
            yield from test.operands


def numbers_of(definition: Definition) -> set[str]:
    """The slots of which a definition wants a number."""
    found = {name for operand in operands_of(definition) for name in operand_slots(operand)}
    found.update(test.slot for test, _ in leaves_of(definition) if isinstance(test, Compare))
    if isinstance(definition, Grade):
        found.add(definition.of)
    return found


def limits_of(definition: Definition) -> set[str]:
    """The limits that a definition names."""
    return {
        leaf.name
        for operand in operands_of(definition)
        for leaf in operand_leaves(operand)
        if isinstance(leaf, Limit)
    }


def reads_of(definition: Definition) -> dict[str, bool]:
    """The slots that a definition reads; true where every read may stand in a cycle."""
    found = dict.fromkeys(numbers_of(definition), False)
    for test, plain in leaves_of(definition):
        found[test.slot] = found.get(test.slot, True) and plain
    return found


def needed(part: All | Any | AtLeast, wanted: bool) -> int:
    """How many of the parts must be so for the whole to be so."""
    size = len(part.parts)
    count = part.count if isinstance(part, AtLeast) else size if isinstance(part, All) else 1
    return count if wanted else size - count + 1
