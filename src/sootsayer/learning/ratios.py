"""What a finding tells of a fault, from four counts: likelihood ratios and their logarithms."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from sootsayer.learning.intervals import LEVEL, jeffreys_mean


@dataclass(frozen=True, slots=True)
class Counts:
    """With the fault: seen `with_seen` of `with_all`; without it `other_seen` of `other_all`."""

    with_seen: int
    with_all: int
    other_seen: int
    other_all: int


@dataclass(frozen=True, slots=True)
class Ratio:
    """A likelihood ratio and its interval."""

    value: float
    low: float
    high: float


def ratio_seen(counts: Counts, level: float = LEVEL) -> Ratio | None:
    """LR+: how much more often it is seen with the fault than without. None where a count is 0.

    Interval by the logarithm, as in Altman & Bland 1994.
    """
    return _ratio(counts.with_seen, counts.with_all, counts.other_seen, counts.other_all, level)


def ratio_missing(counts: Counts, level: float = LEVEL) -> Ratio | None:
    """LR-: how much more often it is not seen with the fault than without. None as above."""
    return _ratio(
        counts.with_all - counts.with_seen,
        counts.with_all,
        counts.other_all - counts.other_seen,
        counts.other_all,
        level,
    )


def log_weight(counts: Counts, *, seen: bool = True) -> float:
    """The natural logarithm of the ratio, half a case added to each of the four counts."""
    with_it, other = counts.with_seen, counts.other_seen
    if not seen:
        with_it, other = counts.with_all - with_it, counts.other_all - other
    return math.log(
        jeffreys_mean(with_it, counts.with_all) / jeffreys_mean(other, counts.other_all)
    )


def _ratio(k: int, n: int, j: int, m: int, level: float) -> Ratio | None:
    if not (k and j):
        return None
    value = (k / n) / (j / m)
    z = NormalDist().inv_cdf(0.5 + level / 2)
    wide = math.exp(z * math.sqrt(1 / k - 1 / n + 1 / j - 1 / m))
    return Ratio(value, value / wide, value * wide)
