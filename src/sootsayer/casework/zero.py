"""The zero of an instrument, removed once."""

from __future__ import annotations

import math
from dataclasses import replace

from sootsayer.casework.model import Fact


def without_zero(fact: Fact, zero: Fact) -> Fact:
    """The reading less what the same instrument showed of the same signal with nothing to show.

    `fact` and `zero` in the signal's unit; their errors add in quadrature. A fact of another
    signal, or that is no number, stays as it is.
    """
    same = fact.slot.partition("@")[0] == zero.slot.partition("@")[0]
    if not same or not isinstance(fact.value, float) or not isinstance(zero.value, float):
        return fact
    return replace(fact, value=fact.value - zero.value, sd=math.hypot(fact.sd, zero.sd))
