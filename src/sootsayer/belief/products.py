"""Products of several tables over one scope.

A table over n variables costs 2**n for each table that is multiplied into it. So those that have
few variables between them are multiplied together first, and only what is left in full width.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from operator import mul

from sootsayer.belief.tables import Table, rescale, widen

# The positions of a scope over which a table stands, as a bitmask, and the table.
Placed = tuple[int, Table]

# Tables multiplied before looking whether the product becomes too small to hold.
RESCALED = 4

# In a scope of fewer variables nothing is gained by multiplying some together first.
NARROW = 9


def product(parts: list[Placed], size: int) -> tuple[Table, int]:
    """The product over `size` positions, and the power of two taken out against underflow."""
    power = 0
    if size >= NARROW and len(parts) > 2:
        parts, power = _merged(parts, size)
    if not parts:
        return [1.0] * (1 << size), 0
    table = widen(parts[0][1], parts[0][0], size)
    for i, (mask, values) in enumerate(parts[1:], 1):
        table = list(map(mul, table, widen(values, mask, size)))
        if i % RESCALED == 0:
            table, shift = rescale(table)
            power += shift
    table, shift = rescale(table)
    return table, power + shift


def _merged(parts: list[Placed], size: int) -> tuple[list[Placed], int]:
    """The parts, those multiplied together that make the smallest tables, while these stay less
    than half as large as the whole."""
    parts, power = parts.copy(), 0
    while len(parts) > 2:
        width, i, j = min(
            ((one[0] | other[0]).bit_count(), i, j)
            for (i, one), (j, other) in combinations(enumerate(parts), 2)
        )
        if width > size - 2:
            break
        (one, first), (other, second) = parts[i], parts[j]
        both = one | other
        table = map(
            mul,
            widen(first, _within(one, both), width),
            widen(second, _within(other, both), width),
        )
        merged, shift = rescale(list(table))
        power += shift
        del parts[j]
        parts[i] = both, merged
    return parts, power


@lru_cache(maxsize=4096)
def _within(mask: int, scope: int) -> int:
    """The positions that those of the mask have among those of the scope."""
    found, place = 0, 0
    while scope:
        low = scope & -scope
        if mask & low:
            found |= 1 << place
        place += 1
        scope ^= low
    return found
