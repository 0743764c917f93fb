"""A solved piece asked what many changes make of it, each by itself.

Most of what a change does reaches the other clusters through messages of a few numbers. These are
gathered for all changes, and what they say of the faults beyond is read off for all at once, from
tables made once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import add, mul
from typing import NamedTuple

from sootsayer.belief.tables import Table, widen
from sootsayer.belief.tree import Change, Raised, Solved, downward, folded, raised, ratio_of

# A message no longer than this is gathered: the tables for longer ones are not worth making.
SHOWN = 256

Seats = list[tuple[int, Table]]  # the numbers of changes, and what stands at a cluster's seat


class Answers(NamedTuple):
    """For each change the factor by which it multiplies the piece's total (`times`), and for each
    fault, one for each change, its posterior with it (`found`)."""

    times: list[float]
    found: dict[int, list[float]]


def all_again(solved: Solved, changes: Sequence[Change]) -> Answers:
    """What each of the changes makes of the piece."""
    faults = [number for number in solved.shape.home if number < solved.split.faults]
    found = {fault: [0.0] * len(changes) for fault in faults}
    gathered: list[Seats] = [[] for _ in solved.shape.clusters]
    times = []
    for number, change in enumerate(changes):
        up = raised(solved, change)
        times.append(up.times)
        for fault, p in _near(solved, up, number, gathered).items():
            found[fault][number] = p
    for at, seats in enumerate(gathered):
        if seats:
            _read_off(solved, at, seats, found)
    return Answers(times, found)


def _near(solved: Solved, up: Raised, number: int, gathered: list[Seats]) -> dict[int, float]:
    """Posteriors with one change, in the clusters that it changes and behind long messages; what
    stands at the seats of the others is gathered."""

    def take(at: int, seat: Table) -> bool:
        if len(seat) > SHOWN or at in up.changed:
            return False
        gathered[at].append((number, seat))
        return True

    return downward(solved, up.ups, up.messages, take)


def _read_off(solved: Solved, at: int, seats: Seats, found: dict[int, list[float]]) -> None:
    """The posteriors of all faults in and below a cluster, by what stands at its seat."""
    message = solved.messages[at]
    numbers = [number for number, _ in seats]
    totals = [math.fsum(seat) for _, seat in seats]  # `sum` is not the same in every Python
    columns = list(zip(*(seat for _, seat in seats), strict=True))
    for fault, table in _shown(solved, at).items():
        shares = ratio_of(table, message)
        there = _weighted(shares, columns, seats)
        column = found[fault]
        for number, present, total in zip(numbers, there, totals, strict=True):
            column[number] = min(1.0, present / total) if total else 0.0


def _weighted(shares: Table, columns: Sequence[tuple[float, ...]], seats: Seats) -> list[float]:
    """For each change the sum of the shares, weighted by what stands at the seat."""
    if len(shares) == 2:
        a, b = shares
        return [a * x + b * y for x, y in zip(*columns, strict=True)]
    if len(shares) == 4:
        a, b, c, d = shares
        return [a * x + b * y + c * z + d * w for x, y, z, w in zip(*columns, strict=True)]
    return [math.fsum(map(mul, shares, seat)) for _, seat in seats]


def _shown(solved: Solved, at: int) -> dict[int, Table]:
    """For each fault summed out in a cluster or below it, the cluster's message where that is
    present."""
    tables = solved.shown.get(at)
    if tables is None:
        cluster = solved.shape.clusters[at]
        tables, table = {}, solved.ups[at]
        for position, number in enumerate(cluster.scope[: cluster.own]):
            if number < solved.split.faults:
                tables[number] = folded(table[1::2], cluster.own - position - 1)
            table = list(map(add, table[0::2], table[1::2]))
        for below in solved.shape.children[at]:
            seat, message = solved.shape.clusters[below].seat, solved.messages[below]
            for fault, there in _shown(solved, below).items():
                share = widen(ratio_of(there, message), seat, len(cluster.scope))
                tables[fault] = folded(list(map(mul, solved.ups[at], share)), cluster.own)
        solved.shown[at] = tables
    return tables
