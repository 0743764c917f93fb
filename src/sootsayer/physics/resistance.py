"""Resistance: a pressure drop brought to its flow and to one viscosity.

Darcy's law makes the drop of a wall-flow filter proportional to viscosity x volume flow (K2000
eq. 1; KONA 26 (2008) 36-65, eq. 8, first term), so drop/flow brought to one viscosity is a
property of the filter and its load, whatever the engine did while it was read. Where a share of
the drop grows with density x flow squared (inlet and outlet losses, plugged faces), the share is
stated and each part is brought over by its own law.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sootsayer.physics.flow import middle_pressure, volume_flow
from sootsayer.physics.gas import air_density, air_viscosity, viscosity_ratio
from sootsayer.physics.ranges import above, within

LEAST = 1e-6
"""The least flow, m3/s or kg/s, that anything is divided by; an idling engine has 1e-2."""


def resistance(drop: float, flow: float, temperature: float) -> float:
    """drop/flow brought to the viscosity at 200 C, in Pa s/m3.

    `drop` Pa with its zero removed (-20,000 to 200,000), `flow` m3/s (1e-6 to 5) at the
    filter's own temperature and pressure, `temperature` K before the filter. Raises ValueError
    outside the ranges. Sensible on a dry filter above 120 C.
    """
    within("pressure drop", drop, -20_000.0, 200_000.0, "Pa")
    within("exhaust flow", flow, LEAST, 5.0, "m3/s")
    return drop / flow / viscosity_ratio(temperature)


def viscous_flow(flow: float, temperature: float) -> float:
    """Flow x viscosity over that at 200 C, m3/s: what a drop without square part is linear in."""
    within("exhaust flow", flow, 0.0, 5.0, "m3/s")
    return flow * viscosity_ratio(temperature)


def implied_zero(low: float, low_flow: float, high: float, high_flow: float) -> float:
    """The reading in Pa that would remain without flow: the straight line through two points.

    `low`, `high` Pa as shown, `low_flow` < `high_flow` m3/s as `viscous_flow` gives them. An
    orifice makes it negative, a false zero makes it that zero. Raises ValueError where the flows
    differ by less than a fifth.
    """
    above("higher flow", high_flow, 1.2 * low_flow, 5.0, "m3/s")
    return (low * high_flow - high * low_flow) / (high_flow - low_flow)


@dataclass(frozen=True, slots=True)
class Running:
    """What the engine does while a drop is read or foretold.

    `mass_flow` kg/s through the filter, `temperature` K before it, `outlet` absolute pressure Pa
    behind it (barometer and silencer).
    """

    mass_flow: float
    temperature: float
    outlet: float

    def flow(self, drop: float) -> float:
        """m3/s halfway through the filter when `drop` Pa lie across it."""
        pressure = middle_pressure(self.outlet, drop)
        return volume_flow(self.mass_flow, self.temperature, pressure)


@dataclass(frozen=True, slots=True)
class Coefficients:
    """dP = A mu Q + B rho Q^2: `linear` A in 1/m3, `square` B in 1/m4."""

    linear: float
    square: float


def coefficients(drop: float, at: Running, square_share: float = 0.0) -> Coefficients:
    """A and B of a filter that shows `drop` Pa at `at`, `square_share` (0 to 1) of it by the
    square law. Raises ValueError outside the ranges or without flow."""
    within("square share", square_share, 0.0, 1.0)
    within("mass flow", at.mass_flow, LEAST, 3.0, "kg/s")
    flow = at.flow(drop)
    density = air_density(at.temperature, middle_pressure(at.outlet, drop))
    return Coefficients(
        (1.0 - square_share) * drop / (air_viscosity(at.temperature) * flow),
        square_share * drop / (density * flow**2),
    )


def drop_at(filter_: Coefficients, at: Running) -> float:
    """The drop in Pa of a filter with these coefficients at `at`.

    The drop itself raises the pressure that the flow has, so this solves
    d (p + d/2) = c, c = (A mu Q + B rho Q^2) p, exactly: both parts fall as 1/pressure.
    Raises ValueError where no such drop exists or it leaves the range of `middle_pressure`.
    """
    flow = at.flow(0.0)
    density = air_density(at.temperature, at.outlet)
    bare = filter_.linear * air_viscosity(at.temperature) * flow
    bare += filter_.square * density * flow**2
    inside = at.outlet**2 + 2.0 * bare * at.outlet
    if inside < 0:
        raise ValueError(f"no pressure drop solves this flow: {bare:g} Pa below zero")
    drop = math.sqrt(inside) - at.outlet
    middle_pressure(at.outlet, drop)
    return drop


def square_share(filter_: Coefficients, at: Running) -> float:
    """The share (0 to 1) of the drop at `at` that grows with the square of the flow; 0 of 0."""
    drop = drop_at(filter_, at)
    flow = at.flow(drop)
    density = air_density(at.temperature, middle_pressure(at.outlet, drop))
    square = filter_.square * density * flow**2
    return square / drop if drop else 0.0


def bring(drop: float, seen: Running, wanted: Running, share: float = 0.0) -> float:
    """A reading of `drop` Pa at `seen` as it would be at `wanted`, Pa; `share` of it by the
    square law at `seen` (0 unless known). Bringing it back with the share that it then has
    (`square_share`) returns the reading. Raises ValueError as its parts."""
    return drop_at(coefficients(drop, seen, share), wanted)


def square_share_of_two(
    low: float,
    low_flow: float,
    low_temperature: float,
    high: float,
    high_flow: float,
    high_temperature: float,
) -> float:
    """The share of the drop at the higher flow that grows with its square, from two readings.

    `low`, `high` Pa, zero removed, `high` above 0; `low_flow` (from 1e-6) and `high_flow` (at least
    a fifth more) m3/s; temperatures in K. Solves dP = A mu Q + B rho Q^2 for both, rho at one
    pressure, which is within some per cent. Noise or a false zero can put it outside 0 to 1.
    Raises ValueError outside the ranges.
    """
    within("lower flow", low_flow, LEAST, 5.0, "m3/s")
    above("higher flow", high_flow, 1.2 * low_flow, 5.0, "m3/s")
    above("higher pressure drop", high, 0.0, 200_000.0, "Pa")
    times_linear = viscous_flow(high_flow, high_temperature) / viscous_flow(
        low_flow, low_temperature
    )
    times_square = air_density(high_temperature) * high_flow**2
    times_square /= air_density(low_temperature) * low_flow**2
    apart = times_square - times_linear
    above("growth of the square part over the linear", apart, 0.05 * times_linear, 1e9)
    square_at_low = (high - times_linear * low) / apart
    return times_square * square_at_low / high
