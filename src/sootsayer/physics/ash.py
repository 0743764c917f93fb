"""Ash, which no regeneration removes: by distance or by the oil that was burned.

A. Sappok, Ash Accumulation in Diesel Particulate Filters (DieselNet): about linear in distance.
"""

from __future__ import annotations

from sootsayer.physics.ranges import within


def ash_by_distance(distance: float, per_1000_km: float) -> float:
    """g of ash after `distance` km (0 to 2e6) at `per_1000_km` g per 1,000 km (0 to 20).

    Cars and light vans 0.4 to 1.0 g per 1,000 km (common practice), half as much again or twice
    with a fuel-borne additive. Raises ValueError outside the ranges.
    """
    within("distance", distance, 0.0, 2e6, "km")
    within("ash per 1,000 km", per_1000_km, 0.0, 20.0, "g")
    return distance * per_1000_km / 1000.0


def ash_by_oil(
    distance: float, oil_use: float, sulphated_ash: float, reaching: float, density: float = 0.85
) -> float:
    """g of ash after `distance` km at `oil_use` L per 1,000 km (0 to 5) of oil of `density` kg/L
    (0.8 to 1) with `sulphated_ash` as a mass share (0 to 0.03), of which `reaching` (0 to 1)
    arrives in the filter: 0.2 to 0.7 (Tornehed & Olofsson 2011). Conservation of mass.
    Raises ValueError outside the ranges.
    """
    within("distance", distance, 0.0, 2e6, "km")
    within("oil use", oil_use, 0.0, 5.0, "L/1000 km")
    within("oil density", density, 0.8, 1.0, "kg/L")
    within("sulphated ash", sulphated_ash, 0.0, 0.03)
    within("share of ash that reaches the filter", reaching, 0.0, 1.0)
    burnt = distance / 1000.0 * oil_use * density * 1000.0
    return burnt * sulphated_ash * reaching


def ash_share(ash: float, soot: float) -> float:
    """Share (0 to 1) of a deposit that is ash, from `ash` and `soot` in one unit, both at least 0
    and not both 0."""
    within("ash", ash, 0.0, 1e6)
    within("soot", soot, 0.0, 1e6)
    if ash + soot == 0:
        raise ValueError("no deposit: ash and soot are both 0")
    return ash / (ash + soot)
