"""In which order to sum faults out: min-fill on bitmask adjacency, ties broken for good."""

from __future__ import annotations

from collections.abc import Iterable

from sootsayer.belief.tables import bits

# (the fault summed out, the faults it was then tied to, as a bitmask)
Step = tuple[int, int]


def neighbours(scopes: Iterable[int], members: int) -> dict[int, int]:
    """For each fault of `members`, the bitmask of faults it shares a scope with."""
    adjacent = dict.fromkeys(bits(members), 0)
    for scope in scopes:
        for fault in bits(scope):
            adjacent[fault] |= scope
    for fault in adjacent:
        adjacent[fault] &= ~(1 << fault)
    return adjacent


def _fill(adjacent: dict[int, int], fault: int) -> int:
    """How many pairs of this fault's neighbours are not yet neighbours (each counted twice)."""
    around = adjacent[fault]
    missing = 0
    for other in bits(around):
        missing += (around & ~adjacent[other]).bit_count() - 1
    return missing


def min_fill(scopes: Iterable[int], members: int, kept: int = 0) -> list[Step]:
    """Every fault of `members` but those `kept`, in the order to sum them out.

    Scopes and members are bitmasks of fault numbers. Ties go to the fewer neighbours, then
    to the lower number, so that the same network always gives the same order.
    """
    adjacent = neighbours(scopes, members)
    cost = {fault: _fill(adjacent, fault) for fault in bits(members & ~kept)}
    steps: list[Step] = []
    while cost:
        fault = min(cost, key=lambda f: (cost[f], adjacent[f].bit_count(), f))
        around = adjacent.pop(fault)
        touched = around
        new_ties = cost.pop(fault)
        steps.append((fault, around))
        for other in bits(around):
            before = adjacent[other]
            adjacent[other] = (before | around) & ~(1 << other | 1 << fault)
            if new_ties:
                touched |= adjacent[other]
        for other in bits(touched):
            if other in cost:
                cost[other] = _fill(adjacent, other)
    return steps


def width(steps: Iterable[Step]) -> int:
    """How many faults the largest table spans; 0 for none."""
    return max((around.bit_count() + 1 for _, around in steps), default=0)
