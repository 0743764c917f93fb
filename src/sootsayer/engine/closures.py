"""Conditions compiled once to closures over cells: true, false or None for unknown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from sootsayer.engine.comparing import compile_compare
from sootsayer.engine.conditions import (
    Any,
    AtLeast,
    Compare,
    Condition,
    Known,
    Not,
    OneOf,
    Truth,
    Value,
)
from sootsayer.engine.layout import Cells, Layout, Test


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
    parts = [compile_condition(part, layout, absent, denied) for part in condition.parts]
    if isinstance(condition, AtLeast):
        count = len(parts) + 1 - condition.count if denied else condition.count
        return _count(count, parts)
    return _joined(parts, isinstance(condition, Any) is not denied)


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


def _joined(parts: Sequence[Test], deciding: bool) -> Test:
    """All of the parts (one false decides), or any (one true decides)."""
    if len(parts) == 1:
        return parts[0]
    if len(parts) == 2:
        return _pair(parts[0], parts[1], deciding)
    if len(parts) == 3:
        return _three(parts[0], parts[1], parts[2], deciding)

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
