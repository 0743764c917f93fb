"""Flat tables over binary variables, worked at the speed of C slices.

A table over n variables is a list of 2**n floats; bit j of the index is the state of the
variable at position j.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from operator import add

Table = list[float]

# Up to so many positions an index is remembered; of the larger ones only a few, for they cost
# room, and beyond those none.
REMEMBERED = 9
REMEMBERED_LARGE = 13


def _index(mask: int, size: int) -> list[int]:
    index = [0]
    bit = 1
    for position in range(size):
        if mask >> position & 1:
            index += [i + bit for i in index]
            bit <<= 1
        else:
            index += index
    return index


_remembered = lru_cache(maxsize=4096)(_index)
_remembered_large = lru_cache(maxsize=64)(_index)


def widen(table: Table, mask: int, size: int) -> Table:
    """`table`, over the positions set in `mask`, as a table over all `size` positions."""
    missing = size - mask.bit_count()
    if not missing:
        return table
    if not mask & mask + 1:  # the lowest positions
        return table * (1 << missing)
    if mask >> missing << missing == mask:  # the highest
        return repeat(table, missing)
    if size <= REMEMBERED:
        index = _remembered(mask, size)
    elif size <= REMEMBERED_LARGE:
        index = _remembered_large(mask, size)
    else:
        index = _index(mask, size)
    return list(map(table.__getitem__, index))


def repeat(table: Table, below: int) -> Table:
    """`table` with `below` more positions, all lower than its own."""
    for _ in range(below):
        wide = [0.0] * (2 * len(table))
        wide[0::2] = wide[1::2] = table
        table = wide
    return table


def sum_out(table: Table, position: int) -> Table:
    """The table with the variable at `position` summed out."""
    block, size = 1 << position, len(table)
    if block == 1:
        return list(map(add, table[0::2], table[1::2]))
    if block * 2 == size:
        return list(map(add, table[:block], table[block:]))
    step = block * 2
    if block * block <= size:
        out = [0.0] * (size // 2)
        for i in range(block):
            out[i::block] = list(map(add, table[i::step], table[i + block :: step]))
        return out
    out = []
    for i in range(0, size, step):
        out += map(add, table[i : i + block], table[i + block : i + step])
    return out


def rescale(table: Table) -> tuple[Table, int]:
    """The table brought away from underflow, and the power of two that was taken out.

    Powers of two, because they change no digit.
    """
    largest = max(table)
    if largest == 0.0 or 1e-60 < largest < 1e60:
        return table, 0
    power = math.frexp(largest)[1]
    return [math.ldexp(value, -power) for value in table], power


def bits(mask: int) -> list[int]:
    """The numbers of the bits set, lowest first."""
    numbers = []
    while mask:
        low = mask & -mask
        numbers.append(low.bit_length() - 1)
        mask ^= low
    return numbers


def reordered(table: Sequence[float], made: Sequence[int], order: Sequence[int]) -> Table:
    """`table`, made over the numbers `made`, the first as bit 0, over the same in `order`."""
    place = {number: 1 << i for i, number in enumerate(made)}
    index = [0]
    for number in order:
        index += [i + place[number] for i in index]
    return [table[i] for i in index]
