"""Units and typed numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.physics.units import (
    UNITS,
    NumberRefused,
    UnitError,
    UnknownUnit,
    WrongDimension,
    convert,
    convert_air,
    convert_difference,
    parse_number,
    read_number,
    unit_name,
)

PAIRS = [
    (a, b) for a in UNITS for b in UNITS if UNITS[a].dimension == UNITS[b].dimension and a != b
]


@pytest.mark.parametrize(
    ("value", "source", "target", "expected"),
    [
        # NIST Special Publication 811 (2008), appendix B.8, as printed (seven figures).
        (1, "psi", "Pa", 6894.757),
        (1, "inH2O", "Pa", 249.0889),
        (1, "cmH2O", "Pa", 98.0665),
        (1, "lb/min", "kg/h", 0.007559873 * 3600),
        (1, "mi", "m", 1609.344),
        (32, "F", "C", 0),
        (212, "F", "C", 100),
        (0, "C", "K", 273.15),
        # trade-known round numbers: 1 psi = 69 mbar, g/s x 3.6 = kg/h (common arithmetic)
        (1, "psi", "mbar", 68.94757),
        (10, "g/s", "kg/h", 36),
        (900, "psi", "mbar", 62052.81),
        (1, "kPa", "mbar", 10),
        (1, "bar", "hPa", 1000),
    ],
)
def test_published_factors(value: float, source: str, target: str, expected: float) -> None:
    """A conversion agrees with the published factor to its printed figures."""
    assert convert(value, source, target) == pytest.approx(expected, rel=2e-7, abs=1e-12)


def test_there_are_pairs() -> None:
    """The round trip below has something to go round."""
    assert len(PAIRS) > 60


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6))
@settings(deadline=None)
def test_round_trip(pair: tuple[str, str], value: float) -> None:
    """There and back is the same number to the last few bits."""
    there = convert(value, *pair)
    # an absolute error is left where a zero is shifted (C, F, K)
    assert convert(there, pair[1], pair[0]) == pytest.approx(value, rel=1e-12, abs=1e-12 * 500)


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
@settings(deadline=None)
def test_differences(pair: tuple[str, str], a: float, b: float) -> None:
    """The difference of two converted values is the converted difference."""
    straight = convert_difference(a - b, *pair)
    scale = max(abs(convert(a, *pair)), abs(convert(b, *pair)), 1.0)
    assert convert(a, *pair) - convert(b, *pair) == pytest.approx(straight, abs=1e-9 * scale)


def test_exact_decimals_stay_exact() -> None:
    """A decimal shift adds no noise of its own."""
    assert convert(0.9, "kPa", "mbar") == 9.0
    assert convert(18, "hPa", "mbar") == 18.0
    assert convert_difference(9, "F", "C") == 5.0


def test_air_from_strokes() -> None:
    """450 mg per stroke, four cylinders, 2,500 rpm are 135 kg/h (common arithmetic)."""
    assert convert_air(450, 4, 2500) == pytest.approx(135.0)
    with pytest.raises(NumberRefused):
        convert_air(math.nan, 4, 2500)


def test_unlike_dimensions() -> None:
    """Unlike things are never turned into each other, and a stroke needs its context."""
    with pytest.raises(WrongDimension):
        convert(1, "mbar", "kg/h")
    with pytest.raises(WrongDimension):
        convert(1, "%", "g")
    with pytest.raises(WrongDimension):
        convert(1, "", "mbar")
    with pytest.raises(WrongDimension) as caught:
        convert(1, "mg/stroke", "kg/h")
    assert "cylinders" in caught.value.instead


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_reading(value: float) -> None:
    """What is not finite is no reading, even in its own unit."""
    with pytest.raises(NumberRefused):
        convert(value, "mbar", "mbar")


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("°C", "C"), ("degC", "C"), ("deg C", "C"), ("MBAR", "mbar"), ("Kpa", "kPa"),
        ("mg/st", "mg/stroke"), ("mg/stroke", "mg/stroke"), ("l", "L"), ("in  H2O", "inH2O"),
        ("PSI", "psi"), ("RPM", "rpm"), ("none", ""), ("", ""),
    ],
)  # fmt: skip
def test_spellings(text: str, unit: str) -> None:
    """Units are known as people spell them."""
    assert unit_name(text) == unit


@pytest.mark.parametrize("text", ["M", "k", "bar abs", "psia", "MG", "mPa", "°", "500", "\x1b[2J"])
def test_unknown_units(text: str) -> None:
    """A short name in the wrong case, absolute pressure and rubbish are no units."""
    with pytest.raises(UnknownUnit):
        unit_name(text)


def test_near_units() -> None:
    """A slip is answered with the nearest unit."""
    with pytest.raises(UnknownUnit) as caught:
        unit_name("mbra")
    assert caught.value.near == "mbar"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("24", (24.0, None)), ("18 hPa", (18.0, "hPa")), ("0,9 psi", (0.9, "psi")),
        ("0.4psi", (0.4, "psi")), ("-3", (-3.0, None)), ("−3 °C", (-3.0, "C")),
        ("+5", (5.0, None)), (".5 bar", (0.5, "bar")), (" 55 % ", (55.0, "%")),
        ("0,125 bar", (0.125, "bar")), ("1234,567", (1234.567, None)), ("1.500", (1.5, None)),
        ("007", (7.0, None)), ("450 mg/st", (450.0, "mg/stroke")), ("-0", (0.0, None)),
    ],
)  # fmt: skip
def test_numbers(text: str, expected: tuple[float, str | None]) -> None:
    """Numbers are read as people type them, with point or comma."""
    assert parse_number(text) == expected
    assert math.copysign(1, parse_number("-0")[0]) == 1


@pytest.mark.parametrize(
    "text",
    [
        "", "  ", "nan", "NaN", "inf", "-inf", "1e5", "1e400", "1.500,3", "1,500.3", "1,500",
        "1 500", "1'500", "1..5", "5.", "5,", "--5", "- 5", ".", ",", "-", "9" * 13, "9" * 400,
        "0." + "1" * 13,
        "١٢", "²", "twelve", "1,5,5", "0x10", "1_000",
    ],
)  # fmt: skip
def test_refused_numbers(text: str) -> None:
    """What is no number, or two, is refused."""
    with pytest.raises(UnitError):
        parse_number(text)


def test_thousands_are_not_guessed() -> None:
    """A comma before three digits is refused with both readings."""
    with pytest.raises(NumberRefused) as caught:
        parse_number("1,500")
    assert caught.value.instead == "write 1500 or 1.5"


@pytest.mark.parametrize(
    ("text", "step"), [("18", 1.0), ("2 kPa", 1.0), ("0.9", 0.1), ("0,90", 0.01), ("100", 1.0)]
)
def test_step_as_typed(text: str, step: float) -> None:
    """The last digit written is the step of the number."""
    assert read_number(text).step == step


@given(st.text(max_size=80))
@settings(deadline=None)
def test_any_text(text: str) -> None:
    """Any text is a finite number or refused with what to do, and nothing else."""
    try:
        value, unit = parse_number(text)
    except UnitError as error:
        refusal = error
    else:
        assert math.isfinite(value)
        assert unit is None or unit in UNITS
        return
    assert refusal.instead
