"""The zero of an instrument is removed once, with its own error."""

from __future__ import annotations

import math

import pytest

from sootsayer.casework.facts import fact_sheet
from sootsayer.casework.model import Fact
from sootsayer.casework.zero import without_zero
from tests.casework.small_model import ARRIVAL
from tests.casework.support import MODEL, case_with


def fact(slot: str, value: float) -> Fact:
    case = case_with(ARRIVAL + f"facts: {{{slot}: {value}}}}}")
    return fact_sheet(case, MODEL).by_source[slot][0]


def test_the_zero_comes_off_and_its_error_goes_in() -> None:
    """48 less 18 is 30, and two readings' errors add in quadrature."""
    reading, zero = fact("dp@idle", 48), fact("dp@rest", 18)
    mended = without_zero(reading, zero)
    assert mended.value == 30
    assert mended.sd == pytest.approx(math.hypot(reading.sd, zero.sd))
    assert mended.sd > reading.sd > 0
    assert mended.typed == reading.typed


def test_of_another_signal_nothing_is_taken() -> None:
    """A coolant temperature has no pressure's zero."""
    other = fact("trip-length", 48)
    assert without_zero(other, fact("dp@rest", 18)) == other
