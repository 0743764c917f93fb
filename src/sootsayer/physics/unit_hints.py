"""What to do about a unit that looks right and is another thing.

Absolute and gauge pressure, position and duty, volts and per cents of unknown meaning are
different signals, not units: no factor turns one into the other.
"""

from __future__ import annotations

import re

_PRESSURE = r"(?:m?bar|hpa|kpa|psi|inh2o)"
_KINDS = (
    # psia, bar abs, mbar (a), kPa absolute; psig, bar g, mbar gauge
    (
        rf"(?P<unit>{_PRESSURE})\s*\(?\s*(?:a|abs|absolute|g|ga|gauge|rel|relative)\.?\)?",
        "absolute and gauge pressure are different signals, not units: choose the signal that "
        "was read, and write {unit}",
    ),
    (
        r"(?P<unit>%)\s*\(?\s*(?:duty|pos|position|open|pwm|dc)\.?\)?",
        "position and duty are different signals, not units: choose the signal that was read, "
        "and write {unit}",
    ),
    (
        r"(?P<unit>%)\s*(?:of\s+.*|soot|full|load(?:ing)?)",
        "a per cent is of one thing only: choose the signal that was read, and write {unit}",
    ),
)


def other_kind(spelling: str) -> tuple[str, str] | None:
    """The bare unit in a spelling that also names a kind of signal, and what to do; else None."""
    for pattern, instead in _KINDS:
        match = re.fullmatch(pattern, spelling, re.IGNORECASE)
        if match:
            unit = match["unit"]
            return unit, instead.format(unit=unit)
    return None


def unlike(from_unit: str, to_unit: str) -> str:
    """What to do about a reading in `from_unit` where `to_unit` is wanted; "" for the usual."""
    units = (from_unit, to_unit)
    if "mg/stroke" in units:
        return f"write it in {to_unit}; mg/stroke needs the speed and the number of cylinders"
    if "V" in units and from_unit:
        return (
            "the volts of a sensor are a signal of their own: enter them there, or write what "
            f"was read in {to_unit}"
        )
    if from_unit == "%":
        return (
            f"a per cent whose 100 is not known is no {to_unit or 'count'}: enter it under a "
            f"signal in per cent, or read it in {to_unit or 'full'}"
        )
    if set(units) in ({"g", "g/L"}, {"mg", "g/L"}, {"kg", "g/L"}):
        return f"write it in {to_unit}; per litre needs `filter litres` in the header of the case"
    return ""
