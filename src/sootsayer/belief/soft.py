"""Readings near a cut: their levels weighted by the instrument's error.

Virtual evidence inside the likelihood (Pearl 1988), never pinning the posterior.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

# A cut farther away than this many standard deviations is certain to lie beyond the value.
CERTAIN = 4.0
NO_DENSITY = 40.0  # standard deviations beyond which the error's density is nothing


def level_weights(value: float, sd: float, cuts: Sequence[float]) -> tuple[float, ...]:
    """The probability of each of the len(cuts) + 1 levels, lowest first; adds to 1.

    `value`, `sd` (normal error, one standard deviation) and the rising `cuts` share one unit.
    With sd 0 the levels are hard; a value at a cut has the upper level. Raises ValueError for
    numbers not finite, a negative sd or cuts that do not rise.
    """
    _check(value, sd, cuts)
    below = [0.0, *(_share_below(value, sd, cut) for cut in cuts), 1.0]
    return tuple(upper - lower for lower, upper in pairwise(below))


def parts(value: float, sd: float, cuts: Sequence[float]) -> list[tuple[float, float]]:
    """(weight, representative value) of every level that has weight, lowest first.

    The reading itself stands for its own level; for another, the mean of the error within
    it, which has that level. On a cut the mean stands too, since a test may count the cut to
    either side. To branch over a reading near a threshold. Raises ValueError as
    `level_weights` does.
    """
    weights = level_weights(value, sd, cuts)
    edges = [-math.inf, *cuts, math.inf]
    found = []
    for share, (low, high) in zip(weights, pairwise(edges), strict=True):
        if share > 0.0:
            own = sd == 0.0 or low < value < high
            inside = value if own else _mean_within(value, sd, low, high)
            found.append((share, inside))
    return found


def _check(value: float, sd: float, cuts: Sequence[float]) -> None:
    if not all(map(math.isfinite, (value, sd, *cuts))):
        raise ValueError("a value, its error and the cuts must be finite")
    if sd < 0.0:
        raise ValueError(f"an error cannot be negative: {sd}")
    if any(after <= before for before, after in pairwise(cuts)):
        raise ValueError(f"cuts must rise: {list(cuts)}")


def _share_below(value: float, sd: float, cut: float) -> float:
    distance = cut - value
    if sd == 0.0 or abs(distance) > CERTAIN * sd:
        return 1.0 if distance > 0.0 else 0.0
    return 0.5 * math.erfc(-distance / (sd * math.sqrt(2.0)))


def _density(value: float, sd: float, edge: float) -> float:
    deviations = (edge - value) / sd
    if abs(deviations) > NO_DENSITY:
        return 0.0
    return math.exp(-(deviations**2) / 2.0) / math.sqrt(2.0 * math.pi)


def _mean_within(value: float, sd: float, low: float, high: float) -> float:
    """The mean of the normal error cut to [low, high), kept inside against rounding."""
    root = sd * math.sqrt(2.0)
    if low >= value:
        mass = 0.5 * (math.erfc((low - value) / root) - math.erfc((high - value) / root))
    else:
        mass = 0.5 * (math.erfc((value - high) / root) - math.erfc((value - low) / root))
    if mass <= 0.0:  # an interval too narrow for its mass to be told from none
        return low if low >= value else math.nextafter(high, -math.inf)
    mean = value + sd * (_density(value, sd, low) - _density(value, sd, high)) / mass
    return min(max(mean, low), math.nextafter(high, -math.inf))
