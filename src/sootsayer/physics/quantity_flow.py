"""Named quantities of air and exhaust flow. Units: kg/h, m3/h, mbar, C, L, rpm."""

from __future__ import annotations

from sootsayer.physics import flow, gas
from sootsayer.physics.measured import Measured, interval
from sootsayer.physics.quantity import KG_H, M3_H, MBAR, Input, Quantity, by, kelvin
from sootsayer.physics.ranges import within
from sootsayer.physics.units import convert_air

DP = Input("dp", "mbar", "differential pressure over the filter, its zero removed")
AIR = Input("air", "kg/h", "air that the engine takes in")
TEMPERATURE = Input("exhaust-temperature", "C", "gas temperature before the filter")
BAROMETER = Input("barometer", "mbar", "air pressure, absolute, not reduced to sea level")
FUEL = Input("fuel-ratio", "", "fuel per air, 1/air-fuel ratio", interval(0.01, 0.06))
SILENCER = Input(
    "silencer-scale",
    "",
    "back pressure behind the filter as a multiple of the usual estimate",
    Measured(1.0, 0.5),
)
RECIRCULATED = Input(
    "recirculated",
    "",
    "share of the gas behind the filter that is led back before the engine; 0 when commanded shut",
    Measured(0.0),
)
LITRES = Input("engine-litres", "L", "displacement of the engine")
SPEED = Input("engine-speed", "rpm", "speed of the engine")
BOOST = Input("boost", "mbar", "intake pressure, absolute")
RUNNING = (AIR, TEMPERATURE, BAROMETER, FUEL, SILENCER, RECIRCULATED)
RUNNING_VALIDITY = (
    "air 0 to 3,600 kg/h, gas -73 to 1,027 C, barometer 500 to 1,100 mbar, fuel 0 to 0.07 per air, "
    "recirculated 0 to 0.6; high-pressure recirculation needs no correction"
)


def air_by_rule(litres: float, speed: float, boost: float) -> float:
    """kg/h from L, rpm, mbar absolute."""
    return flow.air_by_rule(litres, speed, boost * MBAR) / KG_H


def air_by_filling(
    litres: float, speed: float, boost: float, intake: float, filling: float
) -> float:
    """kg/h from L, rpm, mbar absolute, C and the filling."""
    return flow.air_by_filling(litres, speed, boost * MBAR, kelvin(intake), filling) / KG_H


def air_ratio(air: float, litres: float, speed: float, boost: float) -> float:
    """Air kg/h over that of the rule; raises ValueError where the rule gives none."""
    rule = air_by_rule(litres, speed, boost)
    if rule == 0.0:
        raise ValueError("engine speed is 0 rpm: the rule gives no air to compare with")
    return air / rule


def air_from_stroke(mass: float, cylinders: float, speed: float) -> float:
    """kg/h from mg per stroke and cylinder (0 to 10,000), cylinders (1 to 24), rpm (0 to 6,000)."""
    within("air per stroke", mass, 0.0, 10_000.0, "mg")
    within("cylinders", cylinders, 1.0, 24.0)
    within("engine speed", speed, 0.0, 6000.0, "rpm")
    return convert_air(mass, 1, speed) * cylinders


def mass_flow(air: float, fuel: float, recirculated: float) -> float:
    """kg/h through the filter from kg/h of air and two shares."""
    return flow.exhaust_mass_flow(air * KG_H, fuel, recirculated) / KG_H


def silencer(air: float, temperature: float) -> float:
    """mbar from kg/h and C."""
    return flow.silencer_pressure(air * KG_H, kelvin(temperature)) / MBAR


def outlet(air: float, temperature: float, barometer: float, scale: float) -> float:
    """Absolute Pa behind the filter from kg/h, C, mbar and the silencer's scale (0 to 10)."""
    estimate = flow.silencer_pressure(air * KG_H, kelvin(temperature))
    return flow.outlet_pressure(barometer * MBAR, scale * estimate)


def exhaust_flow(
    dp: float,
    air: float,
    temperature: float,
    barometer: float,
    fuel: float,
    scale: float,
    recirculated: float,
) -> float:
    """m3/h halfway through the filter: air (1 + fuel)/(1 - recirculated) (T + 273)/353 1013/p."""
    behind = outlet(air, temperature, barometer, scale)
    pressure = flow.middle_pressure(behind, dp * MBAR)
    mass = flow.exhaust_mass_flow(air * KG_H, fuel, recirculated)
    return flow.volume_flow(mass, kelvin(temperature), pressure) / M3_H


def barometer_at(altitude: float) -> float:
    """mbar from m."""
    return gas.barometer_at(altitude) / MBAR


QUANTITIES = (
    Quantity(
        "barometer-at-altitude",
        "Usual air pressure at this altitude",
        # Weather: 10 mbar of 1013 is one standard deviation about everywhere.
        by(barometer_at, own=0.01),
        (Input("altitude", "m", "height above the sea"),),
        "mbar",
        "altitude -500 to 5,000 m; the weather adds 1 per cent",
        "ISO 2533:1975, standard atmosphere",
    ),
    Quantity(
        "boost-absolute",
        "Intake pressure, absolute",
        by(lambda gauge, barometer: gauge + barometer),
        (Input("boost-gauge", "mbar", "intake pressure above the barometer"), BAROMETER),
        "mbar",
        "any",
        "definition of gauge pressure",
    ),
    Quantity(
        "air-from-stroke",
        "Air flow from air per stroke",
        by(air_from_stroke),
        (
            Input("air-per-stroke", "mg/stroke", "air per stroke and cylinder"),
            Input("cylinders", "", "number of cylinders"),
            SPEED,
        ),
        "kg/h",
        "four-stroke engine",
        "arithmetic: mg x rpm x cylinders x 3e-5",
    ),
    Quantity(
        "air-by-rule",
        "Air that an engine of this size usually takes in, EGR shut",
        by(air_by_rule, own=flow.RULE_BAND / 2.0),
        (LITRES, SPEED, BOOST),
        "kg/h",
        "0.3 to 20 L, 0 to 6,000 rpm, 300 to 5,000 mbar absolute; EGR shut; within 15 per cent",
        "common practice: 0.03 x litres x rpm x bar absolute",
    ),
    Quantity(
        "air-by-filling",
        "Air from displacement, speed, intake pressure and filling, EGR shut",
        by(air_by_filling),
        (
            LITRES,
            SPEED,
            BOOST,
            Input("intake-temperature", "C", "gas in the intake manifold", Measured(45.0, 15.0)),
            Input("filling", "", "volumetric efficiency at the manifold", Measured(0.88, 0.06)),
        ),
        "kg/h",
        "as air-by-rule; intake -43 to 177 C, filling 0.4 to 1.2; the filling is from memory",
        "Heywood, Internal Combustion Engine Fundamentals, eq. 2.27 (speed and density)",
    ),
    Quantity(
        "air-ratio-to-rule",
        "Air read, as a multiple of what an engine of this size usually takes in",
        by(air_ratio, own=flow.RULE_BAND / 2.0),
        (AIR, LITRES, SPEED, BOOST),
        "",
        "EGR shut; 1 within 15 per cent on a sound engine and a true air meter",
        "common practice: 0.03 x litres x rpm x bar absolute",
    ),
    Quantity(
        "exhaust-mass-flow",
        "Mass flow through the filter",
        by(mass_flow),
        (AIR, FUEL, RECIRCULATED),
        "kg/h",
        "air 0 to 3,600 kg/h, fuel 0 to 0.07 per air, recirculated 0 to 0.6",
        "conservation of mass",
    ),
    Quantity(
        "silencer-pressure",
        "Usual back pressure behind the filter",
        by(silencer, own=0.5),
        (AIR, TEMPERATURE),
        "mbar",
        "air 0 to 3,600 kg/h; one 2.0 L car, half of it either way",
        "common practice: 15 x (air/150)^2 x T/473",
    ),
    Quantity(
        "exhaust-flow",
        "Volume flow through the filter",
        by(exhaust_flow),
        (DP, *RUNNING),
        "m3/h",
        RUNNING_VALIDITY,
        "ideal gas at barometer + silencer + dp/2; K2000, SAE 2000-01-1016",
    ),
)
