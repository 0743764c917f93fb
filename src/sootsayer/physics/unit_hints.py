"""What to do about a unit that looks right and is another thing.

Absolute and gauge pressure, position and duty, volts and per cents of unknown meaning are
different signals, not units: no factor turns one into the other.
"""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say
from sootsayer.physics.unit_spellings import KIND_OF_PRESSURE, POSITION_OR_DUTY, SHARE_OF

_KINDS = (
    (
        KIND_OF_PRESSURE,
        "absolute and gauge pressure are different signals, not units: choose the signal that "
        "was read, and write {unit}",
    ),
    (
        POSITION_OR_DUTY,
        "position and duty are different signals, not units: choose the signal that was read, "
        "and write {unit}",
    ),
    (
        SHARE_OF,
        "a per cent is of one thing only: choose the signal that was read, and write {unit}",
    ),
)
_STROKES = "write it in {to_unit}; mg/stroke needs the speed and the number of cylinders"
_VOLTS = (
    "the volts of a sensor are a signal of their own: enter them there, or write what was read "
    "in {to_unit}"
)
_PER_CENT = (
    "a per cent whose 100 is not known is no {to_unit}: enter it under a signal in per cent, or "
    "read it in {to_unit}"
)
_PER_CENT_OF_NO_UNIT = (
    "a per cent whose 100 is not known is no count: enter it under a signal in per cent, or "
    "read it in full"
)
_PER_LITRE = "write it in {to_unit}; per litre needs `filter litres` in the header of the case"


def other_kind(spelling: str) -> tuple[str, Said] | None:
    """The bare unit in a spelling that also names a kind of signal, and what to do; else None."""
    for pattern, instead in _KINDS:
        match = re.fullmatch(pattern, spelling, re.IGNORECASE)
        if match:
            unit = match["unit"]
            return unit, say(instead, unit=unit)
    return None


def unlike(from_unit: str, to_unit: str) -> Said | None:
    """What to do about a reading in `from_unit` where `to_unit` is wanted; None for the usual."""
    units = (from_unit, to_unit)
    if "mg/stroke" in units:
        return say(_STROKES, to_unit=to_unit)
    if "V" in units and from_unit:
        return say(_VOLTS, to_unit=to_unit)
    if from_unit == "%":
        return say(_PER_CENT, to_unit=to_unit) if to_unit else say(_PER_CENT_OF_NO_UNIT)
    if set(units) in ({"g", "g/L"}, {"mg", "g/L"}, {"kg", "g/L"}):
        return say(_PER_LITRE, to_unit=to_unit)
    return None
