"""Honest bounds for a case too wide to be exact.

Evidence that ties the knot is left out and the rest solved exactly. Whatever the other faults
are, the likelihood of what was left out lies between two numbers, once with a fault present
and once without; so the fault's odds move by no more than their ratios.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from itertools import accumulate

from sootsayer.belief.network import Evidence, Network, Observable
from sootsayer.belief.noisy import cumulative_factors

Range = tuple[float, float]

# For the rounding of the bounds themselves.
SLACK = 1e-12


def bounds(
    network: Network, evidence: Evidence, dropped: Collection[str], without: Mapping[str, float]
) -> tuple[dict[str, float], dict[str, float]]:
    """(low, high) of each posterior, given the exact posteriors `without` the evidence dropped."""
    low, high = {}, {}
    names = {fault.id for fault in network.faults}
    left_out = [one for one in network.observables if one.id in dropped]
    left_out.sort(key=lambda one: one.id)
    for fault, p in without.items():
        least = most = 1.0
        for one in left_out:
            if_absent = likelihood_range(one, evidence[one.id], fault, False, names)
            if_present = likelihood_range(one, evidence[one.id], fault, True, names)
            least *= _divide(if_present[0], if_absent[1])
            most *= _divide(if_present[1], if_absent[0])
        low[fault] = max(0.0, _shifted(p, least) - SLACK)
        high[fault] = min(1.0, _shifted(p, most) + SLACK)
    return low, high


def _divide(over: float, under: float) -> float:
    return over / under if under > 0.0 else math.inf


def _shifted(p: float, factor: float) -> float:
    """The probability whose odds are those of p times `factor`."""
    if math.isinf(factor) or math.isnan(factor):
        return 1.0
    return p * factor / (p * factor + (1.0 - p)) if p * factor else 0.0


def likelihood_range(
    observable: Observable,
    likelihood: tuple[float, ...],
    fault: str,
    present: bool,
    names: Collection[str],
) -> Range:
    """The least and the greatest likelihood of the reading over all states of the other faults,
    with `fault` present or absent; `names` are the faults there are. Never too narrow."""
    shown: list[float] = []
    for hider in observable.hidden_by:
        if hider.fault not in names or (hider.fault == fault and not present):
            continue
        shown.append(math.fsum(x * y for x, y in zip(likelihood, hider.spread, strict=True)))
        if hider.fault == fault:  # nothing farther, and nothing else, can show
            return min(shown), max(shown)
    low, high = _open_range(observable, likelihood, fault, present, names)
    return min(low, *shown), max(high, *shown)


def _open_range(
    observable: Observable,
    likelihood: tuple[float, ...],
    fault: str,
    present: bool,
    names: Collection[str],
) -> Range:
    """As `likelihood_range`, nothing hidden. A level k shows at least when the leak shows it
    and no fault shows more; P(level <= k) is greatest with no other fault, least with all."""
    up_to = [*accumulate(observable.otherwise[:-1]), 1.0]
    least, most = list(up_to), list(up_to)
    floor = list(observable.otherwise)
    for link in observable.seen:
        if link.fault not in names or (link.fault == fault and not present):
            continue
        for k, c in enumerate(cumulative_factors(observable.otherwise, link.spread)):
            least[k] *= c
            floor[k] *= c
            if link.fault == fault:
                most[k] *= c
    low = high = 0.0
    for k, weight in enumerate(likelihood):
        below_least, below_most = (least[k - 1], most[k - 1]) if k else (0.0, 0.0)
        low += weight * max(0.0, floor[k], least[k] - below_most)
        high += weight * max(0.0, most[k] - below_least)
    return low, high
