"""Soot over time: fed by the engine, eaten by NO2 (passive) or by oxygen (active).

Bai et al. 2016 (Applied Thermal Engineering 100): dm/dt = s - k m with s the feed and k the rate,
so m(t) = m* + (m0 - m*) exp(-k t) with the balance point m* = s/k. Their constants are of one
17.0 L cordierite filter; another catalyst has others.
"""

from __future__ import annotations

import math

from sootsayer.physics.gas import GAS_CONSTANT
from sootsayer.physics.ranges import above, within

PASSIVE_FACTOR = 4200.0
"""1/s"""
PASSIVE_ENERGY = 45_500.0
"""J/mol"""
PASSIVE_ORDER = 1.13
ACTIVE_FACTOR = 16_000.0
"""1/s"""
ACTIVE_ENERGY = 108_000.0
"""J/mol. The paper prints 408 000, which burns nothing at any of its temperatures; this value
reproduces its own measured runs."""


def passive_rate(temperature: float, no2: float) -> float:
    """Rate k in 1/s of soot oxidation by NO2: 4200 exp(-45500/RT) y^1.13 (Bai et al. 2016).

    `temperature` K (470 to 720; measured at 511 to 673), `no2` mole fraction y (0 to 0.003).
    Raises ValueError outside the ranges.
    """
    within("temperature for passive oxidation", temperature, 470.0, 720.0, "K")
    within("NO2 mole fraction", no2, 0.0, 0.003)
    return PASSIVE_FACTOR * _arrhenius(PASSIVE_ENERGY, temperature) * math.pow(no2, PASSIVE_ORDER)


def active_rate(temperature: float) -> float:
    """Rate k in 1/s of soot burning with oxygen: 16000 exp(-108000/RT) (Bai et al. 2016).

    `temperature` K (650 to 950; measured at 723 to 873), excess oxygen, no fuel-borne additive.
    Raises ValueError outside the range.
    """
    within("temperature for active burning", temperature, 650.0, 950.0, "K")
    return ACTIVE_FACTOR * _arrhenius(ACTIVE_ENERGY, temperature)


def _arrhenius(energy: float, temperature: float) -> float:
    return math.exp(-energy / (GAS_CONSTANT * temperature))


def soot_left(start: float, feed: float, rate: float, time: float) -> float:
    """kg of soot after `time` s, from `start` kg (0 to 1) at `feed` kg/s (0 to 1e-4) and `rate`
    1/s (at least 0; 0 only adds up). Raises ValueError outside the ranges."""
    within("soot at the start", start, 0.0, 1.0, "kg")
    within("soot feed", feed, 0.0, 1e-4, "kg/s")
    within("rate", rate, 0.0, 10.0, "1/s")
    within("time", time, 0.0, 1e7, "s")
    if rate == 0.0:
        return start + feed * time
    return start * math.exp(-rate * time) - feed / rate * math.expm1(-rate * time)


def balance_soot(feed: float, rate: float) -> float:
    """kg at the balance point s/k, where as much burns as comes. Raises ValueError for rate 0."""
    within("soot feed", feed, 0.0, 1e-4, "kg/s")
    above("rate", rate, 0.0, 10.0, "1/s")
    return feed / rate


def per_litre(mass: float, volume: float) -> float:
    """kg/m3, which is g/L, of `mass` kg (0 to 1) on a brick of `volume` m3 (3e-4 to 0.06)."""
    within("mass in the filter", mass, 0.0, 1.0, "kg")
    within("filter volume", volume, 3e-4, 0.06, "m3")
    return mass / volume
