"""A piece solved on its tree of clusters, and solved again cheaply with evidence taken out.

Solving passes messages to the root and back. Solving again multiplies what has changed into
the tables kept from the first time, so that only the clusters it touches, and those above
them, are summed anew on the way up.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from operator import add, mul, truediv
from typing import NamedTuple

from sootsayer.belief.clusters import Cluster, Handed, Shape
from sootsayer.belief.problem import Problem
from sootsayer.belief.products import Placed, product
from sootsayer.belief.splitting import Part, Split, table_of
from sootsayer.belief.stars import Ray, Star, table_of_ray
from sootsayer.belief.tables import Table, repeat, rescale, sum_out, widen

# Near 1, and its digits are of no pattern.
OTHERWISE = 0.9428090415820634


@dataclass(frozen=True, slots=True)
class Solved:
    """`ups`: each cluster's table with all messages from below; `messages`: what it sends up,
    of the root its total, to be multiplied by two to the `power`. `shown`: see `many`."""

    split: Split | Star
    shape: Shape
    ups: list[Table]
    messages: list[Table]
    power: int
    shown: dict[int, dict[int, Table]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Change:
    """What a piece is multiplied by: `odds`, fault to a factor where it is present; and a
    table over the faults `scope`, in the order of their ranks, or none of either. `instead`: a
    cluster, and what its table is before that."""

    odds: Mapping[int, float]
    scope: tuple[int, ...] = ()
    table: Table = field(default_factory=list)
    instead: tuple[int, Table] | None = None


# The tables that stand in one cluster before any message comes.
Laid = list[list[Placed]]


def laid_out(
    problem: Problem,
    split: Split | Star,
    weights: Mapping[int, tuple[float, float]],
) -> Laid:
    """For each cluster the weights of its own faults and the parts that stand there."""
    shape = split.shape
    clusters = shape.clusters
    laid = [_weighed(cluster, weights) for cluster in clusters]
    for part in split.parts:
        order = ordered(shape, part.scope)
        at = shape.home[order[0]]
        table = part_table(problem, part, order)
        laid[at].append((_seat(clusters[at].scope, order), table))
    return laid


def solve(split: Split | Star, laid: Laid) -> Solved:
    """Messages from the leaves to the root."""
    clusters = split.shape.clusters
    waiting = [tables.copy() for tables in laid]
    ups, messages, power = [], [], 0
    for at, cluster in enumerate(clusters):
        table, shift = product(waiting[at], len(cluster.scope))
        power += shift
        message, shift = rescale(folded(table, cluster.own))
        power += shift
        ups.append(table)
        messages.append(message)
        if cluster.parent >= 0:
            waiting[cluster.parent].append((cluster.seat, message))
    return Solved(split, split.shape, ups, messages, power)


def solved_otherwise(solved: Solved, laid: Laid) -> tuple[Solved, float]:
    """The same with every table first multiplied by a number that is no power of two, and by what
    that multiplied the total, to be divided out: all stays as it is, but for rounding, which is
    another in every step."""
    again = solve(
        solved.split,
        [[(seat, [v * OTHERWISE for v in table]) for seat, table in each] for each in laid],
    )
    times = math.ldexp(again.messages[-1][0], again.power - solved.power)
    return again, times / OTHERWISE ** sum(map(len, laid)) / solved.messages[-1][0]


def _weighed(cluster: Cluster, weights: Mapping[int, tuple[float, float]]) -> list[Placed]:
    """The weights of a cluster's own faults as one table."""
    table, mask = [1.0], 0
    for i, fault in enumerate(cluster.scope[: cluster.own]):
        if fault in weights:
            absent, present = weights[fault]
            table = [v * absent for v in table] + [v * present for v in table]
            mask |= 1 << i
    return [(mask, table)] if mask else []


def part_table(problem: Problem, part: Part | Ray, order: list[int]) -> Table:
    """The part's table over the numbers in `order` (bit 0 first)."""
    if isinstance(part, Ray):
        return table_of_ray(problem, part, order)
    return table_of(problem, part, order)


def ordered(shape: Shape, scope: int) -> list[int]:
    """The faults of a bitmask in the order in which they are summed out."""
    found = []
    while scope:
        low = scope & -scope
        found.append(low.bit_length() - 1)
        scope ^= low
    return sorted(found, key=shape.rank.__getitem__)


class Raised(NamedTuple):
    """Messages sent up anew after a change: by what it multiplies the piece's total, all tables
    and messages, and the clusters where they are others."""

    times: float
    ups: list[Table]
    messages: list[Table]
    changed: set[int]


def raised(solved: Solved, change: Change) -> Raised:
    """What the change makes of the messages to the root."""
    shape = solved.shape
    clusters = shape.clusters
    touching: dict[int, list[tuple[int, Table]]] = {}
    if change.scope:
        at = shape.home[change.scope[0]]
        seat = _seat(clusters[at].scope, change.scope)
        touching.setdefault(at, []).append((seat, change.table))
    odds: dict[int, dict[int, float]] = {}
    for fault, ratio in change.odds.items():
        odds.setdefault(shape.home[fault], {})[fault] = ratio
    ups, messages = solved.ups.copy(), solved.messages.copy()
    changed = set()
    anew, other = change.instead or (-1, [])
    for at, cluster in enumerate(clusters):
        if at not in touching and at not in odds and at != anew:
            continue
        here = touching.get(at, [])
        if at in odds:
            here.append(_together(cluster.scope, odds[at]))
        table = other if at == anew else solved.ups[at]
        for seat, values in here:
            table = list(map(mul, table, widen(values, seat, len(cluster.scope))))
        ups[at] = table
        messages[at] = message = folded(table, cluster.own)
        changed.add(at)
        if cluster.parent >= 0:
            step = (cluster.seat, ratio_of(message, solved.messages[at]))
            touching.setdefault(cluster.parent, []).append(step)
    root = len(clusters) - 1
    return Raised(messages[root][0] / solved.messages[root][0], ups, messages, changed)


def with_part_instead(
    problem: Problem,
    solved: Solved,
    weights: Mapping[int, tuple[float, float]],
    part: Part | Ray,
    table: Table,
) -> tuple[int, Table]:
    """The cluster where a part stands, and what its table is where the part is another `table`,
    over the part's numbers in the order of their ranks."""
    shape = solved.shape
    home = shape.home[ordered(shape, part.scope)[0]]
    cluster = shape.clusters[home]
    others = _weighed(cluster, weights)
    for child in shape.children[home]:
        others.append((shape.clusters[child].seat, solved.messages[child]))
    for each in solved.split.parts:
        order = ordered(shape, each.scope)
        if shape.home[order[0]] == home:
            if each != part:
                others.append((_seat(cluster.scope, order), part_table(problem, each, order)))
            else:
                seat, before = _seat(cluster.scope, order), part_table(problem, each, order)
    size = len(cluster.scope)
    _, power = product([*others, (seat, before)], size)
    found, other = product([*others, (seat, table)], size)
    return home, found if other == power else [math.ldexp(v, other - power) for v in found]


def posteriors_of(solved: Solved) -> dict[int, float]:
    """Each fault's posterior within its piece."""
    return downward(solved, solved.ups, solved.messages)


# Takes a cluster and what its parent makes of its message; says whether that is enough.
Taker = Callable[[int, Table], bool]


def downward(
    solved: Solved,
    ups: Sequence[Table],
    messages: Sequence[Table],
    take: Taker | None = None,
) -> dict[int, float]:
    """Posteriors, from the root back to the leaves. A cluster is worth its table times what its
    parent makes of its message. Of what lies in and below a cluster that `take` takes there are
    none."""
    shape = solved.shape
    found: dict[int, float] = {}
    seats: dict[int, Table] = {}
    for at in range(len(shape.clusters) - 1, -1, -1):
        cluster = shape.clusters[at]
        if cluster.parent < 0:
            _spread(solved, at, ups[at], found, seats)
            continue
        seat = seats.get(at)
        if seat is None or (take is not None and take(at, seat)):
            continue
        belief = list(map(mul, ups[at], repeat(ratio_of(seat, messages[at]), cluster.own)))
        _spread(solved, at, belief, found, seats)
    return found


def _spread(
    solved: Solved, at: int, belief: Table, found: dict[int, float], seats: dict[int, Table]
) -> None:
    """Reads a cluster's own posteriors off its table, and each child's share of it."""
    cluster, count = solved.shape.clusters[at], solved.split.faults
    there: list[tuple[int, float]] = []
    for position, handed in enumerate(solved.shape.handed[at]):
        if handed:
            _hand_out(belief, handed, seats)
        if position < cluster.own:
            present = belief[1::2]
            if cluster.scope[position] < count:
                there.append((cluster.scope[position], math.fsum(present)))
            belief = list(map(add, belief[0::2], present))
    total = math.fsum(belief)
    for fault, share in there:
        found[fault] = min(1.0, share / total) if total else 0.0


def _hand_out(belief: Table, handed: tuple[Handed, ...], seats: dict[int, Table]) -> None:
    """Sums each child's seat out of a table, those on the way to several only once."""
    on_the_way: dict[tuple[int, ...], Table] = {(): belief}
    for child, steps in handed:
        known = len(steps)
        while steps[:known] not in on_the_way:
            known -= 1
        table = on_the_way[steps[:known]]
        for i in range(known, len(steps)):
            table = on_the_way[steps[: i + 1]] = sum_out(table, steps[i])
        seats[child] = table


def _together(scope: tuple[int, ...], odds: Mapping[int, float]) -> tuple[int, Table]:
    """The product of odds as one table over the scope."""
    table = [1.0]
    for fault in scope:
        ratio = odds.get(fault)
        table += table if ratio is None else [value * ratio for value in table]
    return (1 << len(scope)) - 1, table


def folded(table: Table, own: int) -> Table:
    for _ in range(own):
        table = list(map(add, table[0::2], table[1::2]))
    return table


def _seat(scope: tuple[int, ...], faults: list[int] | tuple[int, ...]) -> int:
    return sum(1 << scope.index(fault) for fault in faults)


def ratio_of(over: Table, under: Table) -> Table:
    try:
        return list(map(truediv, over, under))
    except ZeroDivisionError:  # underflow: what has no weight gets none
        return [a / b if b else 0.0 for a, b in zip(over, under, strict=True)]
