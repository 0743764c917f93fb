"""Bytes of standard data by the scaling of SAE J1979, service 01.

Only for logs that say they hold raw words. `word` is the unsigned 16-bit number of two bytes,
high byte first; in 7A, 7C and 78 a byte comes before it that says what is supported (from
memory). All raise ValueError for what is no such word.
"""

from __future__ import annotations


def word(high: int, low: int) -> int:
    """The word of two bytes, high first."""
    for byte in (high, low):
        if not 0 <= byte <= 0xFF:
            raise ValueError(f"{byte} is no byte: 0 to 255")
    return high << 8 | low


def _checked(value: int) -> int:
    if not 0 <= value <= 0xFFFF:
        raise ValueError(f"{value} is no 16-bit word: 0 to 65535")
    return value


def differential_pressure_offset_binary(value: int) -> float:
    """7A in kPa, offset binary: (word - 0x8000)/100. Zero at rest reads 0x8000."""
    return (_checked(value) - 0x8000) / 100.0


def differential_pressure_twos_complement(value: int) -> float:
    """7A in kPa, two's complement (the standard's own, from memory): zero at rest reads 0."""
    signed = _checked(value) - (0x10000 if value >= 0x8000 else 0)
    return signed / 100.0


def differential_pressure_scaling(at_rest: int) -> str:
    """Which scaling a reading at rest tells: "offset binary" near 0x8000, "two's complement"
    near 0 (both within 10 kPa), or "" for neither."""
    near = 1000
    if abs(_checked(at_rest) - 0x8000) <= near:
        return "offset binary"
    if at_rest <= near or at_rest >= 0x10000 - near:
        return "two's complement"
    return ""


def exhaust_temperature(value: int) -> float:
    """7C, 78 and 3C in C: word/10 - 40."""
    return _checked(value) / 10.0 - 40.0


def engine_speed(value: int) -> float:
    """0C in rpm: word/4."""
    return _checked(value) / 4.0


def air_flow(value: int) -> float:
    """10 in g/s: word/100."""
    return _checked(value) / 100.0


def rail_pressure(value: int) -> float:
    """23 in kPa: word x 10 (100 kPa are 1 bar)."""
    return _checked(value) * 10.0
