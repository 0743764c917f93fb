"""What a simulated engine does at a point: air, temperature, and the true pressures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sootsayer.learning.simulated.vehicle import MBAR, Vehicle
from sootsayer.physics.filter import Filter
from sootsayer.physics.flow import air_by_filling, exhaust_mass_flow, silencer_pressure, volume_flow
from sootsayer.physics.gas import air_density, air_viscosity
from sootsayer.physics.pressure_drop import CHANNEL_FRICTION, pressure_drop
from sootsayer.physics.ranges import ZERO_CELSIUS

_HOUR = 3600.0
_ROUNDS = 8  # of the drop that raises its own pressure; each cuts the error tenfold
SPEEDS: Final[Mapping[str, float]] = {
    "1500": 1500.0,
    "2000": 2000.0,
    "2500": 2500.0,
    "3000": 3000.0,
}
_WARMING = 20.0  # C per 500 rpm that a held speed is hotter than 2,000 rpm unloaded


@dataclass(frozen=True, slots=True)
class State:
    """The engine at a point. `air` kg/h taken in, `temperature` C before the filter, `speed` rpm,
    `boost` mbar absolute; pressures in mbar: `drop` over the filter, `behind` it above the
    barometer, over the `catalyst` with its pipes, `ahead` of it above the barometer."""

    speed: float
    boost: float
    air: float
    temperature: float
    drop: float
    behind: float
    catalyst: float
    ahead: float


def at_point(vehicle: Vehicle, point: str, egr_commanded_shut: bool = False) -> State:
    """The state at `idle`, `1500`, `2000`, `2500`, `3000` (held, no load) or `pull`."""
    if point == "idle":
        speed, ratio, egr = vehicle.idle_speed, 1.0, vehicle.egr_idle
        temperature, fuel = vehicle.temperature_idle, vehicle.fuel_unloaded
    elif point == "pull":
        speed, ratio, egr = vehicle.pull_speed, 0.0, 0.0
        temperature, fuel = vehicle.temperature_pull, vehicle.fuel_pull
    else:
        speed, ratio, egr = SPEEDS[point], vehicle.boost_unloaded, vehicle.egr_part
        temperature = vehicle.temperature_part + _WARMING * (speed - 2000.0) / 500.0
        fuel = vehicle.fuel_unloaded
    shut = max(vehicle.egr_stuck, 0.0 if egr_commanded_shut else egr)
    boost = ratio * vehicle.barometer
    if point == "pull":
        boost = vehicle.barometer + max(vehicle.boost_pull - vehicle.boost_lost, 0.0) * MBAR
    intake = ZERO_CELSIUS + vehicle.intake_temperature
    full = air_by_filling(vehicle.engine_litres, speed, boost, intake, vehicle.filling)
    return _state(vehicle, full * (1.0 - shut) * _HOUR, speed, boost, temperature, fuel)


def _state(
    vehicle: Vehicle, air: float, speed: float, boost: float, temperature: float, fuel: float
) -> State:
    air *= 1.0 - vehicle.low_pressure_egr  # its place is taken by what is led back
    through = exhaust_mass_flow(air / _HOUR, fuel, vehicle.low_pressure_egr)
    through *= 1.0 - vehicle.gas_lost
    kelvin = ZERO_CELSIUS + temperature
    silencer = vehicle.silencer_times * silencer_pressure(air / _HOUR, kelvin)
    outlet = vehicle.barometer + silencer
    drop = 0.0
    for _ in range(_ROUNDS):
        middle = outlet + min(drop, 150_000.0) / 2.0
        flow = volume_flow(through, kelvin, middle)
        drop = true_drop(vehicle, flow, kelvin, middle)
    catalyst = vehicle.catalyst_drop * MBAR * (air / 150.0) ** 1.3 * kelvin / 473.15
    return State(
        speed=speed,
        boost=boost / MBAR,
        air=air,
        temperature=temperature,
        drop=drop / MBAR,
        behind=silencer / MBAR,
        catalyst=catalyst / MBAR,
        ahead=(silencer + drop + catalyst) / MBAR,
    )


def true_drop(vehicle: Vehicle, flow: float, temperature: float, pressure: float) -> float:
    """Pa over the filter at `flow` m3/s of gas of `temperature` K and `pressure` Pa.

    K2000 through the walls; channels that stand open (`open_share`) carry gas beside them by
    laminar friction alone; the losses at the faces grow with density and the square of the flow.
    """
    viscosity = air_viscosity(temperature)
    whole = pressure_drop(vehicle.brick, vehicle.permeability, viscosity, flow, vehicle.layer)
    per_flow = whole.total / flow if flow else 0.0
    share = vehicle.open_share
    if share > 0 and per_flow > 0:
        through_open = _open_channels(vehicle.clean_filter, viscosity)
        per_flow = 1.0 / ((1.0 - share) / per_flow + share / through_open)
    faces = _square(vehicle) * air_density(temperature, pressure) * flow**2
    return per_flow * flow + faces


def _open_channels(filter_: Filter, viscosity: float) -> float:
    """Pa s/m3 of the brick if all its channels stood open at both ends."""
    channels = 2.0 * filter_.inlet_channels
    return CHANNEL_FRICTION * viscosity * filter_.length / (channels * filter_.opening**4)


def _square(vehicle: Vehicle) -> float:
    """1/m4: such that the faces take their share of the clean drop at 150 m3/h and 200 C."""
    flow = 150.0 / _HOUR
    clean = vehicle.clean_resistance * 2.8 / vehicle.filter_litres * 150.0 * MBAR
    return vehicle.square_share * clean / (air_density(473.15) * math.pow(flow, 2))
