"""The instrument first: unproven, proven, corrected, distrusted, and what follows."""

from __future__ import annotations

import pytest

from sootsayer.judgement.verdict import ChannelState
from tests.judgement.small_cases import (
    confidence,
    finding,
    gauge,
    scan,
    state,
    verdict,
)

SOUND = "dp@rest: 0, dp@idle: 8, dp@2500: 30"


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ("soot: 5", ChannelState.UNPROVEN),
        ("dp@rest: 0", ChannelState.UNPROVEN),
        (SOUND, ChannelState.PROVEN),
        ("dp@rest: 18, dp@idle: 26, dp@2500: 48", ChannelState.CORRECTED),
        ("dp@rest: 18", ChannelState.UNPROVEN),
        ("dp@rest: 0, dp@idle: 20, dp@2500: 10", ChannelState.DISTRUSTED),
        ("dp@rest: 18, dp@idle: 30, dp@2500: 20", ChannelState.DISTRUSTED),
    ],
)
def test_state_of_a_channel(facts: str, expected: ChannelState) -> None:
    """Proven when all required tests are false, corrected by a zero, distrusted by any other."""
    assert state(verdict(scan(facts))) is expected


def test_a_borderline_test_neither_proves_nor_distrusts() -> None:
    """5 mbar at rest against a threshold of 5: the channel stays unproven either way."""
    assert state(verdict(scan("dp@rest: 5, dp@idle: 8, dp@2500: 30"))) is ChannelState.UNPROVEN
    assert state(verdict(scan("dp@rest: 6, dp@idle: 8, dp@2500: 30"))) is ChannelState.UNPROVEN
    assert state(verdict(scan("dp@rest: 0, dp@idle: 9, dp@2500: 10"))) is ChannelState.UNPROVEN


def test_the_zero_is_removed_from_what_counts_and_not_from_the_tests() -> None:
    """48 mbar with a zero of 18 is 30: normal, not high; the test still sees 18."""
    said = verdict(scan("dp@rest: 18, dp@idle: 26, dp@2500: 48"))
    assert finding(said, "restriction-2500").level == "normal"
    assert finding(said, "not-zero").level == "true"
    assert next(c.zero for c in said.channels if c.id == "dp-sensor") == 18


def test_what_a_distrusted_channel_says_is_set_aside() -> None:
    """The finding is unknown, and tells what it would have said and for whose sake."""
    said = verdict(scan("dp@rest: 0, dp@idle: 70, dp@2500: 60"))
    restriction = finding(said, "restriction-2500")
    assert (restriction.level, restriction.set_aside) == (None, "dp-sensor")
    assert restriction.would_be == "high"
    assert restriction.grounds
    assert finding(said, "stuck").level == "true"
    assert confidence(said, "blocked") == pytest.approx(
        confidence(verdict(scan("dp@idle: 1", source="customer")), "blocked"), abs=0.2
    )


def test_a_gauge_is_not_the_sensor() -> None:
    """A distrusted sensor leaves the gauge's reading standing; its own readings test it."""
    lines = (
        scan("dp@rest: 0, dp@idle: 60, dp@2500: 50"),
        gauge("dp@2500: 30, gauge-open: 0"),
    )
    said = verdict(*lines)
    assert state(said) is ChannelState.DISTRUSTED
    assert state(said, "dp-gauge") is ChannelState.PROVEN
    restriction = finding(said, "restriction-2500")
    assert (restriction.level, restriction.set_aside) == ("normal", None)
    assert [g.source for g in restriction.grounds] == ["gauge"]


def test_a_better_source_does_not_test_the_worse() -> None:
    """The gauge's zero at rest proves nothing of the sensor."""
    said = verdict(gauge("dp@rest: 0, dp@idle: 8, dp@2500: 30"))
    assert state(said) is ChannelState.UNPROVEN


def test_a_distrusted_gauge_gives_way_to_the_sensor() -> None:
    """The next best source counts when the best is distrusted."""
    said = verdict(scan(SOUND), gauge("dp@2500: 90, gauge-open: 9"))
    assert state(said, "dp-gauge") is ChannelState.DISTRUSTED
    assert finding(said, "restriction-2500").level == "normal"
    assert said.contradictions[0].slot == "dp@2500"


def test_a_round_stands_for_itself() -> None:
    """Distrusted on arrival, mended, proven again: what was set aside becomes known."""
    arrival = scan("dp@rest: 0, dp@idle: 70, dp@2500: 60")
    after = scan(SOUND, "10:00", "after-mending")
    assert state(verdict(arrival)) is ChannelState.DISTRUSTED
    said = verdict(arrival, after)
    assert state(said) is ChannelState.PROVEN
    assert finding(said, "restriction-2500").level == "normal"
    assert verdict(arrival, after, as_of=1) == verdict(arrival)


def test_a_new_round_begins_unproven() -> None:
    """A single reading of a new round has no proof from the old one."""
    said = verdict(scan(SOUND), scan("dp@2500: 30", "10:00", "after-clean"))
    assert state(said) is ChannelState.UNPROVEN
    assert not said.filter_well.shown
