"""A network with every number a little wrong, still one that rules could state."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

from sootsayer.belief.network import Network, Observable, Seen
from sootsayer.learning.projection import raised


def jittered(network: Network, share: float, random: Random) -> Network:
    """Every prior, strength and level multiplied by its own factor between 1 - `share` and
    1 + `share` (0 to 1), all alike; of two sides of a frequency the rarer one is multiplied.

    Spreads are brought back to sum 1 and links to raise only, as lint wants them.
    """
    return Network(
        tuple(replace(f, prior=_moved(f.prior, share, random)) for f in network.faults),
        tuple(replace(x, strength=_moved(x.strength, share, random)) for x in network.leads),
        tuple(_observable(one, share, random) for one in network.observables),
    )


def _observable(one: Observable, share: float, random: Random) -> Observable:
    otherwise = _spread(one.otherwise, share, random)
    return Observable(
        one.id,
        otherwise,
        tuple(
            Seen(link.fault, raised(otherwise, _spread(link.spread, share, random)))
            for link in one.seen
        ),
        tuple(Seen(hide.fault, _spread(hide.spread, share, random)) for hide in one.hidden_by),
    )


def _spread(spread: Sequence[float], share: float, random: Random) -> tuple[float, ...]:
    if len(spread) == 2:
        seen = _moved(spread[1], share, random)
        return 1.0 - seen, seen
    moved = [level * random.uniform(1.0 - share, 1.0 + share) for level in spread]
    return tuple(level / sum(moved) for level in moved)


def _moved(frequency: float, share: float, random: Random) -> float:
    factor = random.uniform(1.0 - share, 1.0 + share)
    if frequency <= 0.5:
        return frequency * factor
    return 1.0 - (1.0 - frequency) * factor
