"""Weighted linear least squares for a few parameters, in plain Python.

Modified Gram-Schmidt on the weighted columns with the right side appended, which is as stable
as Householder's method (Bjorck, Numerical Methods for Least Squares Problems, 1996, 2.4).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

NORMAL_95 = 1.959964
"""Two-sided 95 per cent of the normal distribution, rounded."""


@dataclass(frozen=True, slots=True)
class Solution:
    """`values` of the p parameters, their `covariance` (p x p) from the weights alone, `chi2` the
    weighted sum of squared residuals, `freedom` = points - p."""

    values: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    chi2: float
    freedom: int

    def sd(self, at: int) -> float:
        """Standard deviation of parameter `at`."""
        return math.sqrt(self.covariance[at][at])

    def interval(self, at: int, z: float = NORMAL_95) -> tuple[float, float]:
        """Parameter `at` less and plus `z` standard deviations."""
        half = z * self.sd(at)
        return self.values[at] - half, self.values[at] + half


def solve(columns: Sequence[Sequence[float]], y: Sequence[float], sd: Sequence[float]) -> Solution:
    """The p parameters that minimise sum(((y - sum(parameter x column))/sd)^2).

    `columns` p >= 1 of n numbers, `y` n numbers, `sd` n standard deviations above 0, n >= p.
    Raises ValueError for other shapes, for numbers that are not finite and for columns that
    depend on each other.
    """
    _check(columns, y, sd)
    size = [math.hypot(*column) or 1.0 for column in columns]
    basis = [
        [value / size[j] / s for value, s in zip(column, sd, strict=True)]
        for j, column in enumerate(columns)
    ]
    right = [value / s for value, s in zip(y, sd, strict=True)]
    upper, projected = _orthogonal(basis, right)
    scaled = _back(upper, projected)
    inverse = _inverse(upper)
    p = len(columns)
    covariance = tuple(
        tuple(
            math.fsum(inverse[i][k] * inverse[j][k] for k in range(p)) / size[i] / size[j]
            for j in range(p)
        )
        for i in range(p)
    )
    values = tuple(value / size[j] for j, value in enumerate(scaled))
    return Solution(values, covariance, math.fsum(r * r for r in right), len(y) - p)


def left_over(columns: Sequence[Sequence[float]], new: Sequence[float]) -> float:
    """The share (0 to 1) of `new` that no mixture of `columns` explains; 0 of a zero column."""
    basis = [list(column) for column in (*columns, new)]
    length = math.hypot(*new)
    if not length:
        return 0.0
    for j, column in enumerate(basis):
        norm = math.hypot(*column)
        if j == len(basis) - 1:
            return norm / length
        for later in basis[j + 1 :]:
            _subtract(later, column, norm)
    raise AssertionError("the last column returns")


def _check(columns: Sequence[Sequence[float]], y: Sequence[float], sd: Sequence[float]) -> None:
    n, p = len(y), len(columns)
    if not 1 <= p <= n or len(sd) != n or any(len(column) != n for column in columns):
        raise ValueError(f"{n} points cannot carry {p} parameters of columns and errors as given")
    if not all(math.isfinite(v) for row in (*columns, y, sd) for v in row) or min(sd) <= 0:
        raise ValueError("a fit needs finite numbers and standard deviations above 0")


def _subtract(later: list[float], column: list[float], norm: float) -> float:
    """Takes the part along `column` out of `later`; returns that part's length."""
    if not norm:
        return 0.0
    part = math.fsum(a * b for a, b in zip(column, later, strict=True)) / norm
    for at, value in enumerate(column):
        later[at] -= part * value / norm
    return part


def _orthogonal(
    basis: list[list[float]], right: list[float]
) -> tuple[list[list[float]], list[float]]:
    """R of the columns and Q'y; leaves the residuals in `right`."""
    p = len(basis)
    upper = [[0.0] * p for _ in range(p)]
    projected = [0.0] * p
    begun = [math.hypot(*column) for column in basis]
    for j, column in enumerate(basis):
        norm = math.hypot(*column)
        if norm <= 1e-12 * begun[j] or not norm:
            raise ValueError("the points cannot tell the terms of the fit apart")
        upper[j][j] = norm
        for k in range(j + 1, p):
            upper[j][k] = _subtract(basis[k], column, norm)
        projected[j] = _subtract(right, column, norm)
    return upper, projected


def _back(upper: list[list[float]], right: Sequence[float]) -> list[float]:
    """Solves upper x = right."""
    p = len(upper)
    x = [0.0] * p
    for i in reversed(range(p)):
        known = math.fsum(upper[i][k] * x[k] for k in range(i + 1, p))
        x[i] = (right[i] - known) / upper[i][i]
    return x


def _inverse(upper: list[list[float]]) -> list[list[float]]:
    p = len(upper)
    columns = [_back(upper, [float(i == j) for i in range(p)]) for j in range(p)]
    return [[columns[j][i] for j in range(p)] for i in range(p)]
