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


Handed = tuple[int, tuple[int, ...]]


class Shape(NamedTuple):
    """`clusters`: children before parents, the root last. `home`: the cluster that sums a fault
    out. `rank`: a fault's place in the order of summing out. `handed`: for each cluster, once
    0, 1, ... of its own faults are summed out, the children whose seats can be had from there,
    each with the positions still to be summed out for it, highest first."""

    clusters: tuple[Cluster, ...]
    home: dict[int, int]
    rank: dict[int, int]
    handed: tuple[tuple[tuple[Handed, ...], ...], ...]

    def has_children(self, at: int) -> bool:
        return any(self.handed[at])


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
    home = {fault: last - at for fault, at in of.items()}
    return Shape(tuple(clusters), home, rank, _handed(clusters))


def _handed(clusters: list[Cluster]) -> tuple[tuple[tuple[Handed, ...], ...], ...]:
    found: list[list[list[Handed]]] = [[[] for _ in range(one.own + 1)] for one in clusters]
    for child, cluster in enumerate(clusters):
        if cluster.parent >= 0:
            seat, parent = cluster.seat, clusters[cluster.parent]
            done = min((seat & -seat).bit_length() - 1, parent.own)
            left = range(len(parent.scope) - done - 1, -1, -1)
            others = tuple(position for position in left if not seat >> done + position & 1)
            found[cluster.parent][done].append((child, others))
    return tuple(tuple(tuple(stage) for stage in stages) for stages in found)
