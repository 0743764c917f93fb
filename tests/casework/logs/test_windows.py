"""Which stretches are windows, and what is kept apart."""

from __future__ import annotations

import statistics
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.casework.logs.sums import Sums
from tests.casework.logs.making_logs import (
    BURNING,
    COLD,
    HELD_1500,
    HELD_2000,
    HELD_2500,
    IDLE,
    NAMES,
    PULL,
    REST,
    ROAD,
    Phase,
    cells,
    drive,
    text,
)
from tests.casework.logs.support import at, points, read, told

UP = Phase(4, (900, 1900), speed=40, pedal=30)


def test_a_drive(tmp_path: Path) -> None:
    """Rest, idle, each held speed, a pull and the road are found in their order."""
    held_3000 = Phase(60, (3000, 3000), pedal=15, exhaust=210)
    phases = (REST, IDLE, HELD_1500, HELD_2000, HELD_2500, held_3000, UP, PULL, UP, ROAD)
    log = read(tmp_path, text(drive(phases)))
    assert points(log) == ["rest", "idle", "1500", "2000", "2500", "3000", "pull", "road"]
    assert all(not window.apart for window in log.windows)
    assert [window.number for window in log.windows] == list(range(1, 9))
    assert told(log) == ""


def test_window_keeps_clear_of_its_beginning(tmp_path: Path) -> None:
    """The first seconds of a state, while things settle, are not averaged in."""
    log = read(tmp_path, text(drive((IDLE, Phase(1, (800, 2500)), HELD_2500))))
    held = at(log, "2500")
    assert held.begins >= 70 + 8
    assert held.channels["dp"].lowest > 45


def test_regeneration_is_kept_apart(tmp_path: Path) -> None:
    """Raised idle with hot gas, and the status, are a regeneration: seen, and not to be taken."""
    log = read(tmp_path, text(drive((IDLE, BURNING, IDLE))))
    window = at(log, "raised-idle")
    assert window.regeneration
    assert "regeneration" in window.apart
    assert all(not w.regeneration for w in log.windows if w.point == "idle" and w.begins < 70)


def test_regeneration_on_the_road(tmp_path: Path) -> None:
    """At a steady 90 km/h gas of 590 C is a regeneration, not a road reading."""
    hot = Phase(120, (2100, 2100), speed=90, pedal=25, exhaust=590)
    log = read(tmp_path, text(drive((hot,))))
    assert "road*" in points(log)


def test_regeneration_by_the_log_s_own_word(tmp_path: Path) -> None:
    """A column that says it runs is believed while gas is still cool."""
    lines = [",".join([*NAMES, "Regeneration status"])]
    for row in drive((IDLE, Phase(60, (800, 800), burning=True))):
        lines.append(",".join([*cells(row), "running" if row.burning else "not running"]))
    assert points(read(tmp_path, "\n".join(lines) + "\n")) == ["idle", "idle*"]


def test_a_pull_is_no_regeneration(tmp_path: Path) -> None:
    """Under full pedal hot gas is expected."""
    hot = Phase(8, (1800, 3600), speed=70, pedal=98, exhaust=620, boost=2.1)
    log = read(tmp_path, text(drive((UP, hot, UP), rate=5)))
    assert points(log) == ["pull"]


def test_a_pull_without_pedal(tmp_path: Path) -> None:
    """Without pedal or load a quick rise of engine speed on the road is a pull."""
    rows = list(drive((UP, PULL, Phase(6, (2000, 1500), speed=60)), rate=5))
    lines = [",".join(NAMES[:7])] + [",".join(cells(row)[:7]) for row in rows]
    assert points(read(tmp_path, "\n".join(lines) + "\n")) == ["pull"]


def test_a_rev_standing_is_no_pull(tmp_path: Path) -> None:
    """Revving in the workshop is not a pull."""
    rev = Phase(7, (1000, 3600), pedal=98)
    assert points(read(tmp_path, text(drive((IDLE, rev, IDLE), rate=5)))) == ["idle", "idle"]


def test_cold_is_told_from_hot(tmp_path: Path) -> None:
    """Idle with cold coolant is another point, and a held speed when cold is kept apart."""
    cold_held = Phase(60, (2500, 2500), coolant=45, exhaust=140)
    log = read(tmp_path, text(drive((COLD, cold_held, HELD_2500))))
    assert points(log) == ["cold-idle", "2500"]
    assert "not hot" in at(log, "2500").apart


def test_unknown_is_doubted(tmp_path: Path) -> None:
    """Without coolant or road speed the window stands, and says what nothing shows."""
    rows = list(drive((IDLE, HELD_2500)))
    lines = [",".join(NAMES[:5])] + [",".join(cells(row)[:5]) for row in rows]
    doubts = " ".join(at(read(tmp_path, "\n".join(lines) + "\n"), "2500").doubts)
    assert "no column of coolant" in doubts
    assert "no column of road speed" in doubts


def test_held_while_driving_is_no_point(tmp_path: Path) -> None:
    """2,500 rpm at 60 km/h is not 2,500 rpm standing."""
    assert points(read(tmp_path, text(drive((Phase(90, (2500, 2500), speed=60),))))) == []


def test_short_is_no_window_or_doubted(tmp_path: Path) -> None:
    """Twelve seconds of idle are none; thirty are one that says it is short."""
    assert points(read(tmp_path, text(drive((Phase(12, (800, 800)),))))) == []
    log = read(tmp_path, text(drive((Phase(35, (800, 800)),))))
    assert "short: 30 s of the 60 s" in at(log, "idle").doubts[0]


def test_drift_is_told(tmp_path: Path) -> None:
    """Pressure that still climbs is no settled reading."""
    rows = list(drive((HELD_2500,)))
    lines = [",".join(NAMES)]
    for row in rows:
        own = cells(row)
        own[2] = f"{30 + row.time:.1f}"
        lines.append(",".join(own))
    window = at(read(tmp_path, "\n".join(lines) + "\n"), "2500")
    assert window.channels["dp"].drift == pytest.approx(window.duration, rel=0.01)
    assert any("dp still moves" in doubt for doubt in window.doubts)


def test_frozen_column_is_told_and_left_out(tmp_path: Path) -> None:
    """A pressure that stays while the engine speeds up is frozen: told, not averaged."""
    lines = [",".join(NAMES)]
    for row in drive((IDLE, HELD_2500)):
        own = cells(row)
        own[2] = "17.0"
        lines.append(",".join(own))
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert "dp: frozen at 17 mbar" in told(log)
    assert all("dp" not in window.channels for window in log.windows)
    assert all("dp is frozen" in " ".join(window.doubts) for window in log.windows)


def test_impossible_samples_are_not_averaged(tmp_path: Path) -> None:
    """A default of -1000 now and then leaves the mean as it was."""
    lines = text(drive((IDLE,))).splitlines()
    for number in range(20, 100, 7):
        parts = lines[number].split(",")
        parts[2] = "-1000"
        lines[number] = ",".join(parts)
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert at(log, "idle").channels["dp"].mean == pytest.approx(14.5, abs=0.6)
    assert '12 readings are not possible, the first "-1000"' in told(log)


def test_too_many_windows_are_bounded(tmp_path: Path) -> None:
    """A log of hundreds of windows keeps the first ones and says so."""
    lines = ["Time [s],rpm"]
    for i in range(400 * 20):
        lines.append(f"{i * 4 + (i // 20) * 100},{800 + i % 3}")
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert len(log.windows) == 300
    assert "100 windows beyond the first 300 are left out" in told(log)


@given(st.lists(st.floats(-1000, 1000), min_size=2, max_size=60), st.floats(-1e6, 1e6))
@settings(deadline=None)
def test_sums_are_the_textbook_s(values: list[float], offset: float) -> None:
    """One pass gives the mean and standard deviation that two passes give."""
    sums = Sums()
    for i, value in enumerate(values):
        sums.add(offset + i, value)
    summary = sums.summary("mbar", 0.0, len(values) - 1)
    assert summary.mean == pytest.approx(statistics.fmean(values), abs=1e-9)
    assert summary.spread == pytest.approx(statistics.stdev(values), abs=1e-6, rel=1e-9)
    assert (summary.lowest, summary.highest, summary.n) == (min(values), max(values), len(values))


@given(st.floats(-50, 50), st.floats(-100, 100))
@settings(deadline=None)
def test_drift_is_the_slope(slope: float, start: float) -> None:
    """A straight line drifts by its slope times the time."""
    sums = Sums()
    for i in range(50):
        sums.add(1000 + i * 0.5, start + slope * i * 0.5)
    assert sums.summary("mbar", 0.0, 10.0).drift == pytest.approx(slope * 10, abs=1e-6)
