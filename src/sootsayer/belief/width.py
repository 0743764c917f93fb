"""How wide a network can become, for lint: the worst case, with everything positive."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from sootsayer.belief.elimination import WIDEST, Piece, pieces
from sootsayer.belief.given import narrow
from sootsayer.belief.network import Network
from sootsayer.belief.problem import Problem, number
from sootsayer.belief.settling import Settled
from sootsayer.belief.splitting import cheapest
from sootsayer.belief.tables import bits


def widest(network: Network, enough: int = WIDEST) -> tuple[int, tuple[str, ...]]:
    """(variables in the largest table, the ids that tie the knot).

    Every observable counts as seen at its highest level, every condition as wanted, and nobody
    as hiding. The first way to make tables narrow that makes none wider than `enough` counts, else
    the one with the smallest tables. The ids are the faults of the largest, then the observables
    and conditions that tie at least two of them, each sorted. (0, ()) without faults.
    """
    problem = _all_seen(network)
    everyone = (1 << len(problem.ids)) - 1
    widest_yet, names = 0, ()  # type: tuple[int, tuple[str, ...]]
    for piece in pieces(narrow(problem, Settled(0, 0), everyone)):
        clique = _largest(problem, piece, enough)
        if clique.bit_count() > widest_yet:
            widest_yet, names = clique.bit_count(), _names(problem, piece, clique & everyone)
    return widest_yet, names


def _all_seen(network: Network) -> Problem:
    shown = tuple(replace(one, hidden_by=()) for one in network.observables)
    top = {one.id: (*[0.0] * (len(one.otherwise) - 1), 1.0) for one in shown}
    return number(replace(network, observables=shown), top)


def _largest(problem: Problem, piece: Piece, enough: int) -> int:
    if not piece.factors:
        return piece.members
    split = cheapest(problem, piece.members, piece.factors, enough)
    scopes = [cluster.scope for cluster in split.shape.clusters]
    return sum(1 << variable for variable in max(scopes, key=len))


def _names(problem: Problem, piece: Piece, clique: int) -> tuple[str, ...]:
    faults = [problem.ids[fault] for fault in bits(clique)]
    count = len(problem.observed)
    tying = {
        problem.observed[factor.name].id if factor.name < count else problem.ids[factor.child]
        for factor in piece.factors
        if (factor.scope & clique).bit_count() > 1
    }
    return (*faults, *sorted(tying - {*faults}))


def most_leaves(network: Network) -> int:
    """In how many ways hiders can combine when every observable was seen: runs per case."""
    hidden = []
    names = {fault.id for fault in network.faults}
    for observable in network.observables:
        order = tuple(hider.fault for hider in observable.hidden_by if hider.fault in names)
        if order:
            hidden.append(order)
    return _count(tuple(sorted(set(hidden))))


@lru_cache(maxsize=65536)
def _count(orders: tuple[tuple[str, ...], ...]) -> int:
    """Leaves of the tree that settles, for each order, the first hider present or none."""
    if not orders:
        return 1
    fork = orders[0][0]
    present = tuple(order for order in orders if fork not in order)
    later = tuple(
        tuple(other for other in order if other != fork) for order in orders if fork in order
    )
    absent = tuple(sorted({*present, *(order for order in later if order)}))
    # Where the fork is present it wins wherever it stands first; nearer ones stay open.
    nearer = {order[: order.index(fork)] for order in orders if fork in order} - {()}
    return _count(tuple(sorted({*present, *nearer}))) + _count(absent)
