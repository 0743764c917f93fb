"""Several conditions that must all be true, or of which one must, as one closure.

A test whether a derived slot is true is most of what rules ask of one another, and costs more to
call than to make: so such tests are not called but made here, straight from their cells.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.engine.conditions import All, Any, AtLeast, Condition, Not, OneOf, Truth
from sootsayer.engine.layout import Cells, Layout, Test
from sootsayer.engine.reading import needed

# A cell that must hold this boolean; with anything but a boolean in it the test is unknown.
Flag = tuple[int, bool]


def flag_of(part: Condition, layout: Layout, absent: Truth, denied: bool) -> Flag | None:
    """The part as a flag, or None if it is not one."""
    if isinstance(part, OneOf) and len(part.values) == 1 and absent is None:
        value = part.values[0]
        if isinstance(value, bool):
            return layout.slot[part.slot], value is not denied
    return None


def flattened(condition: Condition, denied: bool) -> Iterator[tuple[Condition, bool]]:
    """The parts of a condition that needs all of its parts, or one: each with whether it is denied.
    What needs all of its own parts within what needs all is no part, but its parts are."""
    every = _needs_all(condition, denied)
    for part in condition.parts if isinstance(condition, All | Any | AtLeast) else ():
        is_denied = denied
        while isinstance(part, Not):
            part, is_denied = part.part, not is_denied
        if every is not None and _needs_all(part, is_denied) is every:
            yield from flattened(part, is_denied)
        else:
            yield part, is_denied


def _needs_all(condition: Condition, denied: bool) -> bool | None:
    """Whether it needs all of its parts, or else one; None where it is neither."""
    if not isinstance(condition, All | Any | AtLeast):
        return None
    count = needed(condition, not denied)
    return True if count == len(condition.parts) else False if count == 1 else None


def joined(flags: Sequence[Flag], tests: Sequence[Test], deciding: bool) -> Test:
    """All of these (one false decides), or any (one true decides)."""
    rest = list(tests)
    if len(flags) == len(rest) == 1:
        return _flag_and_test(flags[0], rest[0], deciding)
    if flags:
        rest.insert(0, _flags(flags, deciding))
    if len(rest) == 1:
        return rest[0]
    if len(rest) == 2:
        return _pair(rest[0], rest[1], deciding)
    return _three(rest[0], rest[1], rest[2], deciding) if len(rest) == 3 else _many(rest, deciding)


def _flags(flags: Sequence[Flag], deciding: bool) -> Test:
    # What a cell holds that decides, and what it holds where the others must.
    deciders = [(i, value is deciding) for i, value in flags]
    if len(deciders) == 1:
        return _one_flag(*deciders[0], deciding)
    if len(deciders) == 2:
        return _two_flags(*deciders[0], *deciders[1], deciding)

    def flag_tests(cells: Cells) -> Truth:
        result: Truth = not deciding
        for i, value in deciders:
            x = cells[i]
            if x is value:
                return deciding
            if x is not True and x is not False:
                result = None
        return result

    return flag_tests


def _one_flag(i: int, a: bool, deciding: bool) -> Test:
    other = not a

    def flag(cells: Cells) -> Truth:
        x = cells[i]
        return deciding if x is a else (not deciding) if x is other else None

    return flag


def _two_flags(i: int, a: bool, j: int, b: bool, deciding: bool) -> Test:
    not_a, not_b, neither = not a, not b, not deciding

    def two(cells: Cells) -> Truth:
        x, y = cells[i], cells[j]
        if x is a or y is b:
            return deciding
        return neither if x is not_a and y is not_b else None

    return two


def _flag_and_test(flag: Flag, test: Test, deciding: bool) -> Test:
    i, a = flag[0], flag[1] is deciding
    not_a = not a

    def both(cells: Cells) -> Truth:
        x = cells[i]
        if x is a:
            return deciding
        y = test(cells)
        return y if y is deciding or x is not_a else None

    return both


def _many(parts: Sequence[Test], deciding: bool) -> Test:
    def many(cells: Cells) -> Truth:
        result: Truth = not deciding
        for part in parts:
            truth = part(cells)
            if truth is deciding:
                return truth
            if truth is None:
                result = None
        return result

    return many


def _pair(first: Test, second: Test, deciding: bool) -> Test:
    def pair(cells: Cells) -> Truth:
        x = first(cells)
        if x is deciding:
            return x
        y = second(cells)
        return y if y is deciding or x is not None else None

    return pair


def _three(first: Test, second: Test, third: Test, deciding: bool) -> Test:
    def three(cells: Cells) -> Truth:
        x = first(cells)
        if x is deciding:
            return x
        y = second(cells)
        if y is deciding:
            return y
        z = third(cells)
        return z if z is deciding or (x is not None and y is not None) else None

    return three
