"""How wide a network can become, for lint: the worst case, with everything positive."""

from __future__ import annotations

from functools import lru_cache

from sootsayer.belief.network import Network
from sootsayer.belief.ordering import min_fill


def widest(network: Network) -> tuple[int, tuple[str, ...]]:
    """(faults in the largest table, the ids that tie the knot).

    Every observable counts as seen above its lowest level, every condition as observed, and
    no hider as settled, so no case of this network needs more. The ids are the faults of that
    table, then the observables and conditions that tie at least two of them, each sorted.
    (0, ()) without faults.
    """
    names = sorted(fault.id for fault in network.faults)
    numbers = {name: i for i, name in enumerate(names)}
    ties: list[tuple[str, int]] = []
    for observable in network.observables:
        linked = {numbers[link.fault] for link in observable.seen if link.fault in numbers}
        ties.append((observable.id, sum(1 << fault for fault in linked)))
    causes: dict[str, int] = {}
    for lead in network.leads:
        if lead.condition in numbers and lead.cause in numbers:
            causes.setdefault(lead.condition, 1 << numbers[lead.condition])
            causes[lead.condition] |= 1 << numbers[lead.cause]
    ties.extend(causes.items())
    steps = min_fill(sorted(scope for _, scope in ties if scope), (1 << len(names)) - 1)
    if not steps:
        return 0, ()
    clique = max((around | 1 << fault for fault, around in steps), key=int.bit_count)
    faults = [name for name in names if clique >> numbers[name] & 1]
    tying = {name for name, scope in ties if (scope & clique).bit_count() > 1}
    return clique.bit_count(), (*faults, *sorted(tying - set(faults)))


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
