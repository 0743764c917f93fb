"""Numbers as they are typed at a prompt."""

from __future__ import annotations

import pytest

from sootsayer.physics.typed_numbers import read_typed, ungrouped
from sootsayer.physics.units import NumberRefused, TwoWays, UnitError


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("0,9", 0.9, None),
        ("0.9 kPa", 0.9, "kPa"),
        ("1 500", 1500, None),
        ("1\u00a0500 tr/min", 1500, "rpm"),
        ("1\u202f500,5 mbar", 1500.5, "mbar"),
        ("12 345 678", 12345678, None),
        ("1,500,000 km", 1500000, "km"),
        ("-1 500", -1500, None),
        ("1.500", 1.5, None),
        ("1500,250", 1500.25, None),
        ("2 500 1/min", 2500, "rpm"),
        ("0,5 1/m", 0.5, "1/m"),
        ("480 mg/coup", 480, "mg/stroke"),
        ("0,3 L/1000 km", 0.3, "L/1000km"),
        ("45 pour cent", 45, "%"),
    ],
)
def test_understood(typed: str, value: float, unit: str | None) -> None:
    """Either decimal mark, thousands apart by any blank, units in both languages."""
    read = read_typed(typed)
    assert read.value == pytest.approx(value)
    assert read.unit == unit


@pytest.mark.parametrize("typed", ["1,500", "-1,500 mbar", "12,500 km", "999,999"])
def test_asked(typed: str) -> None:
    """One comma before exactly three digits may be a decimal mark or part thousands."""
    with pytest.raises(TwoWays) as asked:
        read_typed(typed)
    many, few = (float(each) for each in asked.value.readings)
    assert many == pytest.approx(1000 * few)
    assert all(str(each) in asked.value.instead for each in asked.value.readings)


@pytest.mark.parametrize(
    "typed",
    ["1 50", "1 5000", "0 500", "1500 120", "01 500", "1 500 12", "1,5,000", "1.500.000", "1,500.5",
     "1 500 000,5,5", "1'500"],
)  # fmt: skip
def test_never_guessed(typed: str) -> None:
    """What is no number parted as numbers are is refused, not put together."""
    with pytest.raises(NumberRefused):
        read_typed(typed)


def test_a_file_has_no_thousands_apart() -> None:
    """What is read of a file is stricter: there a number has no blank in it."""
    from sootsayer.physics.units import read_number

    for typed in ("1 500", "1\u00a0500", "1,500,000"):
        with pytest.raises(UnitError):
            read_number(typed)


def test_only_numbers_are_put_together() -> None:
    """Words, points and what stands beside each other for other reasons stay."""
    assert ungrouped("dp@idle 24 at 2 500") == "dp@idle 24 at 2500"
    assert ungrouped("P2463 P0401 300 km") == "P2463 P0401 300 km"
    assert ungrouped("dp 1500 120") == "dp 1500 120"
