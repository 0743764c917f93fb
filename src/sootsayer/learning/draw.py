"""Vehicles drawn from the network itself: which faults are present, and what is then seen.

Pure but for the generator that is passed in: the same network and the same state of it give
the same vehicle.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from random import Random

from sootsayer.belief.network import Network
from sootsayer.belief.noisy import level_spread


@dataclass(frozen=True, slots=True)
class Drawn:
    """`faults`: ids of those present. `levels`: of every observable the level seen, from 0."""

    faults: frozenset[str]
    levels: dict[str, int]


def draw(network: Network, random: Random) -> Drawn:
    """One vehicle, as often as the network says that there are such.

    A fault without a lead to it is present with its prior; a condition is spared by its prior
    and by each of its causes present, independently (noisy-OR). An observable has the spread
    that the faults present give it. Faults and observables are drawn in the order of their
    ids, causes before what they lead to. Raises ValueError where faults lead in a circle.
    """
    present: set[str] = set()
    priors = {fault.id: fault.prior for fault in network.faults}
    for name in _causes_first(network):
        spared = 1.0 - priors[name]
        for lead in network.leads:
            if lead.condition == name and lead.cause in present:
                spared *= 1.0 - lead.strength
        if random.random() >= spared:
            present.add(name)
    return shown_by(network, frozenset(present), random)


def shown_by(network: Network, faults: frozenset[str], random: Random) -> Drawn:
    """The vehicle with just these faults, and what is then seen, drawn as `draw` does."""
    levels = {
        one.id: _level(level_spread(one, faults), random.random())
        for one in sorted(network.observables, key=lambda one: one.id)
    }
    return Drawn(faults, levels)


def _causes_first(network: Network) -> list[str]:
    causes: dict[str, set[str]] = {fault.id: set() for fault in network.faults}
    for lead in network.leads:
        if lead.condition in causes and lead.cause in causes:
            causes[lead.condition].add(lead.cause)
    order: list[str] = []
    while len(order) < len(causes):
        ready = sorted(n for n, before in causes.items() if n not in order and before <= {*order})
        if not ready:
            raise ValueError("faults lead to one another in a circle")
        order += ready
    return order


def _level(spread: Sequence[float], uniform: float) -> int:
    """The level into which a number of [0, 1) falls."""
    for level, up_to in enumerate(accumulate(spread)):
        if uniform < up_to:
            return level
    return len(spread) - 1  # the shares may add to a little less than 1
