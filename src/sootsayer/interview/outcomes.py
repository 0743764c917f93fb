"""How often each level of a finding is seen, for each set of the leading faults."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from operator import mul, sub

from sootsayer.belief.network import Observable
from sootsayer.belief.noisy import cumulative_factors
from sootsayer.belief.tables import Table
from sootsayer.interview.leading_table import LeadingTable


def faults_behind(seen: Observable) -> frozenset[str]:
    """The faults that bear on what is seen: those with a link, and those that hide."""
    return frozenset(each.fault for each in (*seen.seen, *seen.hidden_by))


def level_tables(seen: Observable, table: LeadingTable, mask: int) -> list[Table]:
    """For each level, lowest first, its probability in each cell over the faults in `mask`.

    Faults outside the table count by their posteriors, as if each stood alone. Where a hider
    is present its own spread stands, that of the nearest (docs: calculus).
    """
    tables = _visible(seen, table, mask)
    for hider in reversed(seen.hidden_by):
        bit = table.place.get(hider.fault)
        if bit is None:
            p = table.outside.get(hider.fault, 0.0)
            tables = [
                [value + p * (share - value) for value in level]
                for level, share in zip(tables, hider.spread, strict=True)
            ]
        else:
            there = 1 << (mask & (bit - 1)).bit_count()
            tables = [
                [share if i & there else value for i, value in enumerate(level)]
                for level, share in zip(tables, hider.spread, strict=True)
            ]
    return tables


def _visible(seen: Observable, table: LeadingTable, mask: int) -> list[Table]:
    """The same with nobody hiding it: noisy-MAX with leak."""
    hiding = {each.fault for each in seen.hidden_by}
    linked: dict[int, tuple[float, ...]] = {}
    up_to = [*accumulate(seen.otherwise[:-1]), 1.0]
    for link in seen.seen:
        if link.fault in hiding:
            continue
        factors = cumulative_factors(seen.otherwise, link.spread)
        bit = table.place.get(link.fault)
        if bit is not None:
            linked[bit] = factors
        elif p := table.outside.get(link.fault, 0.0):
            up_to = [u * (1.0 + p * (c - 1.0)) for u, c in zip(up_to, factors, strict=True)]
    cumulative = [_spread_out(u, k, linked, mask) for k, u in enumerate(up_to)]
    return [
        cumulative[0],
        *(list(map(sub, above, below)) for below, above in pairwise(cumulative)),
    ]


def _spread_out(start: float, level: int, linked: dict[int, tuple[float, ...]], mask: int) -> Table:
    values = [start]
    while mask:
        bit = mask & -mask
        mask ^= bit
        factors = linked.get(bit)
        values += values if factors is None else [value * factors[level] for value in values]
    return values


def joint_outcomes(cells: Table, findings: Sequence[Sequence[Table]]) -> list[Table]:
    """For every joint outcome of the findings, the weight of each cell together with it.

    Given the cell the findings are independent. The first finding's lowest level comes first.
    """
    found = [cells]
    for levels in findings:
        found = [list(map(mul, weights, level)) for weights in found for level in levels]
    return found
