"""Fuel in the engine oil, from what it did to the viscosity.

Two laws of mixing bracket the published dilution charts: log-linear (Arrhenius) gives more fuel,
the double logarithm of ASTM D341 less. Mass or volume is not distinguished.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from sootsayer.physics.ranges import within

FUEL_VISCOSITY = 3.0
"""cSt (mm2/s) of diesel fuel at 40 C."""


def _double_log(viscosity: float) -> float:
    return math.log10(math.log10(viscosity + 0.7))


def dilution_log_linear(new: float, used: float, fuel: float = FUEL_VISCOSITY) -> float:
    """Share of fuel by ln v: (ln new - ln used)/(ln new - ln fuel), mostly the higher answer.

    `new`, `used`, `fuel` kinematic viscosities in cSt at one temperature (40 C): `new` 5 to
    1,000, `fuel` 1 to 4.9, `used` between. An oil that has thickened gives a negative share down
    to -1. Raises ValueError outside the ranges.
    """
    return _dilution(math.log, new, used, fuel)


def dilution_double_log(new: float, used: float, fuel: float = FUEL_VISCOSITY) -> float:
    """Share of fuel by lg lg(v + 0.7), the scale of ASTM D341. Arguments as
    `dilution_log_linear`."""
    return _dilution(_double_log, new, used, fuel)


def _dilution(scale: Callable[[float], float], new: float, used: float, fuel: float) -> float:
    within("viscosity of new oil", new, 5.0, 1000.0, "cSt")
    within("viscosity of fuel", fuel, 1.0, 4.9, "cSt")
    within("viscosity of used oil", used, fuel, 10_000.0, "cSt")
    share = (scale(new) - scale(used)) / (scale(new) - scale(fuel))
    return within("share of fuel", share, -1.0, 1.0)
