"""Permissions age: what was clear at nine is not clear at eleven, and says so."""

from __future__ import annotations

from sootsayer.judgement.verdict import DriveOn, Permitted, Reason
from tests.judgement.small_cases import done, interlock, scan, verdict

OIL = scan("oil: good", source="technician")


def test_a_reading_grows_too_old() -> None:
    """Within the hour it is clear, after it no more; nothing else has changed."""
    at_once, later = verdict(OIL, minutes=60), verdict(OIL, minutes=61)
    assert interlock(at_once, "oil-good").reason is Reason.HOLDS
    aged = interlock(later, "oil-good")
    assert (aged.state, aged.reason) == (Permitted.NOT_YET_CLEAR, Reason.TOO_OLD)
    assert aged.would_clear == ("dip",)
    assert at_once.drive_on.state is DriveOn.MAY_BE_DRIVEN
    assert later.drive_on.state is DriveOn.NOT_YET_KNOWN


def test_an_old_forbidding_fact_still_forbids() -> None:
    """Age takes a permission away, never a prohibition."""
    said = verdict(scan("oil: high", source="technician"), minutes=600)
    assert said.drive_on.state is DriveOn.NOT_TO_BE_STARTED


def test_work_makes_a_reading_old() -> None:
    """After work on the vehicle, what was read before does not clear any more."""
    before, after = verdict(OIL, minutes=10), verdict(OIL, done("oil-change", "09:05"), minutes=10)
    assert interlock(before, "oil-good").state is Permitted.CLEAR
    assert interlock(after, "oil-good").reason is Reason.TOO_OLD
    again = scan("oil: good", "09:08", source="technician")
    renewed = verdict(OIL, done("oil-change", "09:05"), again, minutes=10)
    assert interlock(renewed, "oil-good").state is Permitted.CLEAR


def test_a_reading_of_a_later_moment_clears_nothing() -> None:
    """Judged at a moment before it was read, a reading is no permission."""
    assert interlock(verdict(OIL, minutes=-5), "oil-good").reason is Reason.TOO_OLD


def test_an_unproven_instrument_clears_nothing() -> None:
    """The same reading clears through a proven channel and not through an unproven one."""
    unproven = interlock(verdict(scan("dp@2500: 30")), "not-too-full")
    assert (unproven.state, unproven.reason) == (
        Permitted.NOT_YET_CLEAR,
        Reason.UNPROVEN_INSTRUMENT,
    )
    assert "read-dp" in unproven.would_clear
    proven = interlock(verdict(scan("dp@rest: 0, dp@idle: 8, dp@2500: 30")), "not-too-full")
    assert proven.state is Permitted.CLEAR


def test_unproven_forbids_all_the_same() -> None:
    """One forbidding reading is enough, through an unproven instrument too."""
    assert interlock(verdict(scan("dp@2500: 400")), "not-too-full").state is Permitted.BLOCKED


READ = scan("dp@rest: 0, dp@idle: 8, dp@2500: 30")


def test_a_test_of_an_instrument_grows_too_old() -> None:
    """A sensor that passed its tests an hour ago is proven; it is no fresh permission."""
    at_once, later = verdict(READ, minutes=60), verdict(READ, minutes=61)
    assert interlock(at_once, "sensor-true").reason is Reason.HOLDS
    aged = interlock(later, "sensor-true")
    assert (aged.state, aged.reason) == (Permitted.NOT_YET_CLEAR, Reason.TOO_OLD)
    assert aged.awaits == ("dp@2500", "dp@idle", "dp@rest")
    assert aged.would_clear == ("read-dp",)


def test_work_makes_a_test_of_an_instrument_old() -> None:
    """Whatever was done to the vehicle, its sensor has to pass again."""
    said = verdict(READ, done("oil-change", "09:05"), minutes=10)
    assert interlock(said, "sensor-true").reason is Reason.TOO_OLD


def test_a_test_passed_by_less_than_its_error_clears_nothing() -> None:
    """A zero of 4 mbar passes a limit of 5; within the sensor's error it could be beyond."""
    close = interlock(verdict(scan("dp@rest: 4, dp@idle: 12, dp@2500: 34")), "sensor-true")
    assert (close.state, close.reason) == (Permitted.NOT_YET_CLEAR, Reason.TOO_CLOSE)
    clear = interlock(verdict(scan("dp@rest: 1, dp@idle: 9, dp@2500: 31")), "sensor-true")
    assert clear.state is Permitted.CLEAR


def test_a_failed_test_forbids_however_old() -> None:
    """Age takes a permission away, never a prohibition; so with the test of an instrument."""
    said = verdict(scan("dp@rest: 0, dp@idle: 30, dp@2500: 30"), minutes=600)
    assert interlock(said, "sensor-true").state is Permitted.BLOCKED
