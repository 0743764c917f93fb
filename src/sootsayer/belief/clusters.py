"""Which faults stand together in one table while a piece is solved: a tree of clusters.

The clusters of an elimination order in which no cluster lies within another (Jensen, Lauritzen
& Olesen 1990). Each sums out its own faults and hands a message over the others to its parent.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from sootsayer.belief.ordering import Hub, min_fill
from sootsayer.belief.tables import bits


class Cluster(NamedTuple):
    """`scope`: its faults in the order in which they are summed out, bit 0 first; the first
    `own` of them here. `parent`: number of the parent, -1 for the root. `seat`: the bitmask of
    positions in the parent's scope where the faults not summed out here stand."""

    scope: tuple[int, ...]
    own: int
    parent: int
    seat: int


# Clusters that have no more faults than this with their parent are one.
SMALL = 3

Handed = tuple[int, tuple[int, ...]]


class Shape(NamedTuple):
    """`clusters`: children before parents, the root last. `home`: the cluster that sums a fault
    out. `rank`: a fault's place in the order of summing out. `handed`: for each cluster, once
    0, 1, ... of its own faults are summed out, the children whose seats can be had from there,
    each with the positions still to be summed out for it, one after the other."""

    clusters: tuple[Cluster, ...]
    home: dict[int, int]
    rank: dict[int, int]
    handed: tuple[tuple[tuple[Handed, ...], ...], ...]
    children: tuple[tuple[int, ...], ...]


@lru_cache(maxsize=1024)
def shape_of(scopes: tuple[int, ...], members: int, hubs: tuple[Hub, ...] = ()) -> Shape:
    """The tree for factors with these scopes over `members`, all bitmasks; they hang together."""
    steps = min_fill(scopes, members, 0, hubs)
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
    masks, owned, parents = _merged(masks, owned, parents)
    last = len(masks) - 1
    of = {fault: at for at, faults in enumerate(owned) for fault in faults}
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
    children = tuple(
        tuple(i for i, each in enumerate(clusters) if each.parent == at) for at in range(last + 1)
    )
    return Shape(tuple(clusters), home, rank, _handed(clusters), children)


def _merged(
    masks: list[int], owned: list[list[int]], parents: list[int]
) -> tuple[list[int], list[list[int]], list[int]]:
    """The tree with small clusters taken into their parents, whose own faults are summed out
    after theirs: a small table costs more to look after than to work through."""
    into = list(range(len(masks)))
    for at in range(len(masks) - 1, 0, -1):
        parent = parents[at]
        together = masks[at] | masks[parent]
        if together.bit_count() <= SMALL or together == masks[parent]:
            masks[parent] = together
            owned[parent] += owned[at]
            into[at] = parent
    kept = [at for at in range(len(masks)) if into[at] == at]
    number = {at: i for i, at in enumerate(kept)}
    found = []
    for at in kept:
        parent = parents[at]
        while parent >= 0 and into[parent] != parent:
            parent = into[parent]
        found.append(number[parent] if parent >= 0 else -1)
    return [masks[at] for at in kept], [owned[at] for at in kept], found


def _handed(clusters: list[Cluster]) -> tuple[tuple[tuple[Handed, ...], ...], ...]:
    left_out: list[list[dict[int, tuple[int, ...]]]] = [
        [{} for _ in range(one.own + 1)] for one in clusters
    ]
    for child, cluster in enumerate(clusters):
        if cluster.parent >= 0:
            seat, parent = cluster.seat, clusters[cluster.parent]
            done = min((seat & -seat).bit_length() - 1, parent.own)
            places = range(len(parent.scope) - done)
            out = tuple(place for place in places if not seat >> done + place & 1)
            left_out[cluster.parent][done][child] = out
    return tuple(tuple(_in_turn(stage) for stage in stages) for stages in left_out)


def _in_turn(stage: Mapping[int, tuple[int, ...]]) -> tuple[Handed, ...]:
    """For each child the positions to be summed out, one after the other; those first that most
    children need out, so that they can share the tables on the way."""
    needed = Counter(place for out in stage.values() for place in out)
    found = []
    for child, out in stage.items():
        in_order = sorted(out, key=lambda place: (-needed[place], -place))
        steps = []
        for i, place in enumerate(in_order):
            steps.append(place - sum(before < place for before in in_order[:i]))
        found.append((child, tuple(steps)))
    return tuple(found)
