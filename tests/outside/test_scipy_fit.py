"""The fit against scipy's least squares and statsmodels' confidence intervals."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize
from statsmodels import api

from sootsayer.physics.fit import LINEAR, SQUARE, ZERO, Point, Term, fit
from sootsayer.physics.least_squares import NORMAL_95, solve

PA = 100.0
# A day's readings: mbar, its standard deviation, m3/h, K, absolute Pa.
DAY = [
    Point(14.0 * PA, 1.5 * PA, 55 / 3600, 423.15, 101_900),
    Point(33.0 * PA, 2.0 * PA, 150 / 3600, 463.15, 103_000),
    Point(52.0 * PA, 2.5 * PA, 205 / 3600, 478.15, 104_500),
    Point(71.0 * PA, 3.0 * PA, 250 / 3600, 493.15, 106_000),
    Point(124.0 * PA, 5.0 * PA, 420 / 3600, 640.15, 111_000),
]
ALL: tuple[Term, ...] = (LINEAR, ZERO, SQUARE)


def design(points: list[Point], terms: tuple[Term, ...]) -> Any:
    return np.array([[point.column(term) for term in terms] for point in points])


@pytest.mark.parametrize("terms", [ALL[:1], ALL[:2], ALL])
def test_scipy_curve_fit(terms: tuple[Term, ...]) -> None:
    """scipy.optimize.curve_fit with absolute errors: the same parameters and covariance."""
    x = design(DAY, terms)
    ours = fit(DAY, terms)
    size = np.linalg.norm(x, axis=0)  # curve_fit steps in the parameters' own size

    def model(rows: Any, *parameters: float) -> Any:
        return rows @ np.array(parameters)

    found, covariance = optimize.curve_fit(
        model,
        x / size,
        [p.drop for p in DAY],
        p0=[1.0] * len(terms),
        sigma=[p.sd for p in DAY],
        absolute_sigma=True,
    )
    assert ours.solution.values == pytest.approx(list(found / size), rel=1e-6)
    expected = covariance / np.outer(size, size)
    for row, other in zip(ours.solution.covariance, expected, strict=True):
        assert row == pytest.approx(list(other), rel=1e-5)


@pytest.mark.parametrize("terms", [ALL[:1], ALL[:2], ALL])
def test_statsmodels_intervals(terms: tuple[Term, ...]) -> None:
    """statsmodels WLS with the errors as given: 95 per cent intervals, chi2 and what is free."""
    ours = fit(DAY, terms).solution
    weights = [p.sd**-2 for p in DAY]
    model = api.WLS([p.drop for p in DAY], design(DAY, terms), weights=weights)
    theirs = model.fit(cov_type="fixed scale", use_t=False)
    assert ours.values == pytest.approx(list(theirs.params), rel=1e-8)
    for at, (low, high) in enumerate(theirs.conf_int(alpha=0.05)):
        assert ours.interval(at, NORMAL_95) == pytest.approx((low, high), rel=1e-6)
    assert ours.chi2 == pytest.approx(float(theirs.ssr), rel=1e-8)
    assert ours.freedom == theirs.df_resid


def test_statsmodels_prediction() -> None:
    """statsmodels' standard error of the mean at a flow equals that of the fitted drop."""
    at = Point(0.0, 1.0, 180 / 3600, 473.15, 104_000)
    model = api.WLS([p.drop for p in DAY], design(DAY, ALL), weights=[p.sd**-2 for p in DAY])
    theirs = model.fit(cov_type="fixed scale", use_t=False).get_prediction(design([at], ALL))
    ours = fit(DAY, ALL).drop_at(at)
    assert ours.value == pytest.approx(float(theirs.predicted_mean[0]), rel=1e-8)
    assert ours.sd == pytest.approx(float(theirs.se_mean[0]), rel=1e-8)


number = st.floats(-100, 100).map(lambda x: round(x, 3))


@given(st.data())
@settings(deadline=None, max_examples=60)
def test_scipy_lsq_linear(data: st.DataObject) -> None:
    """numpy's and scipy's solvers find the same minimum for any columns that can be told apart."""
    n, p = data.draw(st.integers(3, 9)), data.draw(st.integers(1, 3))
    x = np.array(
        data.draw(st.lists(st.lists(number, min_size=p, max_size=p), min_size=n, max_size=n))
    )
    y = np.array(data.draw(st.lists(number, min_size=n, max_size=n)))
    sd = np.array(data.draw(st.lists(st.floats(0.1, 10), min_size=n, max_size=n)))
    weighted = x / sd[:, None]
    if np.linalg.matrix_rank(weighted) < p or np.linalg.cond(weighted) > 1e6:
        return
    theirs = optimize.lsq_linear(weighted, y / sd)
    ours = solve(x.T.tolist(), y.tolist(), sd.tolist())
    assert ours.chi2 == pytest.approx(2 * theirs.cost, rel=1e-6, abs=1e-9)
    assert list(ours.values) == pytest.approx(theirs.x.tolist(), rel=1e-5, abs=1e-7)
