"""Several readings of one filter told apart: dP = zero + A mu Q + B rho Q^2.

The structure is that of Konstandopoulos & Papaioannou, KONA 26 (2008) 36-65, eq. 8, with a false
zero added. What the parts say: soot and ash load the linear part; plugged faces, a crushed pipe
or any orifice the square part; a false zero of the instrument stays when the flow is gone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from sootsayer.physics.gas import air_density, air_viscosity
from sootsayer.physics.least_squares import Solution, left_over, solve
from sootsayer.physics.measured import Measured
from sootsayer.physics.ranges import above, within

TOLD_APART = 0.01
"""A term is carried when at least this share of it is not a mixture of the terms before it."""
_SAME_FLOW = 1.05


Term = Literal["linear", "zero", "square"]
"""A part of the fit. Its parameter: "linear" A in 1/m3, "zero" in Pa, "square" B in 1/m4."""
LINEAR: Final = "linear"
ZERO: Final = "zero"
SQUARE: Final = "square"


@dataclass(frozen=True, slots=True)
class Point:
    """One steady reading: `drop` Pa as shown with its standard deviation `sd` Pa (above 0),
    `flow` m3/s (0 at rest, to 5), `temperature` K, `pressure` absolute Pa halfway through."""

    drop: float
    sd: float
    flow: float
    temperature: float
    pressure: float

    def __post_init__(self) -> None:
        within("pressure drop", self.drop, -200_000.0, 200_000.0, "Pa")
        above("standard deviation", self.sd, 0.0, 200_000.0, "Pa")
        within("exhaust flow", self.flow, 0.0, 5.0, "m3/s")
        self.column(SQUARE)
        self.column(LINEAR)

    def column(self, term: Term) -> float:
        """What the parameter of `term` is multiplied with at this point."""
        if term == ZERO:
            return 1.0
        if term == LINEAR:
            return air_viscosity(self.temperature) * self.flow
        return air_density(self.temperature, self.pressure) * self.flow**2


@dataclass(frozen=True, slots=True)
class Fit:
    """`terms` in the order of the solution's parameters; terms left out are taken as zero."""

    terms: tuple[Term, ...]
    solution: Solution

    def parameter(self, term: Term) -> Measured | None:
        """The parameter of `term` and its standard deviation from the instrument; None where
        the points could not carry it."""
        if term not in self.terms:
            return None
        at = self.terms.index(term)
        return Measured(self.solution.values[at], self.solution.sd(at))

    def drop_at(self, point: Point) -> Measured:
        """The drop in Pa that the fit gives at the flow of `point` (its `drop` is not looked at),
        with the standard deviation of the fitted line there, covariances included."""
        return self._combined([point.column(term) for term in self.terms])

    def part_at(self, term: Term, point: Point) -> Measured:
        """The part of one carried term at `point`, Pa."""
        return self._combined([point.column(t) if t == term else 0.0 for t in self.terms])

    def share_at(self, term: Term, point: Point) -> Measured | None:
        """The share of one term in linear + square at `point`, first order with covariances;
        None where it is not carried or that sum is not above zero."""
        if term not in self.terms or term == ZERO:
            return None
        flowing = [point.column(t) if t != ZERO else 0.0 for t in self.terms]
        own = [column if t == term else 0.0 for t, column in zip(self.terms, flowing, strict=True)]
        whole, part = self._combined(flowing).value, self._combined(own).value
        if whole <= 0:
            return None
        slope = [(o - part / whole * f) / whole for o, f in zip(own, flowing, strict=True)]
        return Measured(part / whole, self._combined(slope).sd)

    def _combined(self, weights: Sequence[float]) -> Measured:
        """sum(weight x parameter)."""
        covariance, n = self.solution.covariance, range(len(weights))
        value = math.fsum(w * v for w, v in zip(weights, self.solution.values, strict=True))
        spread = math.fsum(weights[i] * covariance[i][j] * weights[j] for i in n for j in n)
        return Measured(value, math.sqrt(max(spread, 0.0)))


def fit(points: Sequence[Point], terms: Sequence[Term] | None = None) -> Fit:
    """The weighted least-squares fit over `points` (1 or more) with the terms they can carry.

    Terms are tried in the order linear, zero, square. One is carried while fewer terms than
    distinct flows (5 per cent apart) are, and unless it is a mixture of those before it. One
    point carries the linear term alone (its zero must have been removed), one point at rest the
    zero alone. `terms` asks for certain terms instead. Raises ValueError where there is no point
    or the asked terms cannot be told apart.
    """
    if not points:
        raise ValueError("a fit needs at least one point")
    chosen = tuple(terms) if terms is not None else carried(points)
    columns = [[point.column(term) for point in points] for term in chosen]
    drops = [point.drop for point in points]
    return Fit(chosen, solve(columns, drops, [point.sd for point in points]))


def carried(points: Sequence[Point]) -> tuple[Term, ...]:
    """The terms that `fit` gives these points."""
    most = _distinct([point.flow for point in points])
    chosen: list[Term] = []
    order: tuple[Term, ...] = (LINEAR, ZERO, SQUARE)
    for term in order:
        columns = [[p.column(t) / p.sd for p in points] for t in chosen]
        new = [p.column(term) / p.sd for p in points]
        if len(chosen) < most and left_over(columns, new) > TOLD_APART:
            chosen.append(term)
    return tuple(chosen)


def _distinct(flows: Sequence[float]) -> int:
    count, last = 0, -1.0
    for flow in sorted(flows):
        if last < 0 or flow > last * _SAME_FLOW:
            count, last = count + 1, flow
    return count


@dataclass(frozen=True, slots=True)
class Parts:
    """What a fit says at one point, each None where the points could not carry it.

    `zero` Pa; `linear` and `square` their shares of what flows (0 to 1); the three answers are
    true or false only where two standard deviations settle them, else None: `offset`, a false
    zero larger than allowed; `orifice`, a square share larger than allowed; `loaded`, a linear
    resistance larger than allowed.
    """

    zero: Measured | None
    linear: Measured | None
    square: Measured | None
    offset: bool | None
    orifice: bool | None
    loaded: bool | None


def parts(
    found: Fit, at: Point, zero_limit: float, square_limit: float, linear_limit: float
) -> Parts:
    """The parts of a fit at `at` against limits: `zero_limit` Pa either way, `square_limit` a
    share (0 to 1), `linear_limit` for A in 1/m3 (resistance in Pa s/m3 over the viscosity)."""
    zero, a = found.parameter(ZERO), found.parameter(LINEAR)
    square = found.share_at(SQUARE, at)
    return Parts(
        zero,
        found.share_at(LINEAR, at),
        square,
        _beyond(zero, zero_limit, abs),
        _beyond(square, square_limit),
        _beyond(a, linear_limit),
    )


def _beyond(
    measured: Measured | None, limit: float, size: Callable[[float], float] = float
) -> bool | None:
    if measured is None:
        return None
    value = size(measured.value)
    if value - 2 * measured.sd > limit:
        return True
    return False if value + 2 * measured.sd <= limit else None
