"""Intervals of counted shares."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.learning.intervals import (
    beta_quantile,
    incomplete_beta,
    jeffreys,
    jeffreys_mean,
    wilson,
)

SHARES = st.integers(1, 5000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@settings(deadline=None)
@given(SHARES)
def test_both_hold_the_share_they_are_of(share: tuple[int, int]) -> None:
    """An interval holds the share that was counted, and lies between 0 and 1."""
    k, n = share
    for each in (wilson(k, n), jeffreys(k, n)):
        assert 0.0 <= each.low <= each.high <= 1.0
        assert each.holds(k / n)


@settings(deadline=None)
@given(SHARES)
def test_what_is_not_seen_mirrors_what_is(share: tuple[int, int]) -> None:
    """The interval of what was not seen is that of what was, turned round."""
    k, n = share
    for interval in (wilson, jeffreys):
        one, other = interval(k, n), interval(n - k, n)
        assert one.low == pytest.approx(1 - other.high, abs=1e-9)
        assert one.high == pytest.approx(1 - other.low, abs=1e-9)


@settings(deadline=None)
@given(st.floats(0.001, 0.999), st.floats(0.5, 500), st.floats(0.5, 500))
def test_quantile_undoes_the_integral(p: float, a: float, b: float) -> None:
    """The share of the distribution below its own quantile is the one asked for."""
    assert incomplete_beta(beta_quantile(p, a, b), a, b) == pytest.approx(p, abs=1e-9)


def test_ends() -> None:
    """Nothing seen begins at 0, everything seen ends at 1, and of no cases nothing is known."""
    assert (jeffreys(0, 9).low, jeffreys(9, 9).high) == (0.0, 1.0)
    assert (wilson(0, 9).low, wilson(9, 9).high) == (0.0, 1.0)
    for interval in (wilson(0, 0), jeffreys(0, 0)):
        assert (interval.low, interval.high) == (0.0, 1.0)
    assert jeffreys_mean(0, 0) == 0.5
    assert (beta_quantile(0, 2, 3), beta_quantile(1, 2, 3)) == (0.0, 1.0)


@pytest.mark.parametrize(("k", "n"), [(-1, 3), (4, 3), (1, 0)])
def test_no_share_is_refused(k: int, n: int) -> None:
    """What is no share of anything has no interval."""
    for interval in (wilson, jeffreys, jeffreys_mean):
        with pytest.raises(ValueError, match=f"{k} of {n} is no share"):
            interval(k, n)
