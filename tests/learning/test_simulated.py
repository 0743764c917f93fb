"""Simulated vehicles obey physics, and fault by fault show what the trade says they show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from random import Random
from statistics import median

import pytest

from sootsayer.learning.simulated.pressure_sensor import shown
from sootsayer.learning.simulated.readings import readings
from sootsayer.learning.simulated.running import at_point, true_drop
from sootsayer.learning.simulated.vehicle import Vehicle
from sootsayer.learning.spreads import Spreads
from sootsayer.learning.spreads_file import read_spreads, shipped_spreads
from sootsayer.physics.gas import air_viscosity
from sootsayer.physics.ranges import ZERO_CELSIUS

SOUND: frozenset[str] = frozenset()
MANY = 40


@cache
def spreads() -> Spreads:
    return read_spreads(shipped_spreads())


@cache
def reference() -> Vehicle:
    """The packs' reference vehicle: 2.0 L, 2.8 L filter as new, sea level, EGR shut, 200 C."""
    return replace(
        spreads().vehicle(SOUND, Random(0)),
        engine_litres=2.0,
        filter_per_engine=1.4,
        altitude=0.0,
        weather=0.0,
        clean_resistance=0.075,
        square_share=0.0,
        soot_per_litre=0.0,
        ash_per_litre=0.0,
        silencer_times=1.0,
        filling=0.9,
        intake_temperature=40.0,
        idle_speed=800.0,
        boost_unloaded=1.0,
        egr_idle=0.0,
        egr_part=0.0,
        egr_stuck=0.0,
        temperature_idle=150.0,
        temperature_part=180.0,
        dp_zero=0.0,
        dp_gain=1.0,
        dp_noise=0.0,
        dp_step=1.0,
    )


def middle(fault: str | None, slot: str) -> float:
    """The median reading with that fault over many vehicles."""
    faults = SOUND if fault is None else frozenset({fault})
    return median(number(each, slot) for each in seen(faults))


@cache
def seen(faults: frozenset[str]) -> tuple[Mapping[str, object], ...]:
    random = Random(9)
    return tuple(readings(spreads().vehicle(faults, random), random) for _ in range(MANY))


def number(facts: Mapping[str, object], slot: str) -> float:
    value = facts[slot]
    assert isinstance(value, float)
    return value


def test_reference_vehicle_draws_the_usual_air() -> None:
    """Common practice: 2.0 L unboosted, 48 kg/h at 800 rpm and 150 at 2,500, within a tenth."""
    assert at_point(reference(), "idle").air == pytest.approx(48, rel=0.1)
    assert at_point(reference(), "2500").air == pytest.approx(150, rel=0.1)


def test_clean_filter_has_its_resistance() -> None:
    """Brought to flow and to 200 C the clean filter has just the resistance it was given."""
    flow, kelvin = 150 / 3600, ZERO_CELSIUS + 200
    drop = true_drop(reference(), flow, kelvin, 101_325.0)
    assert drop / 100 / 150 == pytest.approx(0.075, rel=1e-6)
    hot = true_drop(reference(), flow, ZERO_CELSIUS + 450, 101_325.0)
    wanted = air_viscosity(ZERO_CELSIUS + 450) / air_viscosity(kelvin)
    assert hot / drop == pytest.approx(wanted, rel=1e-9)


def test_clean_reference_vehicle_reads_as_the_trade_says() -> None:
    """Common practice, reference vehicle hot: under 6.5 mbar at idle, 8 to 24 at 2,500 rpm."""
    assert 1 < at_point(reference(), "idle").drop < 6.5
    assert 8 < at_point(reference(), "2500").drop < 24


def test_soot_and_ash_raise_and_openings_lower() -> None:
    """More soot or ash, more pressure; more open channels, less, down to a few mbar at last."""
    soot = [at_point(replace(reference(), soot_per_litre=x), "2500").drop for x in range(0, 16, 3)]
    ash = [at_point(replace(reference(), ash_per_litre=x), "2500").drop for x in range(0, 60, 12)]
    gone = [at_point(replace(reference(), open_share=x / 5), "2500").drop for x in range(6)]
    assert soot == sorted(soot)
    assert ash == sorted(ash)
    assert gone == sorted(gone, reverse=True)
    assert soot[-1] > 2.5 * soot[0]
    assert 0 < gone[-1] < gone[0] / 3


def test_mountain_hardly_moves_the_millibars() -> None:
    """Unboosted, air and density fall together: 1,500 m change the drop by under a tenth."""
    low = at_point(reference(), "2500").drop
    assert at_point(replace(reference(), altitude=1500.0), "2500").drop == pytest.approx(
        low, rel=0.1
    )


def test_lies_are_what_they_are() -> None:
    """Each lie of sensor or hose, exactly: offset adds, swapping turns round, an open front hose
    shows less, an open rear one more, a blocked one what was trapped, a stuck one one number."""
    state = at_point(reference(), "2500")
    true = round(state.drop)

    def reads(**knobs: float) -> float:
        return shown(replace(reference(), **knobs), state, Random(1))

    assert reads() == true
    assert reads(dp_zero=18.0) == pytest.approx(true + 18, abs=1)
    assert reads(dp_swapped=1.0, dp_clamped=0.0) == pytest.approx(-true, abs=1)
    assert reads(dp_swapped=1.0, dp_clamped=1.0) == 0
    assert reads(front_open=1.0, dp_clamped=0.0) == pytest.approx(-state.behind, abs=1)
    assert reads(rear_open=1.0) == pytest.approx(state.drop + state.behind, abs=1)
    assert reads(front_blocked=1.0, front_trapped=9.0, dp_clamped=0.0) == pytest.approx(
        9 - state.behind, abs=1
    )
    assert reads(dp_stuck=1.0, dp_stuck_at=33.0) == 33
    assert shown(replace(reference(), rear_open=1.0), None, Random(1)) == 0


@pytest.mark.parametrize(
    ("fault", "slot", "sign"),
    [
        ("soot-overload", "dp@2500", 1),
        ("ash-full", "dp@2500", 1),
        ("core-breached", "dp@2500", -1),
        ("front-hose-leaks", "dp@2500", -1),
        ("front-hose-leaks", "soot-measured", -1),
        ("rear-hose-leaks", "dp@2500", 1),
        ("sensor-offset", "dp@rest", 1),
        ("restriction-elsewhere", "pressure-ahead@2500", 1),
        ("catalyst-face-plugged", "pressure-ahead@2500", 1),
        ("egr-stuck-open", "air-rise-egr-shut", -1),
        ("egr-stuck-open", "air@idle", -1),
        ("air-meter-low", "air@2500", -1),
        ("boost-leak", "boost-shortfall@pull", 1),
        ("turbo-weak", "boost-shortfall@pull", 1),
        ("thermostat-open", "coolant@road", -1),
        ("model-zeroed", "soot-measured", 1),
        ("supply-low", "supply-volts@rest", -1),
    ],
)
def test_faults_move_what_they_should(fault: str, slot: str, sign: int) -> None:
    """The median of the reading moves to the side that the trade says."""
    assert sign * (middle(fault, slot) - middle(None, slot)) > 0


def test_what_a_fault_does_not_touch_stays() -> None:
    """A thermostat does not change the pressure, nor a zeroed model the sensor at rest."""
    assert middle("thermostat-open", "dp@2500") == pytest.approx(middle(None, "dp@2500"), rel=0.2)
    assert abs(middle("model-zeroed", "dp@rest")) <= 1


def test_every_fault_can_be_simulated_mild_to_severe() -> None:
    """A hundred vehicles of each fault give finite readings, and never twice the same."""
    for fault in spreads().faults:
        random = Random(4)
        some = [readings(spreads().vehicle(frozenset({fault}), random), random) for _ in range(12)]
        assert len({str(each) for each in some}) == len(some)
        for each in some:
            assert all(v == v and abs(v) < 1e8 for v in each.values() if isinstance(v, float))


def test_order_of_faults_does_not_matter() -> None:
    """The same faults and the same generator give the same vehicle."""
    one = spreads().vehicle(frozenset(["ash-full", "sensor-offset"]), Random(6))
    other = spreads().vehicle(frozenset(["sensor-offset", "ash-full"]), Random(6))
    assert one == other
    assert one.dp_zero != 0
    assert one.ash_per_litre > 20
