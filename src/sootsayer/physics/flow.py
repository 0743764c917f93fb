"""Exhaust flow: from the air that the engine takes in to the volume that crosses the filter."""

from __future__ import annotations

from sootsayer.physics.gas import ATMOSPHERE, air_density
from sootsayer.physics.ranges import ZERO_CELSIUS, within

HOUR = 3600.0
RULE_FACTOR = 0.03
"""kg/h of air per litre, rpm and bar absolute: the rule of thumb (common practice, +-15 %)."""
RULE_BAND = 0.15
"""Two standard deviations of the rule, as a share."""


def exhaust_mass_flow(air: float, fuel: float = 0.0, recirculated: float = 0.0) -> float:
    """Mass flow in kg/s through the filter: conservation of mass.

    `air` kg/s fresh air (0 to 1); `fuel` = 1/air-fuel ratio (0 to 0.07): 0.01-0.02 idle and
    unloaded, 0.03-0.04 part load, 0.05-0.06 full load; `recirculated` the share (0 to 0.6) of the
    gas behind the filter that is led back before the engine: the filter then sees
    air (1 + fuel)/(1 - share). High-pressure recirculation never reaches the filter: 0.
    Raises ValueError outside the ranges.
    """
    within("air flow", air, 0.0, 1.0, "kg/s")
    within("fuel per air", fuel, 0.0, 0.07)
    within("recirculated share", recirculated, 0.0, 0.6)
    return air * (1.0 + fuel) / (1.0 - recirculated)


def volume_flow(mass_flow: float, temperature: float, pressure: float = ATMOSPHERE) -> float:
    """m3/s of `mass_flow` kg/s (0 to 3) at `temperature` K and absolute `pressure` Pa (ranges of
    `air_density`): conservation of mass. Raises ValueError outside the ranges."""
    within("mass flow", mass_flow, 0.0, 3.0, "kg/s")
    return mass_flow / air_density(temperature, pressure)


def air_by_rule(displacement: float, speed: float, boost: float) -> float:
    """Air in kg/s of a four-stroke diesel, EGR shut, by the rule of thumb: kg/h = 0.03 x litres
    x rpm x bar. Common practice, within 15 per cent; it means a filling of about 0.9 at 40 C.

    `displacement` L (0.3 to 20), `speed` rpm (0 to 6,000), `boost` absolute pressure in the
    intake, Pa (30,000 to 500,000). Raises ValueError outside the ranges.
    """
    _engine(displacement, speed, boost)
    return RULE_FACTOR * displacement * speed * (boost / 1e5) / HOUR


def air_by_filling(
    displacement: float, speed: float, boost: float, intake: float, filling: float
) -> float:
    """Air in kg/s by speed and density (Heywood, Internal Combustion Engine Fundamentals, eq.
    2.27): filling x density x displacement x speed/2, a four-stroke engine, EGR shut.

    As `air_by_rule`; `intake` K (230 to 450) and `filling` (volumetric efficiency, 0.4 to 1.2)
    refer to the gas in the intake manifold. Raises ValueError outside the ranges.
    """
    _engine(displacement, speed, boost)
    within("intake temperature", intake, 230.0, 450.0, "K")
    within("filling", filling, 0.4, 1.2)
    per_second = speed / 60.0 / 2.0
    return filling * air_density(intake, boost) * displacement * 1e-3 * per_second


def _engine(displacement: float, speed: float, boost: float) -> None:
    within("displacement", displacement, 0.3, 20.0, "L")
    within("engine speed", speed, 0.0, 6000.0, "rpm")
    within("absolute intake pressure", boost, 30_000.0, 500_000.0, "Pa")


def silencer_pressure(air: float, temperature: float) -> float:
    """Pressure in Pa above the barometer behind the filter, where nobody measured it:
    15 mbar x (air/150 kg/h)^2 x T/473 K. Common practice for one 2.0 L car, soft (half of it
    either way); the form is that of a turbulent pipe. `air` kg/s (0 to 1), `temperature` K (200
    to 1,300). Raises ValueError outside the ranges."""
    within("air flow", air, 0.0, 1.0, "kg/s")
    within("gas temperature", temperature, 200.0, 1300.0, "K")
    return 1500.0 * (air * HOUR / 150.0) ** 2 * temperature / (ZERO_CELSIUS + 200.0)


def outlet_pressure(barometer: float, silencer: float) -> float:
    """Absolute pressure in Pa behind the filter: `barometer` (50,000 to 110,000) + back pressure
    of the `silencer` (0 to 100,000), both Pa. Raises ValueError outside the ranges."""
    within("barometer", barometer, 50_000.0, 110_000.0, "Pa")
    within("silencer back pressure", silencer, 0.0, 100_000.0, "Pa")
    return barometer + silencer


def middle_pressure(outlet: float, drop: float) -> float:
    """Absolute pressure in Pa halfway through the filter: `outlet` behind it (50,000 to 210,000)
    + half the `drop` across it (-20,000 to 200,000), Pa. Raises ValueError outside the ranges."""
    within("pressure behind the filter", outlet, 50_000.0, 210_000.0, "Pa")
    within("pressure drop", drop, -20_000.0, 200_000.0, "Pa")
    return outlet + drop / 2.0
