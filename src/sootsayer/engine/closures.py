"""Conditions compiled once to closures over cells: true, false or None for unknown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from sootsayer.engine.comparing import compile_compare
from sootsayer.engine.conditions import (
    Compare,
    Condition,
    Known,
    Not,
    OneOf,
    Truth,
    Value,
)
from sootsayer.engine.joining import Flag, flag_of, flattened, joined
from sootsayer.engine.layout import Cells, Layout, Test
from sootsayer.engine.reading import needed


def compile_condition(
    condition: Condition, layout: Layout, absent: Truth, denied: bool = False
) -> Test:
    """The closure of a condition; `absent` is the truth of a test on what is not fitted.

    `denied` gives the closure of its negation: `not` costs nothing at run time, since it is
    pushed down to the tests (De Morgan's laws hold in Kleene's logic). Raises ValueError
    for a comparison with the wrong number of operands.
    """
    if isinstance(condition, Compare):
        return compile_compare(condition, layout, absent, denied)
    if isinstance(condition, OneOf):
        return _one_of(condition, layout, absent, denied)
    if isinstance(condition, Known):
        return _known(condition, layout, denied)
    if isinstance(condition, Not):
        return compile_condition(condition.part, layout, absent, not denied)
    count = needed(condition, not denied)
    if count not in (1, len(condition.parts)):
        parts = [compile_condition(part, layout, absent, denied) for part in condition.parts]
        return _count(count, parts)
    deciding = count != len(condition.parts)
    flags: list[Flag] = []
    tests: list[Test] = []
    for part, is_denied in flattened(condition, denied):
        flag = flag_of(part, layout, absent, is_denied)
        if flag is None:
            tests.append(compile_condition(part, layout, absent, is_denied))
        else:
            flags.append(flag)
    return joined(flags, tests, deciding)


def _one_of(condition: OneOf, layout: Layout, absent: Truth, denied: bool) -> Test:
    i, values = layout.slot[condition.slot], condition.values
    words = frozenset(value for value in values if isinstance(value, str))
    flags = frozenset(value for value in values if isinstance(value, bool))
    # A value of a kind that is not listed is unknown; an empty list says no to both kinds.
    takes_words, takes_flags = bool(words or not values), bool(flags or not values)
    when_absent = _denied(absent) if denied else absent

    def slow(x: Value) -> Truth:
        if x is None:
            return None
        if isinstance(x, bool):
            return (x in flags) is not denied if takes_flags else None
        if isinstance(x, str):
            return (x in words) is not denied if takes_words else None
        return None if isinstance(x, int | float) else when_absent

    def is_so(cells: Cells) -> Truth:
        x = cells[i]
        return x if x is True or x is False or x is None else slow(x)

    def is_not_so(cells: Cells) -> Truth:
        x = cells[i]
        if x is True:
            return False
        return True if x is False else slow(x)

    def one_of(cells: Cells) -> Truth:
        x = cells[i]
        if x is None:
            return None
        return (x in words) is not denied if takes_words and x.__class__ is str else slow(x)

    if len(values) == 1 and flags:
        return is_so if (True in flags) is not denied else is_not_so
    return one_of


def _denied(truth: Truth) -> Truth:
    return None if truth is None else not truth


def _known(condition: Known, layout: Layout, denied: bool) -> Test:
    i, blank = layout.slot[condition.slot], layout.blank(condition.slot)
    if denied:
        return lambda cells: False if cells[i] is not None else _denied(cast(Truth, cells[blank]))
    return lambda cells: True if cells[i] is not None else cast(Truth, cells[blank])


def _count(count: int, parts: Sequence[Test]) -> Test:
    spare = len(parts) - count

    def at_least(cells: Cells) -> Truth:
        surely = wrong = 0
        for part in parts:
            truth = part(cells)
            if truth:
                surely += 1
                if surely == count:
                    return True
            elif truth is False:
                wrong += 1
                if wrong > spare:
                    return False
        return None

    if count <= 0:
        return lambda _: True
    return (lambda _: False) if spare < 0 else at_least
