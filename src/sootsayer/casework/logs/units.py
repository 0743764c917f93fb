"""Units as they stand in the heads of logs, in three languages; our own names for them.

Beside the units of physics there are the speed of a vehicle, which no rule reads, and the ways
to write time. "" is no unit, None is text that is none.
"""

from __future__ import annotations

from sootsayer.physics.units import UNITS, convert, known_unit

_MORE = {
    "u/min": "rpm",
    "1/min": "rpm",
    "min-1": "rpm",
    "min^-1": "rpm",
    "tr/min": "rpm",
    "t/min": "rpm",
    "umin": "rpm",
    "mg/hub": "mg/stroke",
    "mg/h": "mg/stroke",
    "mg/coup": "mg/stroke",
    "mg/cp": "mg/stroke",
    "mg/asp": "mg/stroke",
    "grad c": "C",
    "gradc": "C",
    "deg. c": "C",
    "?c": "C",
    "\ufffdc": "C",
    "sek": "s",
    "sek.": "s",
    "sec.": "s",
    "secondes": "s",
    "sekunden": "s",
    "msec": "ms",
    "millisekunden": "ms",
    "milliseconds": "ms",
    "prozent": "%",
    "pourcent": "%",
    "pour cent": "%",
    "volts": "V",
    "kg/std": "kg/h",
    "gr/s": "g/s",
    "gr/sec": "g/s",
    "kmh": "km/h",
    "kph": "km/h",
    "hpa abs": "hPa",
    "mbar abs": "mbar",
    "kpa abs": "kPa",
}
_OWN = {"km/h": "road speed", "mph": "road speed", "ms": "time", "hh:mm:ss": "time"}
_CLOCKS = ("hh:mm", "h:mm", "h:m:s", "hms", "dd.mm", "yyyy", "jj.mm", "tt.mm", "dd/mm", "jj/mm")
_LONGEST = 24


def head_unit(text: str) -> str | None:
    """The name of a unit as written in the head of a column; None where it is none."""
    bare = " ".join(text.strip().strip("[](){}<>").split())
    if not bare or len(bare) > _LONGEST:
        return None
    low = bare.lower()
    if low.startswith(_CLOCKS):
        return "hh:mm:ss"
    if low in _OWN:
        return low
    if low in _MORE:
        return _MORE[low]
    return known_unit(bare) or None


def dimension(unit: str) -> str:
    """What a unit measures; "" for no unit."""
    if unit in _OWN:
        return _OWN[unit]
    return UNITS[unit].dimension if unit in UNITS else ""


def line_to(unit: str, wanted: str) -> tuple[float, float]:
    """(factor, offset): a number in `unit` times factor plus offset is one in `wanted`."""
    if unit == wanted:
        return 1.0, 0.0
    if unit == "mph" and wanted == "km/h":
        return 1.609344, 0.0
    zero, one = convert(0.0, unit, wanted), convert(1.0, unit, wanted)
    hundred = convert(100.0, unit, wanted)
    factor = (hundred - zero) / 100.0
    return (factor, zero) if abs(one - zero - factor) < 1e-9 * max(1.0, abs(factor)) else (1.0, 0.0)
