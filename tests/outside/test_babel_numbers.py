"""Numbers and days against the Unicode CLDR, as Babel reads it."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

import pytest
from babel.dates import format_date, format_time
from babel.numbers import format_decimal, format_percent, get_decimal_symbol, get_group_symbol
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.catalogue_conventions import CONVENTIONS, NO_BREAK, day, moment, numeral

NARROW = "\u202f"  # what CLDR parts French thousands with; see `catalogue_conventions`
LANGUAGES = sorted(CONVENTIONS)
NUMBERS = st.decimals(-(10**9), 10**9, allow_nan=False, places=4)
MOMENTS = st.datetimes(datetime(1970, 1, 1), datetime(2200, 1, 1))


def shortest(number: Decimal) -> str:
    """A number as programs write it, without zeros at its end."""
    text = format(number.normalize(), "f")
    return "0" if text == "-0" else text


@pytest.mark.parametrize("language", LANGUAGES)
def test_symbols(language: str) -> None:
    """The decimal mark and the mark between thousands are those of CLDR."""
    how = CONVENTIONS[language]
    assert how.decimal == get_decimal_symbol(language)
    assert how.group == get_group_symbol(language).replace(NARROW, NO_BREAK)


@settings(max_examples=300)
@given(st.sampled_from(LANGUAGES), NUMBERS)
def test_numbers(language: str, number: Decimal) -> None:
    """Any number with its thousands apart is what CLDR makes of it."""
    text = shortest(number)
    said = numeral(text, CONVENTIONS[language], grouped=True)
    theirs = format_decimal(Decimal(text), format="#,##0.####", locale=language)
    assert said == theirs.replace(NARROW, NO_BREAK)


@settings(max_examples=100)
@given(NUMBERS)
def test_numbers_whose_thousands_are_not_apart(number: Decimal) -> None:
    """Numbers of English pages that are no money have no mark between thousands."""
    text = shortest(number)
    theirs = format_decimal(Decimal(text), format="0.####", locale="en")
    assert numeral(text, CONVENTIONS["en"]) == theirs


@settings(max_examples=200)
@given(MOMENTS)
def test_days_and_times(when: datetime) -> None:
    """A French day and time is that of CLDR, in short; an English one is the ISO day."""
    french = CONVENTIONS["fr"]
    assert day(when, french) == format_date(when, "short", locale="fr")
    clock = format_time(when, "short", locale="fr")
    assert moment(when, french) == f"{format_date(when, 'short', locale='fr')} {clock}"
    assert day(when, CONVENTIONS["en"]) == format_date(when, "yyyy-MM-dd", locale="en")


@settings(max_examples=100)
@given(st.integers(0, 100))
def test_french_per_cents_have_a_no_break_space(share: int) -> None:
    """As in the French words of the program: the number, a space that holds it, the sign."""
    assert format_percent(share / 100, locale="fr").replace(NARROW, NO_BREAK) == (
        f"{share}{NO_BREAK}%"
    )
