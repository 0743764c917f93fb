"""Systems of linear inequalities over the reals, exactly: whether they can hold, and where.

Fourier's elimination (Fourier 1826; Dantzig & Eaves 1973): a variable is taken out by pairing
every bound from below with every one from above. Exact in fractions; for a handful of variables.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil, floor

from sootsayer.engine.goals import Line

MOST_LINES = 2000  # beyond this a system is not worked out


class TooMany(Exception):  # noqa: N818 (a state, not a mistake)
    """The system grew beyond what is worked out."""


def solved(lines: Sequence[Line], near: Mapping[str, float]) -> dict[str, Fraction] | None:
    """A point where all hold; None where there is none. Raises TooMany.

    Of the possible numbers the plainest is taken, near to the one in `near` if it has one.
    """
    names = sorted({name for line in lines for name, factor in line.parts if factor})
    kept = [_plain(line) for line in lines]
    steps: list[tuple[str, list[Line]]] = []
    for name in names:
        with_it = [line for line in kept if dict(line.parts).get(name)]
        steps.append((name, with_it))
        kept = [line for line in kept if not dict(line.parts).get(name)]
        kept += _paired(name, with_it)
        kept = list(dict.fromkeys(kept))
        if len(kept) > MOST_LINES:
            raise TooMany
    if any(line.rest > 0 or (line.strict and line.rest == 0) for line in kept):
        return None
    point: dict[str, Fraction] = {}
    for name, with_it in reversed(steps):
        point[name] = _between(name, with_it, point, near.get(name))
    return point


def _plain(line: Line) -> Line:
    return Line(tuple((name, f) for name, f in line.parts if f), line.rest, line.strict)


def _paired(name: str, lines: Sequence[Line]) -> list[Line]:
    factors = [(line, dict(line.parts)[name]) for line in lines]
    above = [(line, factor) for line, factor in factors if factor > 0]  # bounds from above
    below = [(line, factor) for line, factor in factors if factor < 0]
    if len(above) * len(below) > MOST_LINES:
        raise TooMany
    return [_sum(name, up, f, low, -g) for up, f in above for low, g in below]


def _sum(name: str, up: Line, f: Fraction, low: Line, g: Fraction) -> Line:
    sums: dict[str, Fraction] = {}
    for line, share in ((up, 1 / f), (low, 1 / g)):
        for each, factor in line.parts:
            sums[each] = sums.get(each, Fraction(0)) + share * factor
    sums.pop(name, None)
    parts = tuple((each, factor) for each, factor in sorted(sums.items()) if factor)
    return Line(parts, up.rest / f + low.rest / g, up.strict or low.strict)


def _between(
    name: str, lines: Sequence[Line], point: Mapping[str, Fraction], near: float | None
) -> Fraction:
    low: tuple[Fraction, bool] | None = None
    high: tuple[Fraction, bool] | None = None
    for line in lines:
        factor = dict(line.parts)[name]
        rest = line.rest + sum(f * point[each] for each, f in line.parts if each != name)
        end = (-rest / factor, line.strict)
        if factor > 0 and (high is None or (end[0], not end[1]) < (high[0], not high[1])):
            high = end
        elif factor < 0 and (low is None or end > low):
            low = end
    return plainest(low, high, near)


End = tuple[Fraction, bool]  # and whether the end itself is left out


def plainest(low: End | None, high: End | None, near: float | None = None) -> Fraction:
    """The number with the fewest decimals between two ends, None for none; never an empty range.

    Of several the one nearest to `near`, else to the lower end.
    """
    if near is not None and _fits(Fraction(near), low, high):
        return Fraction(near)
    for decimals in range(13):
        step = Fraction(1, 10**decimals)
        found = [each for each in _steps(low, high, step) if _fits(each, low, high)]
        if found:
            return found[0]
    if low is None or high is None or low[0] == high[0]:
        return (low or high or (Fraction(0), False))[0]
    return (low[0] + high[0]) / 2


def _steps(low: End | None, high: End | None, step: Fraction) -> list[Fraction]:
    if low is None and high is None:
        return [Fraction(0)]
    if low is None:
        assert high is not None
        last = floor(high[0] / step) * step
        return [last, last - step]
    first = ceil(low[0] / step) * step
    return [first, first + step]


def _fits(value: Fraction, low: End | None, high: End | None) -> bool:
    if low is not None and (value < low[0] or (low[1] and value == low[0])):
        return False
    return high is None or value < high[0] or (not high[1] and value == high[0])
