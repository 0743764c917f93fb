"""Named quantities of restriction. Resistance R in mbar/(m3/h) at the viscosity of 200 C."""

from __future__ import annotations

from sootsayer.physics import flow, pressure_drop, resistance
from sootsayer.physics.filter import from_cells
from sootsayer.physics.gas import REFERENCE_TEMPERATURE, air_viscosity
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantity import GRAM, KG_H, M3_H, MBAR, Input, Quantity, by, kelvin
from sootsayer.physics.quantity_flow import (
    DP,
    RUNNING,
    RUNNING_VALIDITY,
    exhaust_flow,
    outlet,
)
from sootsayer.physics.ranges import within

REFERENCE_LITRES = 2.8
"""L of the reference vehicle's filter."""
NEW_RESISTANCE = Measured(0.075, 0.02)
"""Of the reference vehicle's filter when new (common practice, one engine family)."""
REFERENCE_DIAMETER = 0.144
"""m"""
LAYER_DENSITY = 97.0
"""kg/m3 of the soot layer (K2000, filter A)."""
_R = "mbar/(m3/h)"
_REFERENCE_FUEL = 0.015
_SEA_LEVEL = 1013.25
_FILTER_LITRES = Input("filter-litres", "L", "volume of the filter")
_RESISTANCE = Input("resistance", _R, "resistance of the filter")

_TWO_POINTS = (
    Input("dp-low", "mbar", "differential pressure at the lower flow"),
    Input("flow-low", "m3/h", "the lower exhaust flow"),
    Input("temperature-low", "C", "gas temperature there"),
    Input("dp-high", "mbar", "differential pressure at the higher flow"),
    Input("flow-high", "m3/h", "the higher exhaust flow"),
    Input("temperature-high", "C", "gas temperature there"),
)


def filter_resistance(dp: float, air: float, temperature: float, *running: float) -> float:
    """R in mbar/(m3/h); arguments as `exhaust_flow`."""
    moved = exhaust_flow(dp, air, temperature, *running) * M3_H
    return resistance.resistance(dp * MBAR, moved, kelvin(temperature)) * M3_H / MBAR


def for_size(found: float, litres: float) -> float:
    """R as a filter of 2.8 L of the same cells would have it: R x litres/2.8."""
    within("filter volume", litres, 0.3, 60.0, "L")
    return found * litres / REFERENCE_LITRES


def rise(high: float, low: float) -> float:
    """R at the higher over R at the lower flow."""
    if low <= 0.0:
        raise ValueError(f"resistance at the lower flow is {low:g}, not above 0")
    return high / low


def at_reference(
    dp: float,
    air: float,
    temperature: float,
    barometer: float,
    fuel: float,
    scale: float,
    recirculated: float,
    reference_air: float,
    reference_temperature: float,
    square_share: float,
) -> float:
    """mbar that the same filter would show at the reference air and temperature, sea level."""
    seen = resistance.Running(
        flow.exhaust_mass_flow(air * KG_H, fuel, recirculated),
        kelvin(temperature),
        outlet(air, temperature, barometer, scale),
    )
    wanted = resistance.Running(
        flow.exhaust_mass_flow(reference_air * KG_H, _REFERENCE_FUEL),
        kelvin(reference_temperature),
        outlet(reference_air, reference_temperature, _SEA_LEVEL, 1.0),
    )
    return resistance.bring(dp * MBAR, seen, wanted, square_share) / MBAR


def implied_zero(
    low: float,
    low_flow: float,
    low_temperature: float,
    high: float,
    high_flow: float,
    high_temperature: float,
) -> float:
    """mbar left without flow, from two readings (mbar), their flows (m3/h) and temperatures."""
    slow = resistance.viscous_flow(low_flow * M3_H, kelvin(low_temperature))
    fast = resistance.viscous_flow(high_flow * M3_H, kelvin(high_temperature))
    return resistance.implied_zero(low * MBAR, slow, high * MBAR, fast) / MBAR


def square_share(
    low: float,
    low_flow: float,
    low_temperature: float,
    high: float,
    high_flow: float,
    high_temperature: float,
) -> float:
    """Share at the higher flow; arguments as `implied_zero`, readings with their zero removed."""
    return resistance.square_share_of_two(
        low * MBAR,
        low_flow * M3_H,
        kelvin(low_temperature),
        high * MBAR,
        high_flow * M3_H,
        kelvin(high_temperature),
    )


def implied_soot(found: float, litres: float, new: float, cells: float, wall: float) -> float:
    """g of soot that bring a filter from resistance `new` (as for 2.8 L) to `found`.

    The reference brick with the wall that gives it `new`, loaded until it shows `found` brought
    to its size; then as much per litre in the filter at hand.
    """
    brick = from_cells(cells, wall, REFERENCE_LITRES, REFERENCE_DIAMETER)
    viscosity, moved = air_viscosity(REFERENCE_TEMPERATURE), 100.0 * M3_H
    wall_k = pressure_drop.wall_permeability_of(brick, viscosity, moved, new * 100.0 * MBAR)
    soot = pressure_drop.soot_of_drop(
        brick,
        pressure_drop.Permeability(wall_k),
        viscosity,
        moved,
        max(for_size(found, litres), 0.0) * 100.0 * MBAR,
        LAYER_DENSITY,
    )
    return soot / GRAM * litres / REFERENCE_LITRES


QUANTITIES = (
    Quantity(
        "filter-resistance",
        "Resistance of the filter: pressure drop over flow, at the viscosity of 200 C",
        by(filter_resistance),
        (DP, *RUNNING),
        _R,
        RUNNING_VALIDITY + "; dry, above 120 C, settled 30 s",
        "Darcy's law: K2000, SAE 2000-01-1016, eq. 1; viscosity by Sutherland 1893",
    ),
    Quantity(
        "resistance-for-size",
        "Resistance as a filter of 2.8 L with the same cells would have it",
        by(for_size),
        (_RESISTANCE, _FILTER_LITRES),
        _R,
        "0.3 to 60 L, like cells and walls",
        "K2000, SAE 2000-01-1016, eq. 1: as 1/volume",
    ),
    Quantity(
        "resistance-rise",
        "Resistance at the higher flow as a multiple of that at the lower",
        by(rise),
        (
            Input("resistance-high", _R, "resistance at the higher flow"),
            Input("resistance-low", _R, "resistance at the lower flow"),
        ),
        "",
        "about 1 for a filter; falling means a false zero, rising steeply an orifice",
        "Konstandopoulos & Papaioannou, KONA 26 (2008) 36-65, eq. 8",
    ),
    Quantity(
        "pressure-besides-filter",
        "Pressure ahead of the catalyst that the filter does not account for",
        by(lambda ahead, dp: ahead - dp),
        (
            Input("pressure-ahead", "mbar", "pressure ahead of the catalyst, above the barometer"),
            DP,
        ),
        "mbar",
        "both read at the same moment, or at the same held speed, hot",
        "definition",
    ),
    Quantity(
        "pressure-at-reference",
        "Differential pressure as it would be at the reference flow and temperature, sea level",
        by(at_reference),
        (
            DP,
            *RUNNING,
            Input("reference-air", "kg/h", "air at the reference", Measured(150.0)),
            Input("reference-temperature", "C", "temperature at the reference", Measured(200.0)),
            Input("square-share", "", "share that grows with flow squared", Measured(0.0)),
        ),
        "mbar",
        RUNNING_VALIDITY + "; best within a factor of two of the flow",
        "KONA 26 (2008) 36-65, eq. 8; ideal gas; viscosity by Sutherland 1893",
    ),
    Quantity(
        "implied-zero",
        "Reading that would remain without flow, from two points",
        by(implied_zero),
        _TWO_POINTS,
        "mbar",
        "readings as shown; flows that differ by a fifth or more; an orifice makes it negative",
        "straight line through two points; K2000, SAE 2000-01-1016, eq. 1",
    ),
    Quantity(
        "square-share",
        "Share of the drop at the higher flow that grows with the square of the flow",
        by(square_share),
        _TWO_POINTS,
        "",
        "zero removed; flows that differ by a fifth or more; well above 0 means an orifice",
        "Konstandopoulos & Papaioannou, KONA 26 (2008) 36-65, eq. 8, solved for two points",
    ),
    Quantity(
        "implied-soot",
        "Soot that this resistance would take, were nothing but soot in the way",
        # Permeability and density of the layer differ by a quarter between engines (from memory);
        # the formula itself is 5 to 8 per cent high on K2000's own filter.
        by(implied_soot, own=0.25),
        (
            _RESISTANCE,
            _FILTER_LITRES,
            Input("new-resistance", _R, "resistance when new, as for 2.8 L", NEW_RESISTANCE),
            Input("cells", "", "cells per square inch", Measured(200.0, 40.0)),
            Input("wall-mil", "", "wall, thousandths of an inch", Measured(14.0, 1.5)),
        ),
        "g",
        "a sound filter without much ash; 0 below the new resistance; not at idle",
        "K2000, SAE 2000-01-1016, eq. 1 and A15, solved for the layer",
    ),
)
