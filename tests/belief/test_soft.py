"""Readings near a cut."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.soft import level_weights, parts

CUTS = (8.0, 40.0, 59.0, 93.0)


def test_without_error_the_levels_are_hard_and_a_cut_belongs_above() -> None:
    """With no error one level has all the weight; a value at a cut has the upper level."""
    assert level_weights(39.9, 0.0, CUTS) == (0, 1, 0, 0, 0)
    assert level_weights(40.0, 0.0, CUTS) == (0, 0, 1, 0, 0)
    assert level_weights(-5.0, 0.0, CUTS) == (1, 0, 0, 0, 0)
    assert level_weights(93.0, 0.0, CUTS) == (0, 0, 0, 0, 1)


def test_weights_follow_the_normal_error() -> None:
    """A value on a cut is half and half; one sd below, 15.866 % lies above (normal table)."""
    assert level_weights(40.0, 2.0, CUTS) == pytest.approx((0, 0.5, 0.5, 0, 0))
    assert level_weights(38.0, 2.0, CUTS)[2] == pytest.approx(0.1586552539, abs=1e-10)


def test_a_cut_beyond_four_sd_is_certain() -> None:
    """Farther than four standard deviations there is no weight at all."""
    assert level_weights(48.1, 2.0, CUTS) == (0, 0, 1, 0, 0)
    assert level_weights(47.9, 2.0, CUTS)[1] > 0.0


@settings(deadline=None)
@given(
    value=st.floats(-100, 200),
    sd=st.floats(0, 50),
    cuts=st.one_of(
        st.lists(st.integers(-50, 150), unique=True, max_size=5).map(sorted),
        st.floats(-50, 150).map(lambda cut: [cut, cut + max(1.0, abs(cut)) * 4e-16]),
    ),
)
def test_weights_add_to_one_and_parts_stand_in_their_level(
    value: float, sd: float, cuts: list[float]
) -> None:
    """Weights add to 1; each part has the hard level it stands for and that level's weight."""
    weights = level_weights(value, sd, cuts)
    assert len(weights) == len(cuts) + 1
    assert min(weights) >= 0.0
    assert math.fsum(weights) == pytest.approx(1.0, abs=1e-12)
    found = parts(value, sd, cuts)
    assert [share for share, _ in found] == [share for share in weights if share > 0.0]
    levels = [level_weights(inside, 0.0, cuts).index(1.0) for _, inside in found]
    assert levels == [k for k, share in enumerate(weights) if share > 0.0]


def test_the_reading_stands_for_its_own_level() -> None:
    """Far from every cut there is one part: the reading as it came."""
    assert parts(50.0, 1.0, CUTS) == [(1.0, 50.0)]
    assert (parts(39.0, 1.0, CUTS)[0][1], len(parts(39.0, 1.0, CUTS))) == (39.0, 2)


def test_a_sliver_of_a_level_is_still_stood_for_from_within() -> None:
    """Where rounding would put the mean outside its level, it is kept inside."""
    for i in range(50):
        low = 1.0 + i / 100
        high = low + 4.5e-16
        middle = [inside for _, inside in parts(0.9, 0.5, (low, high))][1:-1]
        assert all(low <= inside < high for inside in middle)


@pytest.mark.parametrize(
    ("value", "sd", "cuts"),
    [(math.nan, 1, (1,)), (1, -1, (1,)), (1, 1, (2, 2)), (1, math.inf, (1,))],
)
def test_nonsense_is_refused(value: float, sd: float, cuts: tuple[float, ...]) -> None:
    """Numbers that are none, negative errors and falling cuts are refused."""
    with pytest.raises(ValueError, match=r"finite|negative|rise"):
        level_weights(value, sd, cuts)
