"""Which faults stand together in one table while a piece is solved: a tree of clusters.

The clusters of an elimination order in which no cluster lies within another (Jensen, Lauritzen
& Olesen 1990). Each sums out its own faults and hands a message over the others to its parent.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from sootsayer.belief.ordering import min_fill
from sootsayer.belief.tables import bits


class Cluster(NamedTuple):
    """`scope`: its faults in the order in which they are summed out, bit 0 first; the first
    `own` of them here. `parent`: number of the parent, -1 for the root. `seat`: the bitmask of
    positions in the parent's scope where the faults not summed out here stand."""

    scope: tuple[int, ...]
    own: int
    parent: int
    seat: int


class Shape(NamedTuple):
    """`clusters`: children before parents, the root last. `home`: the cluster that sums a fault
    out. `rank`: a fault's place in the order of summing out. `children` of each cluster."""

    clusters: tuple[Cluster, ...]
    home: dict[int, int]
    rank: dict[int, int]
    children: tuple[tuple[int, ...], ...]


@lru_cache(maxsize=1024)
def shape_of(scopes: tuple[int, ...], members: int) -> Shape:
    """The tree for factors with these scopes over `members`, all bitmasks; they hang together."""
    steps = min_fill(scopes, members)
    rank = {fault: i for i, (fault, _) in enumerate(steps)}
    # From the last fault back: one joins the cluster that its neighbours make up already.
    masks: list[int] = []
    owned: list[list[int]] = []
    of: dict[int, int] = {}
    parents: list[int] = []
    for fault, around in reversed(steps):
        later = min(bits(around), key=rank.__getitem__, default=None)
        at = -1 if later is None else of[later]
        if at >= 0 and masks[at] == around:
            masks[at] |= 1 << fault
            owned[at].append(fault)
        else:
            parents.append(at)
            masks.append(around | 1 << fault)
            owned.append([fault])
            at = len(masks) - 1
        of[fault] = at
    last = len(masks) - 1
    scopes_of = [tuple(sorted(bits(mask), key=rank.__getitem__)) for mask in masks]
    clusters = []
    for at in range(last, -1, -1):
        scope, own, parent = scopes_of[at], len(owned[at]), parents[at]
        rest = set(scope[own:])
        seat = 0
        if parent >= 0:
            seat = sum(1 << i for i, fault in enumerate(scopes_of[parent]) if fault in rest)
        clusters.append(Cluster(scope, own, last - parent if parent >= 0 else -1, seat))
    children: list[list[int]] = [[] for _ in clusters]
    for number, cluster in enumerate(clusters):
        if cluster.parent >= 0:
            children[cluster.parent].append(number)
    home = {fault: last - at for fault, at in of.items()}
    return Shape(tuple(clusters), home, rank, tuple(tuple(found) for found in children))


def widest_of(shape: Shape) -> Cluster:
    """The first of the largest clusters."""
    return max(shape.clusters, key=lambda cluster: len(cluster.scope))
