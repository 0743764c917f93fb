"""Conversions against the library pint (https://pint.readthedocs.io), an independent table."""

from __future__ import annotations

from typing import Any

import pint
import pytest

from sootsayer.physics.units import UNITS, convert, convert_air, convert_difference

THEIRS = {
    "mbar": "millibar", "hPa": "hectopascal", "kPa": "kilopascal", "bar": "bar", "psi": "psi",
    # pint's own inch of water is at 39 F; the conventional one is 2.54 conventional centimetres
    "inH2O": "inch_of_water", "cmH2O": "centimeter_H2O", "mmH2O": "millimeter_of_water",
    "inHg": "inch_Hg", "mmHg": "millimeter_Hg", "Pa": "pascal",
    "kg/h": "kilogram / hour", "g/s": "gram / second", "lb/min": "pound / minute",
    "lb/h": "pound / hour",
    "C": "degC", "F": "degF", "K": "kelvin", "mg": "milligram", "g": "gram", "kg": "kilogram",
    "km": "kilometer", "mi": "mile", "m": "meter", "mm": "millimeter",
    "L": "liter", "ml": "milliliter", "s": "second", "min": "minute", "h": "hour",
}  # fmt: skip
PAIRS = [
    (a, b) for a in THEIRS for b in THEIRS if UNITS[a].dimension == UNITS[b].dimension and a != b
]


@pytest.fixture(scope="module")
def registry() -> Any:
    """One registry for all: building one takes a second."""
    registry: Any = pint.UnitRegistry(cache_folder=None)
    registry.define("inch_of_water = 2.54 * centimeter_H2O")
    registry.define("millimeter_of_water = 0.1 * centimeter_H2O")
    return registry


def test_every_unit_with_a_partner_is_compared() -> None:
    """Only units that are alone in their dimension are left out."""
    lone = {
        name
        for name, unit in UNITS.items()
        if sum(other.dimension == unit.dimension for other in UNITS.values()) == 1
    }
    assert set(THEIRS) | lone == set(UNITS)


@pytest.mark.parametrize(("ours", "to"), PAIRS)
def test_same_as_pint(registry: Any, ours: str, to: str) -> None:
    """Each pair of units converts as pint converts it."""
    for value in (-40.0, 0.0, 1.0, 37.5, 62000.0):
        # mercury is tabulated to seven figures by NIST and to more by pint
        rel = 2e-7 if "Hg" in ours + to else 1e-9
        theirs = registry.Quantity(value, THEIRS[ours]).to(THEIRS[to]).magnitude
        assert convert(value, ours, to) == pytest.approx(theirs, rel=rel, abs=1e-9)


def test_differences_same_as_pint(registry: Any) -> None:
    """A difference of temperature has no zero of its own."""
    theirs = registry.Quantity(9.0, "delta_degF").to("delta_degC").magnitude
    assert convert_difference(9, "F", "C") == pytest.approx(theirs)


ALONE = {  # what a unit that is alone in its dimension is in the base of that dimension
    "g/L": ("gram / liter", "kilogram / meter ** 3"),
    "V": ("volt", "volt"),
    "m3/h": ("meter ** 3 / hour", "meter ** 3 / second"),
    "mbar/(m3/h)": ("millibar / (meter ** 3 / hour)", "pascal * second / meter ** 3"),
    "cSt": ("centistokes", "meter ** 2 / second"),
    "1/m": ("1 / meter", "1 / meter"),
}


@pytest.mark.parametrize("ours", sorted(ALONE))
def test_lone_units_are_as_large_as_pints(registry: Any, ours: str) -> None:
    """A unit without a partner is as large as pint says, in the base unit of its dimension."""
    theirs, base = ALONE[ours]
    factor = registry.Quantity(1.0, theirs).to(base).magnitude
    assert float(UNITS[ours].factor) == pytest.approx(factor, rel=1e-9)


def test_air_per_stroke_same_as_pint(registry: Any) -> None:
    """Milligrams per stroke become kilograms an hour as pint multiplies them out."""
    for mg, cylinders, rpm in ((450.0, 4, 2500.0), (380.5, 6, 780.0), (1200.0, 3, 4000.0)):
        strokes = registry.Quantity(rpm / 2 * cylinders, "1 / minute")
        theirs = (registry.Quantity(mg, "milligram") * strokes).to("kilogram / hour").magnitude
        assert convert_air(mg, cylinders, rpm) == pytest.approx(theirs, rel=1e-12)
