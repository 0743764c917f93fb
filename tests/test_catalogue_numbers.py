"""Numbers, days and units as a person reads them, and typed back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sootsayer.catalogue import Said, say_count, speaking
from sootsayer.catalogue_conventions import CONVENTIONS, NO_BREAK, convention, plain
from sootsayer.catalogue_numbers import (
    brief,
    day_of,
    day_said,
    fixed,
    moment_of,
    moment_said,
    number,
    significant,
    unit_said,
    whole,
    with_unit,
)
from sootsayer.console.words import per_cent, typed_said, value_said
from sootsayer.physics.typed_numbers import read_typed
from sootsayer.physics.units import UNITS, TwoWays
from tests.french import FRENCH

LANGUAGES = [*sorted(CONVENTIONS), "fr-CA", "xx"]
NUMBERS = st.floats(-1e9, 1e9, allow_nan=False)
WAYS: list[Callable[[float], Said]] = [
    number, fixed, lambda value: fixed(value, 1), lambda value: fixed(value, 3), whole,
    lambda value: with_unit(number(value), "mbar"), lambda value: with_unit(fixed(value, 2), "rpm"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("value", "english", "french"),
    [
        (0.5, "0.5", "0,5"),
        (-0.00001, "0", "0"),
        (1500, "1500", "1 500"),
        (1234567.25, "1234567.25", "1 234 567,25"),
        (-12345, "-12345", "-12 345"),
        (999.9999, "999.9999", "999,9999"),
    ],
)
def test_numbers_in_two_languages(value: float, english: str, french: str) -> None:
    """English as it always was; French with a comma, and a space that holds thousands."""
    assert number(value) == english == plain(value)
    with speaking("fr", FRENCH):
        assert number(value) == french.replace(" ", NO_BREAK)
        assert plain(value) == english


def test_every_form_of_number() -> None:
    """Decimals that are fixed, figures that are few, thousands that are always apart."""
    assert (fixed(2.5, 2), brief(0.1), significant(12345, 3)) == ("2.50", "0.1", "1.23e+04")
    assert (whole(12345.6), brief(2e6)) == ("12,346", "2e+06")
    with speaking("fr", FRENCH):
        assert (fixed(2.5, 2), brief(0.1), significant(12345, 3)) == ("2,50", "0,1", "1,23e+04")
        assert whole(12345.6) == f"12{NO_BREAK}346"
        assert say_count("{count} case", "{count} cases", count=4500) == f"4{NO_BREAK}500 cases"
    assert say_count("{count} case", "{count} cases", count=4500) == "4500 cases"


def test_a_country_writes_as_its_language() -> None:
    """And a language that is not known here as English does."""
    assert convention("fr-CA") is CONVENTIONS["fr"]
    assert convention("xx") is CONVENTIONS["en"]


def test_days() -> None:
    """Day first in French; ISO in English; what is no day stays as it stands."""
    when = datetime(2031, 6, 2, 9, 5, 7)
    assert (day_said(when), moment_said(when)) == ("2031-06-02", "2031-06-02 09:05")
    assert moment_of("2031-06-02T09:05:07+01:00") == "2031-06-02 09:05"
    with speaking("fr", FRENCH):
        assert (day_said(when), moment_said(when)) == ("02/06/2031", "02/06/2031 09:05")
        assert moment_said(when, seconds=True) == "02/06/2031 09:05:07"
        assert moment_of("2031-06-02T09:05:07+01:00") == "02/06/2031 09:05"
        assert (day_of("2031-06-02T09"), day_of("2031-13-02"), day_of("soon")) == (
            "02/06/2031", "2031-13-02", "soon",
        )  # fmt: skip
        assert day_of("\x1b[2J") == "\\x1b[2J"


def test_units_are_words() -> None:
    """`rpm` is `tr/min`; a symbol is alike everywhere; a currency is none of ours."""
    assert (unit_said("rpm"), unit_said("mbar"), unit_said("EUR")) == ("rpm", "mbar", "EUR")
    with speaking("fr", FRENCH):
        assert (unit_said("rpm"), unit_said("mbar"), unit_said("EUR")) == ("tr/min", "mbar", "EUR")
        assert value_said(2500.0, "rpm") == f"2{NO_BREAK}500{NO_BREAK}tr/min"
        assert with_unit(number(3), "none") == "3"
        assert per_cent(0.5) == f" 50{NO_BREAK}%"


@pytest.mark.parametrize(
    ("typed", "french"),
    [
        ("0.9 kPa", "0,9 kPa"),
        ("0,9 kPa", "0,9 kPa"),
        ("-12", "-12"),
        ("2500 rpm", "2 500 tr/min"),
        ("480 mg/st", "480 mg/coup"),
        ("18hPa", "18 hPa"),
        ("yes", "oui"),
        ("12 elephants", "12 elephants"),
        ("P2463", "P2463"),
        ("3 of 9", "3 of 9"),
    ],
)
def test_what_was_typed(typed: str, french: str) -> None:
    """In English an entry is shown as it was typed; in French its number and unit are French."""
    assert typed_said(typed) == typed
    with speaking("fr", FRENCH):
        assert typed_said(typed).replace(NO_BREAK, " ") == french


WAYS_PLAIN: list[Callable[[float], str]] = [
    plain, lambda value: f"{value:.0f}", lambda value: f"{value:.1f}",
    lambda value: f"{value:.3f}", lambda value: f"{value:.0f}", plain,
    lambda value: f"{value:.2f}",
]  # fmt: skip


@settings(max_examples=300)
@given(st.sampled_from(LANGUAGES), st.sampled_from(range(len(WAYS))), NUMBERS)
@example("en", 4, 1500.0)
@example("fr", 3, 1500.25)
@example("fr", 3, 1.25)
def test_what_is_shown_can_be_typed_back(language: str, way: int, value: float) -> None:
    """Any number shown in a language is the same number when it is typed, or it is asked which."""
    meant = float(WAYS_PLAIN[way](value))
    with speaking(language, FRENCH if language.startswith("fr") else None):
        shown = WAYS[way](value)
        possible = readings(shown)
        assert pytest.approx(meant) in possible
        assert len(possible) == 1 or abs(meant) < 1e6


def readings(shown: str) -> list[float]:
    """What a number may mean when it is typed: one, or the two that are asked."""
    try:
        read = read_typed(shown)
    except TwoWays as asked:
        sign = -1 if shown.startswith("-") else 1
        return [sign * float(each) for each in asked.readings]
    assert read.unit in {None, "mbar", "rpm"}
    return [read.value]


@given(st.sampled_from(sorted(UNITS)), NUMBERS)
def test_every_unit_shown_is_understood(unit: str, value: float) -> None:
    """Whatever a unit is called on the screen, it is that unit when it is typed."""
    with speaking("fr", FRENCH):
        assert read_typed(with_unit(number(value), unit)).unit == unit


@pytest.mark.parametrize(
    ("language", "value", "said"),
    [("en", 1.0, "1 day"), ("en", 0.0, "0 days"), ("en", 1.5, "1.5 days"), ("en", 14.0, "14 days"),
     ("fr", 1.0, f"1{NO_BREAK}jour"), ("fr", 0.0, f"0{NO_BREAK}jour"),
     ("fr", 1.5, f"1,5{NO_BREAK}jour"), ("fr", 1400.0, f"1{NO_BREAK}400{NO_BREAK}jours")],
)  # fmt: skip
def test_a_unit_that_is_a_word_has_its_plural(language: str, value: float, said: str) -> None:
    """By the plural rules of the Unicode CLDR (cardinals; from memory): French has one for 0 and
    for all below 2, English for 1 alone."""
    with speaking(language):
        assert with_unit(number(value), "days") == said
