"""Facts of the trade that the shipped packs must get right: common practice, no source. Check
values only; no demonstration case tells of such a visit."""

from __future__ import annotations

from functools import cache

import pytest

from sootsayer.engine.conditions import Value
from sootsayer.judgement.compare import compare
from sootsayer.judgement.compare_remains import what_remains
from sootsayer.judgement.judge import judge, tell
from sootsayer.judgement.verdict import (
    ChannelState,
    DriveOn,
    FaultSaid,
    PermissionSaid,
    Permitted,
    Verdict,
)
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from tests.judgement.compare_cases import HOT, before, done, read, worked_out
from tests.laws.making_cases import rulebook

BARE_MENTION = 3.0  # Kass & Raftery 1995: below it a weight is not worth more than that
WARM: dict[str, Value] = {"coolant@idle": 88.0, "regeneration-status": "not running"}
SHORT_DISTANCE: dict[str, Value] = {
    "trip-length": 5.0,
    "filter-km": 190_000.0,
    "coolant@idle": 88.0,
    "dp@idle": 97.0,
    "dp@1500": 510.0,
    "protection-mode": True,
    "rpm-cap": 2800.0,
    "regeneration-status": "locked",
    "reason-for-refusal": "too much soot",
    "code:P2463": True,
}
AFTERWARDS = (
    read(
        "arrival",
        "trip-length: 5 km, filter-km: 190000 km, protection-mode: yes, rpm-cap: 2800, "
        "oil-life-spent: yes",
        "08:50",
        "customer",
    ),
    before(f"dp@idle: 97, dp@1500: 510, {HOT}"),
    done("clean-in-place-with-fluid"),
    read("after-clean", f"dp@idle: 30, {HOT}, filter-wet: no", "12:00"),
    read("after-burn", f"dp@idle: 15, {HOT}", "15:00"),
    read("after-burn", "protection-mode: no, power-now: full", "15:05", "customer"),
)


def judged(facts: dict[str, Value], **more: Value) -> Verdict:
    case = case_of(rulebook().model, {**facts, **{k.replace("_", "-"): v for k, v in more.items()}})
    return judge(case, rulebook(), now=MADE_AT, proposing=False)


@cache
def short_distance() -> Verdict:
    return judged(SHORT_DISTANCE)


def fault(verdict: Verdict, name: str) -> FaultSaid:
    return next(each for each in verdict.faults if each.id == name)


def leading(verdict: Verdict, kind: str) -> str:
    return next(each.id for each in verdict.faults if each.kind == kind)


def permission(verdict: Verdict, action: str) -> PermissionSaid:
    return next(each for each in verdict.permissions if each.action == action)


def weight(reading: float, name: str) -> float:
    """The fault's odds with this hot idle reading, over those with 10 mbar."""
    with_it, without = (
        fault(judged({**WARM, "dp@idle": mbar}), name).confidence for mbar in (reading, 10.0)
    )
    return with_it / (1 - with_it) / (without / (1 - without))


@pytest.mark.parametrize("name", ["soot-overload", "ash-full"])
@pytest.mark.parametrize("reading", [22.0, 25.0, 29.0])
def test_a_hot_idle_within_what_is_healthy_accuses_softly(reading: float, name: str) -> None:
    """Healthy filters read up to 20 or 30 mbar at hot idle: alone, such a reading is not worth
    more than a bare mention, though it does say something."""
    assert 1.0 < weight(reading, name) < BARE_MENTION


def test_a_hot_idle_far_above_accuses() -> None:
    """97 mbar at hot idle are worth more, and still no proof without flow or another speed."""
    assert weight(97.0, "soot-overload") > BARE_MENTION
    assert fault(judged({**WARM, "dp@idle": 97.0}), "soot-overload").confidence < 0.9
    assert weight(15.0, "soot-overload") == pytest.approx(1.0, abs=0.02)


def test_the_short_distance_vehicle_is_blocked_by_its_trips() -> None:
    """5 km a day, hot idle 95 to 99, above 500 at 1,500 rpm, capped at 2,800, soot code, refused
    as too loaded: blocked, short trips as cause, and no lie needed to explain it."""
    for idle in (95.0, 97.0, 99.0):
        found = judged({**SHORT_DISTANCE, "dp@idle": idle})
        assert leading(found, "condition") == "soot-overload"
        assert fault(found, "soot-overload").confidence > 0.95
        assert leading(found, "cause") == "short-trip-duty"
        assert fault(found, "short-trip-duty").confidence > 0.7
        assert found.none["measurement"] > 0.5
        speaker = next(f.speaker for f in found.families if f.id == "restriction")
        level = next(f.level for f in found.findings if f.id == speaker)
        assert (speaker, level) == ("restriction-at-1500", "blocked")


def test_its_regeneration_in_the_yard_is_blocked() -> None:
    """What the control refuses as too full is not burnt standing, nor on the road; it may be
    driven to a workshop at most."""
    for action in ("parked-regeneration", "road-regeneration"):
        found = permission(short_distance(), action)
        assert found.state is Permitted.BLOCKED
        locks = {lock.id: lock.state for lock in (*found.interlocks, *found.named)}
        assert locks["control-would-burn-it"] is Permitted.BLOCKED
    assert short_distance().drive_on.state is DriveOn.WORKSHOP_ONLY


def test_its_ash_is_not_excluded() -> None:
    """At that distance ash may well be there beside the soot; at a young age it hardly is."""
    old = fault(short_distance(), "ash-full").confidence
    young = fault(judged({**SHORT_DISTANCE, "filter-km": 30_000.0}), "ash-full").confidence
    assert old > 0.1
    assert old > 3 * young


def test_its_sensor_is_unproven_until_it_was_read_at_rest() -> None:
    """Everything agrees, and still nobody has looked whether the sensor shows zero at rest. Good
    hoses, and a reading that follows the speed, do not prove it alone; at rest beside them does."""
    hoses: dict[str, Value] = {
        "hose-holds-vacuum": True,
        "hose-blows-through": True,
        "dp@2500": 900.0,
    }
    for read_at_rest, state in ((False, ChannelState.UNPROVEN), (True, ChannelState.PROVEN)):
        rest: dict[str, Value] = {"dp@rest": 0.0} if read_at_rest else {}
        found = judged({**SHORT_DISTANCE, **hoses, **rest})
        channel = next(each for each in found.channels if each.id == "dp-sensor")
        assert channel.state is state
        assert channel.awaits == (() if read_at_rest else ("dp-not-zero-at-rest",))
    plain = next(each for each in short_distance().channels if each.id == "dp-sensor")
    assert plain.state is ChannelState.UNPROVEN


def test_what_its_cap_hides_means_nothing() -> None:
    """Capped below 2,500 rpm it cannot give a reading there, and that is said; capped at 2,800
    it could."""
    for cap, level in ((2400.0, "true"), (2800.0, "false")):
        found = judged({**SHORT_DISTANCE, "rpm-cap": cap})
        assert next(f.level for f in found.findings if f.id == "no-high-flow-reading") == level


def test_an_additive_poured_in_prevents_and_does_not_cure() -> None:
    """On a blocked filter it did nothing: that acquits nobody, and no remedy of the packs pours
    something into the tank to free a filter."""
    did_nothing = judged({**SHORT_DISTANCE, "tank-additive": "did nothing"})
    for name in ("soot-overload", "ash-full"):
        assert (
            fault(did_nothing, name).confidence >= fault(short_distance(), name).confidence - 0.01
        )
    assert leading(did_nothing, "cause") == "short-trip-duty"
    how = rulebook().model.signals["tank-additive"].how
    assert how is not None
    assert "prevents and never cures" in how
    filled = rulebook().model.remedies["fill-additive"]
    assert set(filled.cures) == {"additive-empty"}


def test_cleaning_in_place_says_how() -> None:
    """20 to 40 C, some 30 minutes of dwell, by the upstream port or the bore of the temperature
    sensor, outdoors in 3-minute spells near 2,500 rpm, 20 to 30 minutes of road near 3,000, then a
    regeneration of some 30 minutes; each under its own permission."""
    model = rulebook().model
    clean = model.remedies["clean-in-place-with-fluid"]
    steps = [step.does for step in clean.steps]
    told = [
        ("20 to 40 C", "engine off"),
        ("port ahead of the filter", "bore of the temperature sensor"),
        ("about 30 minutes", "sheet"),
        ("outdoors", "3-minute spells near 2,500 rpm"),
        ("20 to 30 minutes", "near 3,000 rpm", "regeneration of about 30 minutes"),
    ]
    at = [
        next(n for n, step in enumerate(steps) if all(words in step for words in every))
        for every in told
    ]
    assert at == sorted(at)
    assert "elbow" in (model.signals["fluid-port"].how or "")
    needs = set(model.actions["clean-in-place"].needs)
    assert {"filter-hand-warm", "engine-stands", "port-leads-to-filter", "fluid-is-right"} <= needs
    assert any("ash" in text.lower() for text in clean.resets)


def test_afterwards_the_gas_path_is_good() -> None:
    """97, then 30, then 15 at hot idle: each fall is real, and nothing is blocked any more."""
    work = worked_out(*AFTERWARDS)
    for earlier, later in (("arrival", "after-clean"), ("after-clean", "after-burn")):
        (change,) = compare(work, earlier, later).changes
        assert change.real
        assert change.ratio is not None
        assert change.ratio.value < 0.6
    found = tell(work, proposing=False)
    assert fault(found, "soot-overload").confidence < 0.5
    assert next(f.level for f in found.findings if f.id == "restriction-at-idle") == "normal"


def test_afterwards_ash_is_unknown_and_the_cause_is_there() -> None:
    """A good hot idle says nothing of ash at 190,000 km, and trips of 5 km go on."""
    work = worked_out(*AFTERWARDS)
    remains = what_remains(work, tell(work, proposing=False), "after-burn")
    assert remains.ash is not None
    assert 0.1 < remains.ash < 0.5
    assert "short-trip-duty" in {cause.id for cause in remains.causes}
    assert remains.no_cause < 0.3


def test_afterwards_the_oil_comes_first() -> None:
    """The oil lamp is still lit and nobody has read the dipstick: of all permitted work the oil
    change comes first, and driving on is not known before the oil is."""
    work = worked_out(*AFTERWARDS)
    found = tell(work, proposing=False, planning=True)
    assert found.plan is not None
    assert found.plan.remedies[0].remedy == "change-oil-and-filter"
    assert not what_remains(work, found, "after-burn").oil_read
    assert "oil-not-above-max" in {lock.id for lock in found.drive_on.unknown}
