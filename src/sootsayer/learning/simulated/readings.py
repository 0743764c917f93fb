"""All that a workshop could read of a simulated vehicle."""

from __future__ import annotations

from random import Random

from sootsayer.engine.conditions import Value
from sootsayer.learning.simulated.pressure_sensor import (
    applied,
    shown,
    volts_at_rest,
    without_hoses,
)
from sootsayer.learning.simulated.running import State, at_point
from sootsayer.learning.simulated.soot_figures import ash_counted, soot_measured, soot_modelled
from sootsayer.learning.simulated.vehicle import Vehicle

RUNNING = ("idle", "1500", "2000", "2500", "pull")
_TIGHT, _FREE = 0.1, 0.5  # a hose may lose, or be blocked by, less than this share to pass
_NEAR, _NEAR_SHARE = 4.0, 0.15  # mbar, and share, by which sensor and gauge may differ


def readings(vehicle: Vehicle, random: Random) -> dict[str, Value]:
    """Slot to value in the unit of the packs' signals, hot, no regeneration under way.

    A slot that no pack declares does no harm: whoever makes a case of them leaves it out.
    """
    states = {point: at_point(vehicle, point) for point in RUNNING}
    found: dict[str, Value] = {"dp@rest": shown(vehicle, None, random)}
    for point, state in states.items():
        found |= _running(vehicle, point, state, random)
    found |= _pressure_sensor(vehicle, states["2500"], found, random)
    found |= _engine(vehicle, states, random)
    found |= _load(vehicle, found, random)
    return found


def _running(vehicle: Vehicle, point: str, state: State, random: Random) -> dict[str, Value]:
    air = state.air * vehicle.air_gain / max(1.0 - vehicle.charge_lost, 0.3)
    temperature = state.temperature + vehicle.temperature_off
    return {
        f"dp@{point}": shown(vehicle, state, random),
        f"air@{point}": float(max(round(air + random.gauss(0.0, 0.02 * air + 1.0)), 0)),
        f"exhaust-temperature@{point}": float(round(temperature + random.gauss(0.0, 4.0))),
        f"boost@{point}": float(round((state.boost + random.gauss(0.0, 12.0)) / 10.0) * 10),
        f"engine-speed@{point}": float(
            round((state.speed + random.gauss(0.0, vehicle.speed_error)) / 10.0) * 10
        ),
        f"pressure-ahead@{point}": float(round(state.ahead + random.gauss(0.0, 3.0))),
    }


def _pressure_sensor(
    vehicle: Vehicle, state: State, found: dict[str, Value], random: Random
) -> dict[str, Value]:
    rest, running = found["dp@rest"], found["dp@2500"]
    assert isinstance(rest, float)
    assert isinstance(running, float)
    gauge = state.drop + random.gauss(0.0, 2.0)
    near = _NEAR + _NEAR_SHARE * gauge
    apart = running - rest - gauge
    against = "sensor lower" if apart < -near else "sensor higher" if apart > near else "agree"
    return {
        "dp@applied": applied(vehicle, 100.0, random),
        "hoses-off-reading": without_hoses(vehicle, random),
        "dp@cold-soak": shown(vehicle, None, random),
        "pressure-behind@2500": float(round(state.behind + random.gauss(0.0, 2.0))),
        "catalyst-drop@2500": float(round(state.catalyst + random.gauss(0.0, 3.0))),
        "sensor-volts@rest": round(volts_at_rest(vehicle, random), 2),
        "supply-volts@rest": round(vehicle.supply_volts + random.gauss(0.0, 0.02), 2),
        "sensor-against-gauge": against,
        "gauge-zero-in-air": True,
        "hose-holds-vacuum": vehicle.front_open < _TIGHT,
        "hose-blows-through": vehicle.front_blocked < _FREE,
    }


def _engine(vehicle: Vehicle, states: dict[str, State], random: Random) -> dict[str, Value]:
    as_found = states["idle"].air
    shut = at_point(vehicle, "idle", egr_commanded_shut=True).air
    rise = 100.0 * (shut / as_found - 1.0) + random.gauss(0.0, 3.0)
    # Against a full filter the turbine has less to work with (the factor from memory).
    held_back = 0.8 * max(states["pull"].ahead - 250.0, 0.0)
    short = vehicle.boost_lost + held_back + random.gauss(0.0, 30.0)
    return {
        "air-rise-egr-shut": float(round(rise)),
        "boost-shortfall@pull": float(round(short / 10.0) * 10),
        "barometer": float(round(vehicle.barometer / 100.0 + random.gauss(0.0, 3.0))),
        "recirculated": round(vehicle.low_pressure_egr, 2),
        "catalyst-rise": float(round(vehicle.catalyst_rise + random.gauss(0.0, 10.0))),
        "engine-litres": round(vehicle.engine_litres, 1),
        "filter-litres": round(vehicle.filter_litres, 1),
        "exhaust-sensor-spread@cold-soak": float(
            round(vehicle.temperature_off + random.gauss(0.0, 3.0))
        ),
        "coolant@idle": float(round(vehicle.coolant_idle + random.gauss(0.0, 1.0))),
        "coolant@road": float(round(vehicle.coolant_road + random.gauss(0.0, 1.0))),
        "injector-reduction": round(vehicle.injector_spread + random.gauss(0.0, 0.1), 1),
        "regeneration-status": "not running",
    }


def _load(vehicle: Vehicle, found: dict[str, Value], random: Random) -> dict[str, Value]:
    return {
        "soot-shown": soot_modelled(vehicle, random),
        "soot-measured": soot_measured(vehicle, found),
        "ash-shown": ash_counted(vehicle, random),
        "particle-count": float(round(vehicle.particles)),
    }
