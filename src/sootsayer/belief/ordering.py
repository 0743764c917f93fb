"""In which order to sum faults out: min-fill on bitmask adjacency, ties broken for good."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from sootsayer.belief.tables import bits

# (the fault summed out, the faults it was then tied to, as a bitmask)
Step = tuple[int, int]


class Hub(NamedTuple):
    """Numbers (a bitmask) that stand for one level, and the fault that they bring about, or -1."""

    numbers: int
    child: int


# Room for the number of a fault.
PLACE = 20
NUMBER = (1 << PLACE) - 1


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
    around = left = adjacent[fault]
    missing = -around.bit_count()
    while left:
        low = left & -left
        missing += (around & ~adjacent[low.bit_length() - 1]).bit_count()
        left ^= low
    return missing


def min_fill(
    scopes: Iterable[int], members: int, kept: int = 0, hubs: tuple[Hub, ...] = ()
) -> list[Step]:
    """Every fault of `members` but those `kept`, in the order to sum them out.

    Scopes and members are bitmasks of fault numbers. Ties go to the fewer neighbours, then
    to the lower number, so that the same network always gives the same order. The numbers of
    a hub are summed out one right after the other, and before the fault that they bring about.
    """
    adjacent = neighbours(scopes, members)
    open_ = members & ~kept
    cost = {fault: _fill(adjacent, fault) for fault in bits(open_)}
    held = {hub.child: hub.numbers for hub in hubs if hub.child >= 0}
    beside = {number: hub for hub in hubs for number in bits(hub.numbers)}
    keys = {fault: _key(adjacent, cost, fault) for fault in cost if fault not in held}
    steps: list[Step] = []
    following: list[int] = []
    while keys:
        fault = following.pop() if following else min(keys.values()) & NUMBER
        around = adjacent.pop(fault)
        steps.append((fault, around))
        open_ &= ~(1 << fault)
        del keys[fault]
        hub = beside.get(fault)
        if hub is not None:
            following = bits(hub.numbers & open_)
            if not following and hub.child in held:
                del held[hub.child]
                if open_ >> hub.child & 1:
                    keys[hub.child] = _key(adjacent, cost, hub.child)
        if not cost.pop(fault):  # they are neighbours already: pairs with the fault go, none comes
            gone = around | 1 << fault
            for other in bits(around):
                if other in cost:
                    cost[other] -= 2 * (adjacent[other] & ~gone).bit_count()
                adjacent[other] &= ~(1 << fault)
            touched = around
        else:
            touched = around
            for other in bits(around):
                adjacent[other] = (adjacent[other] | around) & ~(1 << other | 1 << fault)
                touched |= adjacent[other]
            for other in bits(touched & open_):
                cost[other] = _fill(adjacent, other)
        for other in bits(touched & open_):
            if other not in held:
                keys[other] = _key(adjacent, cost, other)
    return steps


def _key(adjacent: dict[int, int], cost: dict[int, int], fault: int) -> int:
    """Smaller for what is summed out first, and the fault itself in its lowest bits."""
    return (cost[fault] << PLACE | adjacent[fault].bit_count()) << PLACE | fault


def width(steps: Iterable[Step]) -> int:
    """How many faults the largest table spans; 0 for none."""
    return max((around.bit_count() + 1 for _, around in steps), default=0)
