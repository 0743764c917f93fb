"""The moment that a case is judged at."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from sootsayer.casework.model import Case, Entry, Outcome, Source, Vehicle
from sootsayer.casework.moments import read_moment, write_moment
from sootsayer.commands.clock import clock
from sootsayer.commands.find_case import find_case
from sootsayer.commands.leaving import Stop
from sootsayer.commands.moment import moment_of
from sootsayer.documents.nodes import Place

PLACE = Place("case.yaml", 1, 1)
START = datetime(2031, 3, 14, 8, 0, tzinfo=UTC)


def case(*, closed: bool, entries: int = 3) -> Case:
    """Entries an hour apart; the outcome, if any, a day later."""
    made = [
        Entry(i + 1, START + timedelta(hours=i), "tech-1", "arrival", Source.SCAN, (), PLACE)
        for i in range(entries)
    ]
    if closed:
        end = START + timedelta(days=1)
        done = Outcome((), (), "recheck")
        made.append(
            Entry(entries + 1, end, "tech-1", None, Source.TECHNICIAN, (), PLACE, outcome=done)
        )
    return Case("x", "case.yaml", Vehicle("van"), {}, tuple(made))


def test_given_time_wins() -> None:
    """--at is the moment, of any case."""
    at = moment_of(case(closed=True), at="2031-05-01T10:00Z", as_of=1, demonstration=True)
    assert at == datetime(2031, 5, 1, 10, 0, tzinfo=UTC)


def test_open_case_is_judged_now() -> None:
    """An open case of the shop ages by the clock."""
    before = datetime.now(UTC)
    now = moment_of(case(closed=False), at=None, as_of=None, demonstration=False)
    assert before <= now <= datetime.now(UTC)
    assert now.utcoffset() is not None


@pytest.mark.parametrize(("closed", "demonstration"), [(True, False), (True, True), (False, True)])
def test_finished_case_is_judged_before_its_outcome(closed: bool, demonstration: bool) -> None:
    """A closed or demonstration case stands still at its last entry before the outcome."""
    now = moment_of(case(closed=closed), at=None, as_of=None, demonstration=demonstration)
    assert now == START + timedelta(hours=2)


def test_earlier_state_is_judged_at_its_own_time() -> None:
    """As of an earlier entry nothing has aged by what came after it."""
    for closed in (True, False):
        now = moment_of(case(closed=closed), at=None, as_of=2, demonstration=False)
        assert now == START + timedelta(hours=1)


def test_folder_does_not_hide_a_demonstration_case(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file by the name comes first, a folder by the name does not."""
    shipped = tmp_path / "shipped"
    shipped.mkdir()
    (shipped / "demo.yaml").write_text("x", encoding="utf-8")
    work = tmp_path / "work"
    (work / "demo").mkdir(parents=True)
    monkeypatch.chdir(work)
    found = find_case("demo", shipped)
    assert (found.demonstration, found.shown_as) == (True, "demo.yaml")
    (work / "demo").rmdir()
    (work / "demo").write_text("x", encoding="utf-8")
    assert not find_case("demo", shipped).demonstration
    with pytest.raises(Stop):
        find_case("demo2", shipped)


def test_a_clock_that_is_behind(capsys: pytest.CaptureFixture[str]) -> None:
    """Entries dated after now are told of, with what to do: their age would only look too great."""
    late = replace(case(closed=False), entries=())
    assert moment_of(late, at=None, as_of=None, demonstration=False)
    ahead = datetime.now(UTC) + timedelta(days=2)
    entry = replace(case(closed=False).entries[1], at=ahead)
    late = replace(case(closed=False), entries=(entry,))
    assert moment_of(late, at=None, as_of=None, demonstration=False) < ahead
    told = " ".join(capsys.readouterr().err.split())
    assert told.count("clock says") == 1
    assert "entry 2 is dated" in told
    assert f"--at {ahead.isoformat(timespec='minutes')}" in told
    moment_of(late, at="2031-05-01T10:00Z", as_of=None, demonstration=False)
    moment_of(late, at=None, as_of=None, demonstration=True)
    past = replace(entry, at=datetime.now(UTC) - timedelta(minutes=1))
    moment_of(replace(late, entries=(past,)), at=None, as_of=None, demonstration=False)
    assert capsys.readouterr().err == ""


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="the zone of a running process, on POSIX")
def test_a_machine_whose_zone_no_case_can_write(monkeypatch: pytest.MonkeyPatch) -> None:
    """An offset with seconds, or of a day: the moment is that of UTC, and can be written."""
    for zone, offset in (("AMT-0:19:32", 0), ("FAR-24", 0), ("FAR+24:59:59", 0), ("IST-5:30", 330)):
        monkeypatch.setenv("TZ", zone)
        time.tzset()
        try:
            now = clock()
        finally:
            monkeypatch.undo()
            time.tzset()
        assert now.utcoffset() == timedelta(minutes=offset), zone
        assert abs(now - datetime.now(UTC)) < timedelta(minutes=5)
        assert read_moment(write_moment(now)) == now


def test_an_entry_in_the_last_hour_that_can_be_written(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Farther east that hour has no name; the clock is complained of all the same."""
    last = datetime(9999, 12, 31, 23, 59, tzinfo=UTC)
    late = replace(case(closed=False), entries=(replace(case(closed=False).entries[0], at=last),))
    east = datetime.now(UTC).astimezone(timezone(timedelta(hours=14)))
    monkeypatch.setattr("sootsayer.commands.moment.clock", lambda: east)
    assert moment_of(late, at=None, as_of=None, demonstration=False) == east
    assert "9999" in capsys.readouterr().err
