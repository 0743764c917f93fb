"""How sure a counted share is: intervals for k of n.

Wilson 1927 (score interval) and Jeffreys (equal tails of Beta(k + 1/2, n - k + 1/2), with the ends
0 and 1 where nothing or everything was seen), as recommended by Brown, Cai & DasGupta 2001. The
standard library has no incomplete beta function; the continued fraction is Lentz's, as in Press et
al., Numerical Recipes, section 6.4 (from memory; tested against scipy and statsmodels).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

LEVEL = 0.95
_TINY = 1e-300
_CLOSE = 1e-15
_STEPS = 10_000
_HALVINGS = 200


@dataclass(frozen=True, slots=True)
class Interval:
    """From `low` to `high`, both between 0 and 1."""

    low: float
    high: float

    def holds(self, value: float) -> bool:
        return self.low <= value <= self.high


def wilson(k: int, n: int, level: float = LEVEL) -> Interval:
    """The score interval of k of n. With n = 0 nothing is known: 0 to 1. Raises ValueError."""
    _check(k, n)
    if n == 0:
        return Interval(0.0, 1.0)
    z = NormalDist().inv_cdf(0.5 + level / 2)
    share, extra = k / n, z * z / n
    middle = (share + extra / 2) / (1 + extra)
    half = z * math.sqrt(share * (1 - share) / n + extra / (4 * n)) / (1 + extra)
    low = 0.0 if k == 0 else max(0.0, middle - half)
    high = 1.0 if k == n else min(1.0, middle + half)
    return Interval(low, high)


def jeffreys(k: int, n: int, level: float = LEVEL) -> Interval:
    """The Jeffreys interval of k of n. With n = 0 nothing is known: 0 to 1. Raises ValueError."""
    _check(k, n)
    if n == 0:
        return Interval(0.0, 1.0)
    tail = (1 - level) / 2
    a, b = k + 0.5, n - k + 0.5
    low = 0.0 if k == 0 else beta_quantile(tail, a, b)
    high = 1.0 if k == n else beta_quantile(1 - tail, a, b)
    return Interval(low, high)


def jeffreys_mean(k: int, n: int, levels: int = 2) -> float:
    """The share of k in n with half a case added to each of the levels; 1/levels for n = 0."""
    _check(k, n)
    return (k + 0.5) / (n + 0.5 * levels)


def beta_quantile(p: float, a: float, b: float) -> float:
    """x with incomplete_beta(x, a, b) = p, by halving; p in [0, 1], a and b above 0."""
    if p <= 0.0:
        return 0.0
    if p >= 1.0:
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if incomplete_beta(middle, a, b) < p:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def incomplete_beta(x: float, a: float, b: float) -> float:
    """The regularised incomplete beta function I_x(a, b); a and b above 0."""
    if x <= 0.0:
        return 0.0
    if x >= 1.0:
        return 1.0
    log = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    front = math.exp(log + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1) / (a + b + 2):  # where the fraction converges quickly
        return front * _fraction(x, a, b) / a
    return 1.0 - front * _fraction(1 - x, b, a) / b


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction, by the modified method of Lentz."""
    c, d = 1.0, 1.0 / _away(1 - (a + b) * x / (a + 1))
    value = d
    for m in range(1, _STEPS):
        for part in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1.0 / _away(1 + part * d)
            c = _away(1 + part / c)
            value *= c * d
        if abs(c * d - 1.0) < _CLOSE:
            break
    return value


def _away(x: float) -> float:
    """Never 0, so that it may be divided by."""
    return x if abs(x) > _TINY else _TINY


def _check(k: int, n: int) -> None:
    if not 0 <= k <= n:
        raise ValueError(f"{k} of {n} is no share")
