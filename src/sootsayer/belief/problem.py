"""A network and its evidence, numbered: what does not depend on any fault's state."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from itertools import accumulate, pairwise

from sootsayer.belief.network import Evidence, Network, Observable
from sootsayer.belief.noisy import cumulative_factors


@dataclass(frozen=True, slots=True)
class Observed:
    """One piece of evidence: its likelihood is sum over k of terms[k] * product of links[x][k].

    `hiders`: (fault number, likelihood under its spread), the nearest first. `number`: its
    place in the problem's `observed`, -1 outside it. `links` holds no hider: where that is
    present it is not as a link that it speaks.
    """

    id: str
    number: int
    terms: tuple[float, ...]
    links: dict[int, tuple[float, ...]]
    hiders: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """Faults numbered in the order of their ids. `parents[i]`: causes of fault i, each with
    1 - its own strength. `present[i]`: what evidence that is a mere product (nothing above the
    lowest level, nobody hides it) multiplies fault i's weight by where it is present; such
    evidence is in `absorbed`, not in `observed`. With `together`, the hiders of a channel may
    be taken together (see `given`). `memory`: results already worked out for this problem."""

    ids: tuple[str, ...]
    priors: tuple[float, ...]
    parents: tuple[dict[int, float], ...]
    present: tuple[float, ...]
    observed: tuple[Observed, ...]
    absorbed: tuple[Observed, ...]
    together: bool
    memory: dict[object, object] = field(default_factory=dict)


def number(network: Network, evidence: Evidence, together: bool = True) -> Problem:
    """The problem that `network` and `evidence` state; links to faults not in it fall away.

    Raises ValueError for evidence on an unknown observable, with the wrong number of levels,
    with a negative or non-finite likelihood, or with nothing but zeros.
    """
    faults = sorted(network.faults, key=lambda fault: fault.id)
    numbers = {fault.id: i for i, fault in enumerate(faults)}
    parents: list[dict[int, float]] = [{} for _ in faults]
    for lead in sorted(network.leads, key=lambda lead: (lead.condition, lead.cause)):
        if lead.cause in numbers and lead.condition in numbers:
            parents[numbers[lead.condition]][numbers[lead.cause]] = 1.0 - lead.strength
    observables = {observable.id: observable for observable in network.observables}
    observed = []
    for key in sorted(evidence):
        if key not in observables:
            raise ValueError(f"evidence on {key!r}, which is not in the network")
        likelihood = evidence[key]
        _check(key, likelihood, len(observables[key].otherwise))
        if min(likelihood) < max(likelihood):  # else it says nothing
            observed.append(_observe(observables[key], likelihood, numbers))
    present = [1.0] * len(faults)
    absorbed = [one for one in observed if _absorbed(one, present)]
    taken = {one.id for one in absorbed}
    tables = [one for one in observed if one.id not in taken]
    return Problem(
        ids=tuple(fault.id for fault in faults),
        priors=tuple(fault.prior for fault in faults),
        parents=tuple(parents),
        present=tuple(present),
        observed=tuple(replace(one, number=i) for i, one in enumerate(tables)),
        absorbed=tuple(absorbed),
        together=together,
    )


def _absorbed(one: Observed, present: list[float]) -> bool:
    """Whether it is a mere product, taken into `present`; a constant factor changes nothing."""
    standing = [k for k, term in enumerate(one.terms) if term]
    if one.hiders or len(standing) != 1:
        return False
    for fault, factors in one.links.items():
        present[fault] *= factors[standing[0]]
    return True


def _check(key: str, likelihood: tuple[float, ...], levels: int) -> None:
    if len(likelihood) != levels:
        raise ValueError(f"evidence on {key!r} has {len(likelihood)} levels, not {levels}")
    if not all(math.isfinite(value) and value >= 0.0 for value in likelihood):
        raise ValueError(f"evidence on {key!r} has a likelihood that is not one")
    if not any(likelihood):
        raise ValueError(f"evidence on {key!r} is impossible at every level")


def _observe(
    observable: Observable, likelihood: tuple[float, ...], numbers: dict[str, int]
) -> Observed:
    up_to = [*accumulate(observable.otherwise[:-1]), 1.0]
    drops = [here - above for here, above in pairwise((*likelihood, 0.0))]
    hiding = {hider.fault for hider in observable.hidden_by}
    links = {
        numbers[link.fault]: cumulative_factors(observable.otherwise, link.spread)
        for link in observable.seen
        if link.fault in numbers and link.fault not in hiding
    }
    hiders = tuple(
        (
            numbers[hider.fault],
            math.fsum(x * y for x, y in zip(likelihood, hider.spread, strict=True)),
        )
        for hider in observable.hidden_by
        if hider.fault in numbers
    )
    return Observed(
        id=observable.id,
        number=-1,
        terms=tuple(drop * share for drop, share in zip(drops, up_to, strict=True)),
        links=dict(sorted(links.items())),
        hiders=hiders,
    )
