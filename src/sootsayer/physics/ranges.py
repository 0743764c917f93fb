"""Refusing numbers that a formula does not hold for."""

from __future__ import annotations

import math

ZERO_CELSIUS = 273.15
"""K at 0 C, exact by definition (BIPM, SI Brochure, 9th edition, 2.3.1)."""


def within(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value`, if it is finite and low <= value <= high.

    Raises ValueError that names what was wrong, the value and the range.
    """
    if not math.isfinite(value) or not low <= value <= high:
        tail = f" {unit}" if unit else ""
        raise ValueError(f"{name} is {value:g}{tail}, outside {low:g} to {high:g}{tail}")
    return value


def above(name: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value`, if it is finite and low < value <= high. Raises ValueError as `within`."""
    if not math.isfinite(value) or not low < value <= high:
        tail = f" {unit}" if unit else ""
        raise ValueError(f"{name} is {value:g}{tail}, not above {low:g} up to {high:g}{tail}")
    return value
