"""Numbers drawn from ranges."""

from __future__ import annotations

import math
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.learning.ranges import Either, Span

DRAWS = 4000
number = st.floats(-1e3, 1e3)


@given(number, number, st.floats(0, 1), st.integers(0, 50))
@settings(deadline=None)
def test_a_number_lies_in_its_range(one: float, other: float, share: float, seed: int) -> None:
    """Whatever the range, what is drawn lies in it."""
    low, high = min(one, other), max(one, other)
    span = Span(low, high, min(max(low + share * (high - low), low), high))
    assert low - 1e-9 <= span.draw(Random(seed)) <= high + 1e-9


def test_means_are_those_of_the_shapes() -> None:
    """Uniform, triangular and logarithmic means, within four standard errors (textbook)."""
    random = Random(3)
    shapes = {
        Span(2, 6): 4.0,
        Span(0, 9, 0): 3.0,
        Span(0, 9, 6): 5.0,
        Span(1, 100, log=True): 99 / math.log(100),
    }
    for span, mean in shapes.items():
        drawn = [span.draw(random) for _ in range(DRAWS)]
        sd = math.sqrt(sum((x - mean) ** 2 for x in drawn) / DRAWS)
        assert abs(sum(drawn) / DRAWS - mean) < 4 * sd / math.sqrt(DRAWS)


def test_either_takes_each_way_by_its_share() -> None:
    """Three in four and one in four, within four standard deviations."""
    either, random = Either(((0.75, Span(0, 1)), (0.25, Span(5, 6)))), Random(5)
    upper = sum(either.draw(random) > 2 for _ in range(DRAWS))
    assert abs(upper - DRAWS / 4) < 4 * math.sqrt(DRAWS * 3 / 16)


def test_no_range_is_refused() -> None:
    """A range that falls, a peak outside, and a logarithm of nothing."""
    for low, high, most, log in (
        (2.0, 1.0, None, False),
        (1.0, 2.0, 3.0, False),
        (0.0, 2.0, None, True),
        (0.0, math.inf, None, False),
    ):
        with pytest.raises(ValueError, match=r"range|most"):
            Span(low, high, most, log)
