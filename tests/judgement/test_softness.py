"""Readings near a threshold: weighted in belief, hard in logic, worse end in interlocks."""

from __future__ import annotations

from itertools import pairwise

import pytest

from sootsayer.judgement.softness import weights
from sootsayer.judgement.verdict import Permitted, Reason
from tests.judgement.small_cases import (
    confidence,
    finding,
    interlock,
    scan,
    small,
    verdict,
    workings,
)


def restriction_weights(reading: float) -> tuple[float, ...]:
    work = workings(scan(f"dp@2500: {reading}"))
    name, levels = "restriction-2500", ("low", "normal", "high")
    return weights(small().program, work.trusted, work.limits, name, levels, work.derived[name])


def test_far_from_a_cut_is_hard() -> None:
    """20 mbar is normal and nothing else."""
    assert restriction_weights(20) == (0, 1, 0)
    assert not finding(verdict(scan("dp@2500: 20")), "restriction-2500").borderline


def test_on_a_cut_is_even() -> None:
    """On the cut the two levels weigh the same; logic takes the upper, and it is borderline."""
    assert restriction_weights(40) == pytest.approx((0, 0.5, 0.5), abs=1e-6)
    said = finding(verdict(scan("dp@2500: 40")), "restriction-2500")
    assert (said.level, said.borderline) == ("high", True)


def test_no_confidence_jumps_at_a_cut() -> None:
    """A tenth of a millibar moves the confidence of a blocked filter by less than four points."""
    steps = [36 + n / 10 for n in range(80)]
    found = [confidence(verdict(scan(f"dp@2500: {x}")), "blocked") for x in steps]
    jumps = [abs(b - a) for a, b in pairwise(found)]
    assert max(jumps) < 0.04
    assert found[-1] - found[0] > 0.3


def test_one_reading_twice_is_one_reading() -> None:
    """A rule that compares two readings branches over both; the weights add to one."""
    work = workings(scan("dp@idle: 10, dp@2500: 12"))
    seen = work.view_of("stuck")
    value, levels = work.derived["stuck"], ("false", "true")
    soft = weights(small().program, seen, work.limits, "stuck", levels, value)
    assert sum(soft) == pytest.approx(1)
    assert 0.05 < soft[1] < 0.5


@pytest.mark.parametrize(
    ("soot", "expected", "reason"),
    [
        (10, Permitted.CLEAR, Reason.HOLDS),
        (21, Permitted.NOT_YET_CLEAR, Reason.TOO_CLOSE),
        (23, Permitted.BLOCKED, Reason.DOES_NOT_HOLD),
    ],
)
def test_an_interlock_takes_the_worse_end(soot: int, expected: Permitted, reason: Reason) -> None:
    """21 g with an error of about 1 may be 23: not clear below a ceiling of 22."""
    said = interlock(verdict(scan(f"soot: {soot}")), "soot-low")
    assert (said.state, said.reason) == (expected, reason)


def test_a_vehicles_own_limit_wins() -> None:
    """With 40 g as this vehicle's ceiling, 23 g is clear, and the verdict says whose it is."""
    said = verdict(scan("soot: 23"), limits="soot-max: 40 g")
    assert interlock(said, "soot-low").state is Permitted.CLEAR
    assert [(u.value, u.origin) for u in said.limits] == [(40.0, "vehicle")]
    assert verdict().limits[0].origin == "pack"
