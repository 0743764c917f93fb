"""As `joint`, for a piece told as products, in whole numbers (see `whole`)."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import NamedTuple

from sootsayer.belief.ordering import Step
from sootsayer.belief.products import Products
from sootsayer.belief.tables import Table, bits, rescale
from sootsayer.belief.whole import (
    BITS,
    LEFT,
    MOST_BITS,
    TooFewBits,
    Whole,
    as_whole,
    folded,
    multiplied,
    reordered,
    scaled,
    widen_whole,
)


class Handed(NamedTuple):
    """A table over the numbers `scope` (bit 0 first); `lost`: bits counted lost in it."""

    scope: list[int]
    table: Whole
    lost: int


def joint_whole(
    products: Products,
    weights: Mapping[int, tuple[float, float]],
    kept: int,
    steps_for: Callable[[tuple[int, ...]], tuple[Step, ...]],
) -> tuple[Table, int]:
    """The table over the faults `kept` (a bitmask), lowest first, and its power of two.

    `steps_for`: in which order all other numbers are summed out, given the tables' scopes.
    """
    scopes = tuple(sum(1 << number for number in told.scope) for told in products.tables)
    steps = steps_for(scopes)
    many = BITS
    while True:
        try:
            return _joint(products, weights, kept, steps, many)
        except TooFewBits:
            if many >= MOST_BITS:
                return [0.0] * (1 << kept.bit_count()), 0
            many *= 2


def _joint(
    products: Products,
    weights: Mapping[int, tuple[float, float]],
    kept: int,
    steps: tuple[Step, ...],
    many: int,
) -> tuple[Table, int]:
    last = bits(kept)
    order = [number for number, _ in steps] + last
    rank = {number: i for i, number in enumerate(order)}
    waiting: dict[int, list[Handed]] = {number: [] for number in order}
    lone: list[Handed] = []
    for told in products.tables:
        scope = sorted(told.scope, key=rank.__getitem__)
        table = as_whole(reordered(told, told.table, scope), many)
        waiting[scope[0]].append(Handed(scope, table, 0))
    power = 0
    for number, around in steps:
        later = sorted(bits(around), key=rank.__getitem__)
        table, lost, taken = _product(number, later, waiting.pop(number), weights, many)
        message, shift = scaled(folded(table, 1), many)
        power += taken - shift
        handed = Handed(later, message, lost + shift)
        (waiting[later[0]] if later else lone).append(handed)
    return _over_kept(last, waiting, lone, weights, many, power)


def _product(
    number: int,
    later: list[int],
    handed: list[Handed],
    weights: Mapping[int, tuple[float, float]],
    many: int,
) -> tuple[Whole, int, int]:
    """All tables with `number`, over it and `later`; bits lost, and the power of two taken."""
    scope = [number, *later]
    one = [1 << many, 1 << many]
    power = 0
    if number in weights:
        one, power = _whole_weights(weights[number], many)
    table = one * (1 << len(later))
    for each in handed:
        seat = sum(1 << scope.index(other) for other in each.scope)
        table = multiplied(table, widen_whole(each.table, seat, len(scope)), many)
    return table, max((each.lost for each in handed), default=0), power


def _whole_weights(pair: tuple[float, float], many: int) -> tuple[Whole, int]:
    power = math.frexp(max(pair))[1]
    return [int(math.ldexp(value, many - power)) for value in pair], power


def _over_kept(
    last: list[int],
    waiting: Mapping[int, list[Handed]],
    lone: list[Handed],
    weights: Mapping[int, tuple[float, float]],
    many: int,
    power: int,
) -> tuple[Table, int]:
    """The product of all that is left, grown from the last kept fault to the first."""
    table, lost = [1 << many], max((each.lost for each in lone), default=0)
    for each in lone:
        table = multiplied(table, each.table, many)
    for i in range(len(last) - 1, -1, -1):
        pair, taken = _whole_weights(weights[last[i]], many)
        power += taken
        scope = last[i:]
        grown = [0] * (2 * len(table))
        grown[0::2] = [value * pair[0] >> many for value in table]
        grown[1::2] = [value * pair[1] >> many for value in table]
        table = grown
        for each in waiting[last[i]]:
            seat = sum(1 << scope.index(other) for other in each.scope)
            table = multiplied(table, widen_whole(each.table, seat, len(scope)), many)
            lost = max(lost, each.lost)
        table, shift = scaled(table, many)
        power -= shift
        lost += shift
    if lost > many - LEFT or not any(table):
        raise TooFewBits
    floats = [math.ldexp(value >> many - 64, -64) if value > 0 else 0.0 for value in table]
    found, more = rescale(floats)
    return found, power + more
