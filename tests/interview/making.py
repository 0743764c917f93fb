"""Small networks and tables for the tests of this room."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from math import prod

from sootsayer.belief.network import Kind, Observable, Seen
from sootsayer.belief.noisy import level_spread
from sootsayer.interview.bundles import Bundle, Yield
from sootsayer.interview.leading_table import LeadingTable
from sootsayer.interview.scoring import Entered, Scorer


def binary(p: float) -> tuple[float, float]:
    """Levels false and true."""
    return (1.0 - p, p)


def shown(
    key: str,
    otherwise: float,
    seen: Mapping[str, float] | None = None,
    hidden_by: Mapping[str, float] | None = None,
) -> Observable:
    """A binary observable; `hidden_by` nearest first."""
    return Observable(
        key,
        binary(otherwise),
        tuple(Seen(fault, binary(p)) for fault, p in (seen or {}).items()),
        tuple(Seen(fault, binary(p)) for fault, p in (hidden_by or {}).items()),
    )


def independent(
    priors: Mapping[str, float], outside: Mapping[str, float] | None = None
) -> LeadingTable:
    """The table of faults that do not depend on each other."""
    names = tuple(sorted(priors))
    table = [
        prod(
            priors[f] if there else 1.0 - priors[f]
            for f, there in zip(names, states[::-1], strict=True)
        )
        for states in product((False, True), repeat=len(names))
    ]
    return LeadingTable(names, table, outside or {})


def scorer(table: LeadingTable, entered: Mapping[str, Entered] | None = None) -> Scorer:
    """A scorer to which every fault is a cause."""
    kinds = dict.fromkeys((*table.faults, *table.outside), Kind.CAUSE)
    return Scorer(table, entered or {}, kinds)


def bundle(
    *seen: Observable, minutes: float = 1.0, name: str = "look", instead_of: str | None = None
) -> Bundle:
    """One check that lets these speak."""
    return Bundle((name,), minutes, tuple(Yield(s.id, s.id, s, instead_of) for s in seen))


def spread_by_sets(seen: Observable, table: LeadingTable) -> list[tuple[float, ...]]:
    """The spread over the levels for every set of leading faults, straight from the definition,
    with every set of the faults outside weighed by their posteriors."""
    found = []
    outside = sorted(table.outside)
    for cell in range(len(table.table)):
        inside = {f for i, f in enumerate(table.faults) if cell >> i & 1}
        total = [0.0] * len(seen.otherwise)
        for states in product((False, True), repeat=len(outside)):
            there = {f for f, state in zip(outside, states, strict=True) if state}
            weight = prod(
                table.outside[f] if state else 1.0 - table.outside[f]
                for f, state in zip(outside, states, strict=True)
            )
            spread = level_spread(seen, inside | there)
            total = [t + weight * p for t, p in zip(total, spread, strict=True)]
        found.append(tuple(total))
    return found
