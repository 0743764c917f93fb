"""Random networks with every feature, and their definition worked out set by set.

Shared by the tests of belief; knows nothing of how `inference.py` works.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Iterable

from sootsayer.belief.network import (
    Evidence,
    Fault,
    Kind,
    Lead,
    Network,
    Observable,
    Seen,
)
from sootsayer.belief.noisy import level_spread


def spread(rng: random.Random, levels: int, low: float = 0.0) -> tuple[float, ...]:
    """A spread without zeros; `low` leans it to the lowest level."""
    shares = [rng.random() + 0.02 for _ in range(levels)]
    shares[0] += low
    total = sum(shares)
    return tuple(share / total for share in shares)


def seen_spread(rng: random.Random, otherwise: tuple[float, ...]) -> tuple[float, ...]:
    """A spread whose cumulative factors are below 1 and rise: what lint lets pass."""
    factors = sorted(rng.uniform(0.02, 0.98) for _ in otherwise[:-1])
    up_to = [c * f for c, f in zip(itertools.accumulate(otherwise), factors, strict=False)]
    edges = [0.0, *up_to, 1.0]
    return tuple(b - a for a, b in itertools.pairwise(edges))


def random_network(
    rng: random.Random,
    faults: int = 8,
    observables: int = 10,
    most_links: int = 4,
    channels: int = 2,
    hiders: int = 2,
) -> Network:
    """Three kinds, causes leading to conditions, graded observables, hiders of several channels
    that hide different observables in different orders."""
    kinds = [list(Kind)[i % 3] for i in range(faults)]
    all_faults = [Fault(f"f{i:02}", kind, rng.uniform(0.02, 0.7)) for i, kind in enumerate(kinds)]
    conditions = [f.id for f in all_faults if f.kind is Kind.CONDITION]
    causes = [f.id for f in all_faults if f.kind is Kind.CAUSE]
    leads = [
        Lead(cause, condition, rng.uniform(0.1, 0.9))
        for condition in conditions
        for cause in causes
        if rng.random() < min(0.5, 2.5 / len(causes))
    ]
    names = [f.id for f in all_faults]
    likely = names
    groups = [rng.sample(likely, min(hiders, len(likely))) for _ in range(channels)]
    made = []
    for i in range(observables):
        levels = rng.choice([2, 2, 2, 3, 5])
        otherwise = spread(rng, levels, low=3.0)
        hidden_by: list[str] = []
        if likely and groups and rng.random() < 0.5:
            group = rng.choice(groups)
            hidden_by = rng.sample(group, rng.randint(1, len(group)))
        open_names = [name for name in names if name not in hidden_by]
        linked = rng.sample(open_names, rng.randint(0, min(most_links, len(open_names))))
        made.append(
            Observable(
                f"o{i:02}",
                otherwise,
                tuple(Seen(name, seen_spread(rng, otherwise)) for name in linked),
                tuple(Seen(name, spread(rng, levels)) for name in hidden_by),
            )
        )
    return Network(tuple(all_faults), tuple(leads), tuple(made))


def random_evidence(
    rng: random.Random, network: Network, share: float = 0.8, soft: float = 0.3
) -> dict[str, tuple[float, ...]]:
    """Hard and soft evidence on a share of the observables."""
    evidence = {}
    for observable in network.observables:
        levels = len(observable.otherwise)
        if rng.random() >= share:
            continue
        if rng.random() < soft:
            evidence[observable.id] = tuple(rng.uniform(0.0, 1.0) for _ in range(levels))
        else:
            level = rng.randrange(levels)
            evidence[observable.id] = tuple(float(k == level) for k in range(levels))
    return evidence


def subsets(names: Iterable[str]) -> Iterable[frozenset[str]]:
    names = sorted(names)
    for bits in itertools.product((False, True), repeat=len(names)):
        yield frozenset(itertools.compress(names, bits))


def enumerate_sets(network: Network, evidence: Evidence) -> dict[frozenset[str], float]:
    """The posterior of every set of faults, straight from the definition."""
    observables = {one.id: one for one in network.observables}
    weights = {}
    for present in subsets(fault.id for fault in network.faults):
        weight = 1.0
        for fault in network.faults:
            spared = 1.0 - fault.prior
            for lead in network.leads:
                if lead.condition == fault.id and lead.cause in present:
                    spared *= 1.0 - lead.strength
            weight *= 1.0 - spared if fault.id in present else spared
        for key, likelihood in evidence.items():
            shares = level_spread(observables[key], present)
            weight *= math.fsum(x * y for x, y in zip(likelihood, shares, strict=True))
        weights[present] = weight
    total = math.fsum(weights.values())
    return {present: weight / total for present, weight in weights.items()}


def marginal(sets: dict[frozenset[str], float], fault: str) -> float:
    return math.fsum(p for present, p in sets.items() if fault in present)
