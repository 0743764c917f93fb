"""The leading faults' joint table, asked for any few of them at a time."""

from __future__ import annotations

from collections.abc import Mapping
from math import fsum

from sootsayer.belief.tables import Table, sum_out


class LeadingTable:
    """The probability of each set of the leading faults, and the posteriors of all others.

    `faults`: ids, the first of them bit 0 of the table's index; `table`: 2**n probabilities
    that add to 1; `outside`: the posterior of every fault that is not in the table. What is
    summed out once is remembered, so that checks that speak of the same faults share the work.
    """

    def __init__(self, faults: tuple[str, ...], table: Table, outside: Mapping[str, float]) -> None:
        self.faults = faults
        self.table = table
        self.outside = outside
        self.place = {fault: 1 << i for i, fault in enumerate(faults)}
        self._all = (1 << len(faults)) - 1
        self._over: dict[int, Table] = {self._all: table}

    def mask(self, faults: frozenset[str]) -> int:
        """The bitmask of those of the faults that stand in the table."""
        return sum(bit for fault, bit in self.place.items() if fault in faults)

    def over(self, mask: int) -> Table:
        """The table over the faults in the bitmask alone, lowest first."""
        found = self._over.get(mask)
        if found is None:
            missing = self._all & ~mask
            low = missing & -missing
            wider = self.over(mask | low)
            found = self._over[mask] = sum_out(wider, (mask & (low - 1)).bit_count())
        return found

    def with_fault(self, number: int, mask: int) -> Table:
        """The table over the bitmask with the fault at this position present too."""
        bit = 1 << number
        position = (mask & (bit - 1)).bit_count()
        wide = self.over(mask | bit)
        block = 1 << position
        if mask & bit:
            return [value if i & block else 0.0 for i, value in enumerate(wide)]
        if block == 1:
            return wide[1::2]
        return [value for i, value in enumerate(wide) if i & block]

    def without_all(self, faults: int, mask: int) -> Table:
        """The table over the bitmask with none of the faults in `faults` (a bitmask) present."""
        wide = self.over(mask | faults)
        both = mask | faults
        gone = _positions(faults, both)
        kept = [value if not i & gone else 0.0 for i, value in enumerate(wide)]
        for bit in _from_highest(faults & ~mask):
            kept = sum_out(kept, (both & (bit - 1)).bit_count())
            both &= ~bit
        return kept

    def times(self, factor: Table) -> LeadingTable:
        """The table with every set's probability multiplied, made to add to 1 again."""
        product = [value * by for value, by in zip(self.table, factor, strict=True)]
        whole = fsum(product)
        return LeadingTable(self.faults, [value / whole for value in product], self.outside)


def _positions(faults: int, among: int) -> int:
    """The positions that the faults have in a table over `among`, as a bitmask."""
    return sum(1 << (among & (bit - 1)).bit_count() for bit in _from_highest(faults) if among & bit)


def _from_highest(mask: int) -> list[int]:
    return [1 << i for i in range(mask.bit_length() - 1, -1, -1) if mask >> i & 1]
