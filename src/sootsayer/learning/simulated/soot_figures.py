"""The two soot figures and the ash counter as a vehicle's control makes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from random import Random

from sootsayer.engine.conditions import Value
from sootsayer.learning.simulated.running import true_drop
from sootsayer.learning.simulated.vehicle import MBAR, Vehicle
from sootsayer.physics.flow import volume_flow
from sootsayer.physics.ranges import ZERO_CELSIUS

MOST_MEASURED = 20.0  # g/L that a control's own curve reaches
_HALVINGS = 9  # to a quarter of a gram


def soot_modelled(vehicle: Vehicle, random: Random) -> float:
    """g by the model: what the engine ought to have made, or what a reset left of it."""
    model = vehicle.soot * vehicle.model_gain * vehicle.model_kept
    return float(max(round(model + random.gauss(0.0, 0.7)), 0))


def ash_counted(vehicle: Vehicle, random: Random) -> float:
    """g by the counter, which knows the distance and not the ash."""
    return float(max(round(vehicle.ash * random.uniform(0.7, 1.3)), 0))


def soot_measured(vehicle: Vehicle, found: Mapping[str, Value]) -> float:
    """g by pressure: the soot with which a filter of this type would show what the sensor shows
    at 2,500 rpm, for the air and heat that are shown. Ash is allowed for as far as it is usual."""
    dp, air, heat = found["dp@2500"], found["air@2500"], found["exhaust-temperature@2500"]
    assert isinstance(dp, float)
    assert isinstance(air, float)
    assert isinstance(heat, float)
    usual = replace(vehicle, ash_per_litre=min(vehicle.ash_per_litre, 12.0), open_share=0.0)
    kelvin = ZERO_CELSIUS + min(max(heat, 20.0), 900.0)
    flow = volume_flow(max(air, 10.0) / 3600.0, kelvin, vehicle.barometer)

    def off(per_litre: float) -> float:
        filter_ = replace(usual, soot_per_litre=per_litre)
        return true_drop(filter_, flow, kelvin, vehicle.barometer) / MBAR - dp

    low, high = 0.0, MOST_MEASURED
    if off(low) >= 0:
        return 0.0
    if off(high) > 0:
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            low, high = (low, middle) if off(middle) > 0 else (middle, high)
    else:
        low = MOST_MEASURED
    return float(round(low * vehicle.filter_litres * vehicle.measured_gain))
