"""The shipped packs: they prove themselves, ask for all they read, and judge as a colleague would.

What the readings below mean is common practice; the numbers are those of the packs' reference
vehicle (2.0 L, 2.8 L filter, hot).
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.judgement.judge import judge
from sootsayer.judgement.proofs import failed_proofs
from sootsayer.judgement.verdict import ChannelState, DriveOn, Verdict
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_cases, shipped_rules

HOT = "coolant@idle: 88, regeneration-status: not running, dp@rest: 0"
HOSE_GOOD = "hose-holds-vacuum: yes, hose-blows-through: yes, hose-look: sound"


@lru_cache(maxsize=1)
def rulebook() -> Rulebook:
    return load_rulebook([shipped_rules()])


def verdict_of(path: Path) -> Verdict:
    case = read_case(path, rulebook().model)
    return judge(case, rulebook(), now=case.entries[-1].at)


def told(folder: Path, scan: str = "", technician: str = "", customer: str = "") -> Verdict:
    """The verdict on a visit in which these facts were entered."""
    said = {"scan": scan, "technician": technician, "customer": customer}
    lines = [
        f"- {{at: 2031-01-01T09:0{i}+01:00, by: tech-1, round: arrival, source: {source}, "
        f"facts: {{{facts}}}}}"
        for i, (source, facts) in enumerate(said.items())
        if facts
    ]
    head = "case: made\nformat: 1\nvehicle: {label: 2.0 L panel van}\nentries:\n"
    path = folder / "made.yaml"
    path.write_text(head + "\n".join(lines) + "\n", encoding="utf-8")
    return verdict_of(path)


def leading(verdict: Verdict, kind: str) -> str:
    """The first fault of a kind, or `none` where that is more probable."""
    first = next(fault for fault in verdict.faults if fault.kind == kind)
    return first.id if first.confidence > verdict.none[kind] else "none"


def confidence(verdict: Verdict, fault: str) -> float:
    return next(f.confidence for f in verdict.faults if f.id == fault)


def channel(verdict: Verdict, name: str) -> ChannelState:
    return next(c.state for c in verdict.channels if c.id == name)


def test_every_proof_comes_out() -> None:
    """Each finding says what its own examples say."""
    assert sum(len(f.proofs) for f in rulebook().model.findings.values()) > 150
    assert failed_proofs(rulebook()) == ()


def test_every_fact_is_given_by_some_check() -> None:
    """Nothing is read by a rule that no check could ever yield."""
    model = rulebook().model
    given = {slot for check in model.checks.values() for slot in check.gives}
    slots = {
        slot
        for signal in model.signals.values()
        for slot in ([f"{signal.id}@{point}" for point in signal.points] or [signal.id])
    }
    assert len(slots) > 50
    assert slots - given == set()


@pytest.mark.parametrize(
    ("name", "measurement", "condition", "cause", "drive_on", "sensor"),
    [
        (
            "blocked-by-short-trips",
            "none",
            "soot-overload",
            "short-trip-duty",
            DriveOn.NOT_TO_BE_DRIVEN,
            ChannelState.PROVEN,
        ),
        (
            "leaking-front-hose",
            "front-hose-leaks",
            "soot-overload",
            "short-trip-duty",
            DriveOn.WORKSHOP_ONLY,
            ChannelState.DISTRUSTED,
        ),
        (
            "sensor-offset",
            "sensor-offset",
            "none",
            "none",
            DriveOn.MAY_BE_DRIVEN,
            ChannelState.CORRECTED,
        ),
    ],
)
def test_demonstrations_end_as_they_are_told(
    name: str, measurement: str, condition: str, cause: str, drive_on: DriveOn, sensor: ChannelState
) -> None:
    """Each demonstration case leads to what its story says, and to its answer about driving."""
    verdict = verdict_of(shipped_cases() / f"{name}.yaml")
    kinds = ("measurement", "condition", "cause")
    assert tuple(leading(verdict, kind) for kind in kinds) == (measurement, condition, cause)
    assert verdict.drive_on.state.value == drive_on.value
    assert channel(verdict, "dp-sensor").value == sensor.value
    assert verdict.exact


def test_a_healthy_vehicle_stays_quiet(tmp_path: Path) -> None:
    """With good readings through a proven instrument no fault rises above its share at intake."""
    nothing = told(tmp_path, technician="hose-hisses: no")
    good = told(
        tmp_path,
        scan=f"{HOT}, dp@idle: 5, dp@2500: 18, soot-shown: 8, soot-measured: 9",
        technician=HOSE_GOOD,
        customer="trip-length: 40 km, town-share: 20 %, power-loss: none",
    )
    assert [leading(good, kind) for kind in good.none] == ["none", "none", "none"]
    before = {fault.id: fault.confidence for fault in nothing.faults}
    risen = {f.id for f in good.faults if f.confidence > before[f.id] + 1e-6}
    assert risen == set()


def test_idle_accuses_but_never_acquits(tmp_path: Path) -> None:
    """A clean figure at idle hardly speaks for the filter; a very high one speaks against it."""
    account = "trip-length: 5 km, power-loss: gradual"
    without = told(tmp_path, HOT, HOSE_GOOD, account)
    clean = told(tmp_path, f"{HOT}, dp@idle: 5", HOSE_GOOD, account)
    blocked = told(tmp_path, f"{HOT}, dp@idle: 40", HOSE_GOOD, account)
    base = confidence(without, "soot-overload")
    assert base - 0.05 < confidence(clean, "soot-overload") < base
    assert confidence(blocked, "soot-overload") > base + 0.1


def test_a_low_reading_is_no_good_news(tmp_path: Path) -> None:
    """Little pressure with the instrument unproven accuses hose or core and does not clear soot."""
    scan = f"{HOT}, dp@idle: 1, dp@2500: 6, soot-shown: 33"
    verdict = told(tmp_path, scan, customer="trip-length: 5 km, power-loss: gradual")
    assert leading(verdict, "measurement") == "front-hose-leaks"
    assert confidence(verdict, "soot-overload") > 0.9
    assert not verdict.filter_well.shown


def test_a_breached_core_is_found(tmp_path: Path) -> None:
    """Low pressure, good hoses, a sooty tailpipe and many particles: the core."""
    verdict = told(
        tmp_path,
        f"{HOT}, dp@idle: 1, dp@2500: 5, soot-shown: 18, soot-measured: 2",
        f"{HOSE_GOOD}, tailpipe-soot: yes, particle-count: 2000000",
    )
    assert leading(verdict, "condition") == "core-breached"
    assert leading(verdict, "measurement") == "none"


def test_cold_readings_are_not_judged(tmp_path: Path) -> None:
    """With cold coolant, or while a regeneration runs, differential pressure says nothing."""
    for state in (
        "coolant@idle: 60, regeneration-status: not running",
        "coolant@idle: 88, regeneration-status: running",
        "regeneration-status: not running",
    ):
        verdict = told(tmp_path, f"{state}, dp@rest: 0, dp@idle: 40, dp@2500: 120")
        levels = {f.id: f.level for f in verdict.findings}
        assert levels["restriction-at-2500"] is None
        assert levels["restriction-at-idle"] is None


def test_fuel_in_the_oil_forbids_starting(tmp_path: Path) -> None:
    """Oil above the mark is enough, whatever else is unknown."""
    verdict = told(tmp_path, technician="oil-level: above max")
    assert verdict.drive_on.state.value == "not-to-be-started"
    run = next(p for p in verdict.permissions if p.action == "run-engine")
    assert run.state.value == "blocked"
