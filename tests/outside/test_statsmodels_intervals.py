"""Intervals beside statsmodels and scipy; Brier and reliability beside scikit-learn."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from scipy.special import betainc, betaincinv
from sklearn.calibration import calibration_curve
from sklearn.metrics import brier_score_loss
from statsmodels.stats.proportion import proportion_confint

from sootsayer.learning.intervals import beta_quantile, incomplete_beta, jeffreys, wilson
from sootsayer.learning.reliability import Reliability

SHARES = [
    (k, n)
    for n in (1, 2, 3, 7, 20, 263, 5_000, 1_000_000)
    for k in sorted({0, 1, n // 7, n // 3, n // 2, n - 1, n})
]


@pytest.mark.parametrize(("k", "n"), SHARES)
@pytest.mark.parametrize("level", [0.8, 0.95, 0.999])
def test_as_statsmodels(k: int, n: int, level: float) -> None:
    """Both intervals, of few and of a million cases, at three levels.

    Its Jeffreys interval keeps the quantile where nothing or everything was seen; ours begins at 0
    and ends at 1 there, as Brown, Cai & DasGupta do, and only the other end is compared.
    """
    found = wilson(k, n, level)
    low, high = proportion_confint(k, n, alpha=1 - level, method="wilson")
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-12)
    found = jeffreys(k, n, level)
    low, high = proportion_confint(k, n, alpha=1 - level, method="jeffreys")
    assert found.low == pytest.approx(low if k else 0.0, abs=1e-9)
    assert found.high == pytest.approx(high if k < n else 1.0, abs=1e-9)


def test_incomplete_beta_as_scipy() -> None:
    """The integral and its inverse over small, large and lopsided parameters."""
    random = Random("incomplete beta")
    for _ in range(400):
        a, b = (10 ** random.uniform(-0.3, 4) for _ in range(2))
        x, p = random.random(), random.random()
        assert incomplete_beta(x, a, b) == pytest.approx(betainc(a, b, x), abs=1e-11, rel=1e-9)
        assert beta_quantile(p, a, b) == pytest.approx(betaincinv(a, b, p), abs=1e-10, rel=1e-8)


def test_brier_and_reliability_as_scikit_learn() -> None:
    """The score, and in each tenth the mean of what was said and of what was so."""
    random = Random("forecasts")
    said = np.array([random.random() for _ in range(3000)])
    true = np.array([random.random() < p**1.3 for p in said])
    taken = Reliability()
    for p, y in zip(said, true, strict=True):
        taken.add(float(p), bool(y))
    brier = taken.brier()
    assert brier is not None
    assert brier.score == pytest.approx(brier_score_loss(true, said), abs=1e-12)
    came, mean = calibration_curve(true, said, n_bins=10)
    assert [t.came for t in taken.tenths()] == pytest.approx(list(came), abs=1e-12)
    assert [t.said for t in taken.tenths()] == pytest.approx(list(mean), abs=1e-12)
    parts = brier.reliability - brier.resolution + brier.uncertainty + brier.within
    assert parts == pytest.approx(brier.score, abs=1e-12)
    assert abs(brier.within) < 0.01
