"""Numbers, levels and states in words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.catalogue_numbers import number
from sootsayer.console.words import (
    BAR_CELLS,
    CONFIDENCE,
    bar,
    channel_said,
    confidence,
    drive_said,
    gauge,
    per_cent,
    permitted_said,
    value_said,
)
from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.judgement.verdict import ChannelState, DriveOn, Permitted

DOCS = Path(__file__).parents[2] / "docs" / "reading-a-verdict.md"


@given(st.floats(0, 1))
@settings(deadline=None)
def test_word_number_and_bar_agree(probability: float) -> None:
    """Word, number and bar are of one width and never claim certainty."""
    assert len(per_cent(probability)) == 5
    assert len(bar(probability)) == BAR_CELLS
    assert len(gauge(probability)) == 16
    digits = re.search(r"\d+", per_cent(probability))
    assert digits is not None
    assert 1 <= int(digits.group()) <= 99
    assert confidence(probability) in {word for _, word in CONFIDENCE}


def test_word_follows_the_number_shown() -> None:
    """0.9496 reads 95 %, so its word is that of 95 %."""
    assert (per_cent(0.9496), confidence(0.9496)) == ("  95 %"[1:], "almost certain")
    assert confidence(0.944) == "very likely"
    assert per_cent(0.9999) == ">99 %"
    assert per_cent(0.0001) == " <1 %"


def test_scale_in_the_docs_is_the_scale_in_force() -> None:
    """The table of confidence words in the docs is the one in the program, in order."""
    rows = re.findall(r"^\| from (\d+) % \| ([a-z ]+) \|", DOCS.read_text("utf-8"), re.MULTILINE)
    assert [(int(least), word) for least, word in rows] == list(CONFIDENCE)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (18.0, "mbar", "18 mbar"),
        (0.0482, "", "0.0482"),
        (-0.0, "g", "0 g"),
        (3.0, "none", "3"),
        (1e9, None, "1000000000"),
        (True, None, "yes"),
        (False, None, "no"),
        ("gradual", None, "gradual"),
        (NOT_FITTED, "mbar", "not fitted"),
        (None, "mbar", "not known"),
    ],
)
def test_value_is_said_with_its_unit(value: Value, unit: str | None, text: str) -> None:
    """Numbers without trailing zeros or exponents, words as they are."""
    assert value_said(value, unit) == text


def test_number_is_short() -> None:
    """Four decimals at most."""
    assert number(1 / 3) == "0.3333"


def test_every_state_has_words() -> None:
    """No state can come without its words, and `clear` leaves the decision where it belongs."""
    assert all(channel_said(state) for state in ChannelState)
    assert all(drive_said(state) for state in DriveOn)
    assert "the technician decides" in permitted_said(Permitted.CLEAR)
    assert "the technician decides" in drive_said(DriveOn.MAY_BE_DRIVEN)
    assert all(permitted_said(state) for state in Permitted)
