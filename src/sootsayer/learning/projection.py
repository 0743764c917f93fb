"""Shares counted in a simulation → spreads that a noisy-MAX link may have.

A link can only raise what is seen: the share up to a level, over that of `otherwise`, may not
exceed 1 nor fall from one level to the next (Díez 1993). Counts of finite simulations break this
by chance; the nearest spread that keeps it is found by pooling adjacent violators (isotonic
regression, Barlow et al. 1972), weighted by how many vehicles stand behind each ratio.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise

SMALLEST = 1e-4  # a level's least share: 0.01 of 100
_ROUNDING = 1e-9  # what was raised to the least share once is not raised to it again
WHOLE = 10_000  # parts of a spread as written: hundredths of a per cent


def mixed(shares: Sequence[float], other: Sequence[float], weight: float) -> tuple[float, ...]:
    """`shares` with `weight` (0 to 1) of `other` in it; both add to 1."""
    return tuple((1.0 - weight) * x + weight * y for x, y in zip(shares, other, strict=True))


def raised(otherwise: Sequence[float], seen: Sequence[float]) -> tuple[float, ...]:
    """The nearest spread to `seen` that only raises `otherwise`; both add to 1, no share of
    `otherwise` is 0. A level is left at least the share SMALLEST."""
    below = list(accumulate(otherwise[:-1]))
    ratios = [c / b for c, b in zip(accumulate(seen[:-1]), below, strict=True)]
    fitted = [min(ratio, 1.0) for ratio in _rising(ratios, below)]
    up_to = [0.0, *(r * b for r, b in zip(fitted, below, strict=True)), 1.0]
    spread = [after - before for before, after in pairwise(up_to)]
    least = min(share / own for share, own in zip(spread, otherwise, strict=True))
    wanted = SMALLEST / min(otherwise)
    if least < wanted * (1.0 - _ROUNDING):  # a little of `otherwise` keeps both properties
        spread = list(mixed(spread, otherwise, min(wanted, 1.0)))
    return tuple(spread)


def _rising(values: Sequence[float], weights: Sequence[float]) -> list[float]:
    """The nearest values that never fall, by weighted least squares."""
    pools: list[tuple[float, float, int]] = []
    for value, weight in zip(values, weights, strict=True):
        pool = (value, weight, 1)
        while pools and pools[-1][0] > pool[0]:
            before, own, count = pools.pop()
            both = own + pool[1]
            pool = ((before * own + pool[0] * pool[1]) / both, both, count + pool[2])
        pools.append(pool)
    return [value for value, _, count in pools for _ in range(count)]


def written(spread: Sequence[float]) -> tuple[float, ...]:
    """Percentages with two decimals that add to 100 exactly, none below 0.01: what rounding
    leaves over goes to the largest."""
    parts = [max(round(share * WHOLE), 1) for share in spread]
    parts[parts.index(max(parts))] += WHOLE - sum(parts)
    return tuple(part * 100.0 / WHOLE for part in parts)


def written_link(otherwise: Sequence[float], seen: Sequence[float]) -> tuple[float, ...]:
    """Percentages with two decimals of a link that only raises `otherwise`, which is a spread as
    written (adding to 1, in whole hundredths of a per cent): rounded from the top level down, each
    share up to a level no more than keeps its ratio from exceeding the next."""
    below = list(accumulate(round(share * WHOLE) for share in otherwise))
    wanted = list(accumulate(raised(otherwise, seen)))
    least = [1]  # with which even the rarest level is there
    for before, own in pairwise(below):
        least.append(-(-least[-1] * own // before))
    up_to = [WHOLE] * len(below)
    for k in range(len(below) - 2, -1, -1):
        most = up_to[k + 1] * below[k] // below[k + 1]
        up_to[k] = max(min(round(wanted[k] * WHOLE), most), least[k])
    return tuple((after - before) * 100.0 / WHOLE for before, after in pairwise([0, *up_to]))
