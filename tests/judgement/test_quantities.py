"""Facts to physics to facts: computed where inputs are known, on the grounds of what was read."""

from __future__ import annotations

import pytest

from sootsayer.judgement.grounds import awaited
from sootsayer.judgement.verdict import ChannelState
from sootsayer.judgement.why import why
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantities import named
from tests.judgement.small_cases import (
    NINE,
    case,
    done,
    finding,
    gauge,
    scan,
    small,
    state,
    verdict,
    workings,
)

FLOW = "air@2500: 150, heat@2500: 200, barometer: 1013"
SOUND = "dp@rest: 0, dp@idle: 8"


def test_a_quantity_is_what_physics_says() -> None:
    """Resistance of the case is the physics function of its readings, with its uncertainty."""
    work = workings(scan(f"{SOUND}, dp@2500: 50, {FLOW}"))
    fact = work.trusted.facts["resistance@2500"]
    read = [work.trusted.facts[s] for s in ("dp@2500", "air@2500", "heat@2500", "barometer")]
    expected = named("filter-resistance")(
        *(Measured(f.value, f.sd) for f in read if isinstance(f.value, float))
    )
    assert fact.value == pytest.approx(expected.value, rel=1e-12)
    assert fact.sd == pytest.approx(expected.sd, rel=1e-12)
    assert fact.sd > 0


def test_its_grounds_are_the_readings() -> None:
    """A finding on a computed number rests on the entries that were read."""
    said = finding(verdict(scan(f"{SOUND}, dp@2500: 50, {FLOW}")), "resists")
    assert said.level == "normal"
    assert {g.slot for g in said.grounds} == {"dp@2500", "air@2500", "heat@2500", "barometer"}
    assert {g.entry for g in said.grounds} == {1}


def test_what_is_missing_is_named() -> None:
    """With an input missing it is unknown, and the finding waits for that input."""
    said = finding(verdict(scan("dp@2500: 50, air@2500: 150, barometer: 1013")), "resists")
    assert (said.level, said.awaits) == (None, ("heat@2500",))
    work = workings(scan("barometer: 1013"))
    assert awaited(work, "resists") == ("air@2500", "dp@2500", "heat@2500")


def test_a_corrected_zero_comes_before_physics() -> None:
    """68 mbar with a zero of 18 is the resistance of 50 mbar."""
    offset = workings(scan(f"dp@rest: 18, dp@idle: 26, dp@2500: 68, {FLOW}"))
    plain = workings(scan(f"{SOUND}, dp@2500: 50, {FLOW}"))
    key = "resistance@2500"
    assert offset.trusted.facts[key].value == plain.trusted.facts[key].value


def test_distrust_goes_through_physics() -> None:
    """Computed from a distrusted reading, a finding is set aside; a gauge's reading stands."""
    lines = scan(f"dp@rest: 0, dp@idle: 60, dp@2500: 50, {FLOW}")
    said = finding(verdict(lines), "resists")
    assert (said.level, said.set_aside, said.would_be) == (None, "dp-sensor", "normal")
    measured = finding(verdict(lines, gauge("dp@2500: 120, gauge-open: 0")), "resists")
    assert (measured.level, measured.set_aside) == ("high", None)


def test_work_voids_an_instrument() -> None:
    """After work on the sensor what it read before counts no more; read again, it counts."""
    before = scan(f"dp@rest: 0, dp@idle: 60, dp@2500: 50, {FLOW}")
    mended = done("mend-sensor", "10:00")
    assert state(verdict(before)) is ChannelState.DISTRUSTED
    said = verdict(before, mended)
    assert state(said) is ChannelState.UNPROVEN
    assert finding(said, "restriction-2500").set_aside is None
    assert finding(said, "restriction-2500").level is None
    again = scan("dp@rest: 0, dp@idle: 8, dp@2500: 30", "10:30")
    assert state(verdict(before, mended, again)) is ChannelState.PROVEN


def test_a_rule_keeps_to_its_round() -> None:
    """What was found on arrival stays found on arrival; the newest round has its own readings."""
    lines = (scan("soot: 25"), scan("soot: 3", "10:00", "after-clean"))
    said = finding(verdict(*lines), "short-on-arrival")
    assert (said.level, [g.entry for g in said.grounds]) == ("true", [1])
    only_after = finding(verdict(lines[1]), "short-on-arrival")
    assert only_after.level is None


def test_why_of_a_quantity() -> None:
    """Why of a computed slot names the readings, and what it still lacks."""
    lines = scan("dp@2500: 50, air@2500: 150, barometer: 1013")
    answer = why(case(lines), small(), "resistance@2500", now=NINE)
    assert answer.value is None
    assert [u.slot for u in answer.unknown] == ["heat@2500"]
    full = why(case(scan(f"dp@2500: 50, {FLOW}")), small(), "resistance@2500", now=NINE)
    assert isinstance(full.value, float)
    assert {g.slot for g in full.grounds} == {"dp@2500", "air@2500", "heat@2500", "barometer"}
