"""Published numbers of rates, likelihood ratios and the Brier score.

Sources: Brown, Cai & DasGupta 2001 (Wilson, Jeffreys); Altman & Bland 1994, BMJ, and the table of
the faecal occult blood test (numbers of both tables from memory, their arithmetic exact); Brier
1950; Murphy 1973 (inputs inferred from its parts).
"""

from __future__ import annotations

import pytest

from sootsayer.learning.intervals import jeffreys_mean, wilson
from sootsayer.learning.ratios import Counts, log_weight, ratio_missing, ratio_seen
from sootsayer.learning.reliability import Reliability


def test_wilson() -> None:
    """Wilson's 95 % of 81 in 263, and of none in 20."""
    found = wilson(81, 263)
    assert (found.low, found.high) == pytest.approx((0.255289, 0.366210), abs=5e-7)
    none = wilson(0, 20)
    assert (none.low, none.high) == pytest.approx((0.0, 0.161125), abs=5e-7)


def test_jeffreys_mean() -> None:
    """Two of ten, half a case added to each side."""
    assert jeffreys_mean(2, 10) == pytest.approx(0.227273, abs=5e-7)


def test_smoothed_weights() -> None:
    """Nine of ten against two of twenty, seen and not seen."""
    counts = Counts(9, 10, 2, 20)
    assert log_weight(counts) == pytest.approx(1.981628, abs=5e-7)
    assert log_weight(counts, seen=False) == pytest.approx(-1.865678, abs=5e-7)


def test_likelihood_ratios() -> None:
    """The screening table, and the liver scans with their interval."""
    screening = Counts(20, 30, 180, 2000)
    seen, missing = ratio_seen(screening), ratio_missing(screening)
    assert seen is not None
    assert missing is not None
    assert (seen.value, missing.value) == pytest.approx((7.407407, 0.366300), abs=5e-7)
    scans = Counts(231, 258, 32, 86)
    seen, missing = ratio_seen(scans), ratio_missing(scans)
    assert seen is not None
    assert missing is not None
    assert (seen.value, seen.low, seen.high) == pytest.approx(
        (2.406250, 1.822791, 3.176470), abs=5e-7
    )
    assert missing.value == pytest.approx(0.166667, abs=5e-7)


def test_no_ratio_of_nothing() -> None:
    """What was never seen on one side has no ratio, only a smoothed weight."""
    assert ratio_seen(Counts(0, 10, 2, 20)) is None
    assert ratio_missing(Counts(10, 10, 2, 20)) is None
    assert log_weight(Counts(0, 10, 2, 20)) < 0


def test_brier_score() -> None:
    """Four forecasts by hand."""
    taken = Reliability()
    for said, true in ((0.1, False), (0.9, True), (0.8, True), (0.3, False)):
        taken.add(said, true)
    brier = taken.brier()
    assert brier is not None
    assert brier.score == pytest.approx(0.0375)


def test_three_parts() -> None:
    """Ten forecasts each at .2, .5 and .8 with 1, 5 and 7 events."""
    taken = Reliability()
    for said, events in ((0.2, 1), (0.5, 5), (0.8, 7)):
        for i in range(10):
            taken.add(said, i < events)
    brier = taken.brier()
    assert brier is not None
    parts = (brier.reliability, brier.resolution, brier.uncertainty, brier.score)
    assert parts == pytest.approx((0.006667, 0.062222, 0.245556, 0.19), abs=5e-7)
    assert brier.within == pytest.approx(0.0, abs=1e-12)
