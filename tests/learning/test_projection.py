"""Counted shares made into spreads that a link may have."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.noisy import cumulative_factors, spread_problems
from sootsayer.learning.projection import raised, written, written_link


def spreads(levels: int, least: float = 0.0) -> st.SearchStrategy[tuple[float, ...]]:
    part = st.floats(max(least, 0.0), 1.0)
    return (
        st.lists(part, min_size=levels, max_size=levels)
        .filter(lambda parts: sum(parts) > 0.1)
        .map(lambda parts: tuple(x / sum(parts) for x in parts))
    )


pairs = st.integers(2, 6).flatmap(lambda n: st.tuples(spreads(n, 0.01), spreads(n)))


@given(pairs)
@settings(deadline=None, max_examples=200)
def test_a_link_only_raises(pair: tuple[tuple[float, ...], tuple[float, ...]]) -> None:
    """Whatever was counted, lint has nothing against what comes out."""
    otherwise, seen = pair
    found = raised(otherwise, seen)
    assert sum(found) == pytest.approx(1.0)
    assert spread_problems(otherwise, found) == []


@given(pairs)
@settings(deadline=None, max_examples=100)
def test_what_already_raises_stays(pair: tuple[tuple[float, ...], tuple[float, ...]]) -> None:
    """Projecting twice is projecting once."""
    otherwise, seen = pair
    once = raised(otherwise, seen)
    assert raised(otherwise, once) == pytest.approx(once, abs=1e-9)


def test_a_level_at_its_least_stays() -> None:
    """Where levels were given their least share, that is not given twice for a rounding."""
    even = (0.2,) * 5
    once = raised(even, (0.0, 0.0, 0.0, 0.0, 1.0))
    assert once == pytest.approx((1e-4, 1e-4, 1e-4, 1e-4, 0.9996))
    assert raised(even, once) == pytest.approx(once, abs=1e-9)


def test_violators_are_pooled() -> None:
    """Worked by hand: ratios 0.6 and 0.4 over shares 0.5 and 0.8 pool to their weighted mean."""
    otherwise = (0.5, 0.3, 0.2)
    seen = (0.3, 0.02, 0.68)  # up to: 0.3 of 0.5, 0.32 of 0.8
    mean = (0.6 * 0.5 + 0.4 * 0.8) / 1.3
    assert cumulative_factors(otherwise, raised(otherwise, seen)) == pytest.approx((mean, mean, 1))


def test_lowering_becomes_nothing() -> None:
    """A fault that lowers cannot be a link: what is left of it is `otherwise`."""
    assert raised((0.2, 0.8), (0.9, 0.1)) == pytest.approx((0.2, 0.8))


@given(st.integers(2, 6).flatmap(lambda n: spreads(n, 0.02)))
@settings(deadline=None)
def test_written_percentages_add_to_100(spread: tuple[float, ...]) -> None:
    """As written they add to 100, and no level is 0."""
    shares = written(spread)
    assert sum(shares) == pytest.approx(100.0, abs=1e-9)
    assert min(shares) >= 0.01
    assert shares == pytest.approx([100 * x for x in spread], abs=0.2)


@given(pairs)
@settings(deadline=None, max_examples=200)
def test_rounding_keeps_a_link_a_link(pair: tuple[tuple[float, ...], tuple[float, ...]]) -> None:
    """As written too, lint has nothing against it, ties and tiny levels included."""
    otherwise = tuple(share / 100 for share in written(pair[0]))
    found = written_link(otherwise, pair[1])
    assert sum(found) == pytest.approx(100.0, abs=1e-9)
    assert spread_problems(otherwise, tuple(share / 100 for share in found)) == []
    assert found == pytest.approx([100 * x for x in raised(otherwise, pair[1])], abs=0.2)
