"""What the numbers of the network mean, straight from their definitions.

Noisy-OR with leak (Pearl 1988; Henrion 1989), noisy-MAX for graded findings (Henrion 1989;
Díez 1993). Written to be read, not to be fast: tests hold `inference.py` against it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from enum import StrEnum
from functools import lru_cache
from itertools import accumulate, pairwise

from sootsayer.belief.network import Observable

# Frequencies are typed with two to four digits; what differs less is rounding.
TOLERANCE = 1e-9


class SpreadProblem(StrEnum):
    """What can be wrong with how a link was stated."""

    LENGTH = "length"  # not as many levels as `otherwise`
    SUM = "sum"  # the levels do not add to 1
    ZERO_OR_ONE = "zero-or-one"  # a level that is never, or always, seen
    LOWERS = "lowers"  # some cumulative factor exceeds 1: this fault hides, it is not seen with
    DECREASES = "decreases"  # the cumulative factors fall from one level to the next


def own_strength(seen: float, otherwise: float) -> float:
    """A link's own strength: 1 - (1 - seen)/(1 - otherwise), both probabilities.

    Below 0 where `seen` is less than `otherwise` (lint refuses that). Raises ValueError
    unless 0 <= otherwise < 1 and 0 <= seen <= 1.
    """
    if not (0.0 <= otherwise < 1.0 and 0.0 <= seen <= 1.0):
        raise ValueError(f"no strength from seen {seen} and otherwise {otherwise}")
    return 1.0 - (1.0 - seen) / (1.0 - otherwise)


def cumulative_factors(otherwise: Sequence[float], seen: Sequence[float]) -> tuple[float, ...]:
    """c(k) = P(level <= k | this fault only) / P(level <= k | none), one a level; the last is 1.

    Raises ValueError where the two differ in length.
    """
    return _factors(tuple(otherwise), tuple(seen))


@lru_cache(maxsize=8192)
def _factors(otherwise: tuple[float, ...], seen: tuple[float, ...]) -> tuple[float, ...]:
    if len(otherwise) != len(seen):
        raise ValueError(f"{len(seen)} levels where {len(otherwise)} were wanted")
    pairs = zip(accumulate(seen[:-1]), accumulate(otherwise[:-1]), strict=True)
    return (*(with_it / without for with_it, without in pairs), 1.0)


def spread_problems(otherwise: Sequence[float], seen: Sequence[float]) -> list[SpreadProblem]:
    """What forbids this link, for lint; empty when nothing does."""
    if len(otherwise) != len(seen) or len(seen) < 2:
        return [SpreadProblem.LENGTH]
    both = (*otherwise, *seen)
    if not all(0.0 < share < 1.0 for share in both):
        return [SpreadProblem.ZERO_OR_ONE]
    problems = []
    if any(abs(math.fsum(spread) - 1.0) > TOLERANCE for spread in (otherwise, seen)):
        problems.append(SpreadProblem.SUM)
    factors = cumulative_factors(otherwise, seen)[:-1]  # the last is 1 for all
    if any(factor > 1.0 + TOLERANCE for factor in factors):
        problems.append(SpreadProblem.LOWERS)
    if any(after < before - TOLERANCE for before, after in pairwise(factors)):
        problems.append(SpreadProblem.DECREASES)
    return problems


def level_spread(observable: Observable, present: Collection[str]) -> tuple[float, ...]:
    """The spread over the observable's levels when exactly the faults `present` are present.

    The nearest hider present replaces everything; else P(level <= k) is that of `otherwise`
    times the factor of each linked fault present.
    """
    for hider in observable.hidden_by:
        if hider.fault in present:
            return hider.spread
    up_to = [*accumulate(observable.otherwise[:-1]), 1.0]
    for link in sorted(observable.seen, key=lambda link: link.fault):
        if link.fault in present:
            factors = cumulative_factors(observable.otherwise, link.spread)
            up_to = [share * factor for share, factor in zip(up_to, factors, strict=True)]
    return (up_to[0], *(after - before for before, after in pairwise(up_to)))
