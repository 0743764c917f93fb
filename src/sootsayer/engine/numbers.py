"""What counts as a number, and a number against a number, in three values."""

from __future__ import annotations

import operator
from collections.abc import Callable

from sootsayer.engine.conditions import NOT_FITTED, NotFitted, Op, Truth, Value

Number = float | NotFitted | None

# A comparison is one or two halves, each with its own operand: between is both of its
# halves, outside either. So one unknown end still lets the other end decide.
HALVES: dict[Op, tuple[Callable[[float, float], bool], ...]] = {
    Op.BELOW: (operator.lt,),
    Op.AT_MOST: (operator.le,),
    Op.ABOVE: (operator.gt,),
    Op.AT_LEAST: (operator.ge,),
    Op.BETWEEN: (operator.ge, operator.le),
    Op.OUTSIDE: (operator.lt, operator.gt),
}


def number(value: Value) -> Number:
    """The number in `value`; `NOT_FITTED` stays; anything else (a boolean too) is unknown."""
    if value.__class__ is float:
        return value if value == value else None
    if value is NOT_FITTED:
        return NOT_FITTED
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        exact = float(value)
    except OverflowError:
        return None
    return exact if exact == exact else None


def scaled(times: Number, of: Number, plus: Number) -> Number:
    """`times` x `of` + `plus`; not fitted if any of them is, else unknown if any of them is."""
    for part in (times, of, plus):
        if isinstance(part, NotFitted):
            return NOT_FITTED
    if times is None or of is None or plus is None:
        return None
    return number(times * of + plus)  # type: ignore[operator]


def half(test: Callable[[float, float], bool], left: Number, right: Number, absent: Truth) -> Truth:
    """One half of a comparison; `absent` is its truth when either side is not fitted."""
    if isinstance(left, NotFitted) or isinstance(right, NotFitted):
        return absent
    if left is None or right is None:
        return None
    return test(left, right)


def joined(op: Op, halves: list[Truth]) -> Truth:
    """The truth of a comparison from its halves."""
    if len(halves) == 1:
        return halves[0]
    deciding = op is Op.OUTSIDE
    if deciding in halves:
        return deciding
    return None if None in halves else not deciding
