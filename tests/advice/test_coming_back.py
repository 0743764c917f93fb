"""How soon it fills again, held against the physics of soot and ash."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.advice.coming_back import Between, Filling, days, km_to_full
from sootsayer.physics.ash import ash_by_distance
from sootsayer.physics.soot import soot_left

SPEED = 30.0  # km/h; any: a feed by the km is a feed by the hour


def soot_after(start: float, gain: float, km: float) -> float:
    """g after `km` with nothing burning, by physics.soot."""
    feed = gain * 1e-3 * SPEED / 3600.0
    return soot_left(start * 1e-3, feed, 0.0, km / SPEED * 3600.0) * 1e3


def test_a_van_that_blocked_at_five_km_a_day_is_back() -> None:
    """25 to 40 g, 0 to 5 g left, 30 to 60 g in 1,000 km: 333 to 1,333 km. At 35 km a week, give or
    take a quarter, that is 53 to 333 days."""
    km = km_to_full(Filling((0.0, 5.0), (25.0, 40.0), (0.03, 0.06)))
    assert (km.lowest, km.highest) == pytest.approx((20 / 0.06, 40 / 0.03))
    there = days(km, (5 / 1.25, 5 * 1.25))
    assert (there.lowest, there.highest) == pytest.approx((53.33, 333.33), abs=0.01)


@settings(deadline=None)
@given(
    start=st.tuples(st.floats(0, 10), st.floats(0, 10)),
    full=st.tuples(st.floats(20, 60), st.floats(20, 60)),
    gain=st.tuples(st.floats(0.01, 0.3), st.floats(0.01, 0.3)),
)
def test_the_ends_are_those_of_physics(
    start: tuple[float, float], full: tuple[float, float], gain: tuple[float, float]
) -> None:
    """Fed for the km of either end, physics.soot has filled it just so; ash by distance alike."""
    course = Filling(*(tuple(sorted(each)) for each in (start, full, gain)))  # type: ignore[arg-type]
    km = km_to_full(course)
    assert km.highest is not None
    soonest = soot_after(course.start[1], course.gain[1], km.lowest)
    latest = soot_after(course.start[0], course.gain[0], km.highest)
    assert soonest == pytest.approx(course.full[0], rel=1e-9)
    assert latest == pytest.approx(course.full[1], rel=1e-9)
    # A twentieth of it on twenty times the way: within what ash ever gains.
    ash = course.start[0] + ash_by_distance(20.0 * km.highest, course.gain[0] * 1000.0 / 20.0)
    assert ash == pytest.approx(course.full[1], rel=1e-9)


def test_what_is_full_already_is_back_at_once() -> None:
    """Work that leaves more than the filter holds has changed nothing."""
    assert km_to_full(Filling((0.0, 50.0), (25.0, 40.0), (0.1, 0.1))).lowest == 0.0


@pytest.mark.parametrize(
    "course",
    [
        Filling((5.0, 0.0), (25.0, 40.0), (0.1, 0.1)),
        Filling((0.0, 5.0), (40.0, 25.0), (0.1, 0.1)),
        Filling((0.0, 5.0), (25.0, 40.0), (0.0, 0.1)),
        Filling((-1.0, 5.0), (25.0, 40.0), (0.1, 0.1)),
    ],
)
def test_no_range_is_refused(course: Filling) -> None:
    """Upside down, negative, or gaining nothing: ValueError."""
    with pytest.raises(ValueError, match=r"no range|gains nothing"):
        km_to_full(course)


def test_days_need_a_distance() -> None:
    """A vehicle that stands has no day on which it is back; an open end stays open."""
    with pytest.raises(ValueError, match="no distance"):
        days(Between(1.0, 2.0), (0.0, 5.0))
    assert days(Between(10.0, None), (5.0, 10.0)) == Between(1.0, None)
