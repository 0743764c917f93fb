"""Columns that say they hold words of standard data (SAE J1979, service 01)."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from sootsayer.casework.logs.words import AIR, BEFORE, DP, RPM
from sootsayer.physics import obd

_SAYS = re.compile(
    r"j\s?1979|service\s*0?1|mode\s*0?1|\bpid\b|\braw\b|\bbytes?\b|\bwords?\b|\bhex", re.I
)
_RAW = re.compile(r"\braw\b|\bbytes?\b|\bwords?\b|\bhex|\broh|\bbrut|\boctets?\b|j\s?1979", re.I)
_PID = re.compile(r"(?<![0-9A-Za-z])(?:0x)?(?:01[ _-]?)?(7A|7C|78|3C|0C|10)(?![0-9A-Za-z])", re.I)
_HEX = re.compile(r"(?:0x)?((?:[0-9A-Fa-f]{2}[ :]?){2,9})")
_WITH_SUPPORT = frozenset({"7A", "7C", "78"})
_NEAR = 12_000


@dataclass(frozen=True, slots=True)
class Word:
    """A parameter of standard data: the role it fills and the unit its scaling gives."""

    pid: str
    role: str
    unit: str


WORDS = {
    "7A": Word("7A", DP, "kPa"),
    "7C": Word("7C", BEFORE, "C"),
    "78": Word("78", BEFORE, "C"),
    "3C": Word("3C", BEFORE, "C"),
    "0C": Word("0C", RPM, "rpm"),
    "10": Word("10", AIR, "g/s"),
}
_SCALE: dict[str, Callable[[int], float]] = {
    "7C": obd.exhaust_temperature,
    "78": obd.exhaust_temperature,
    "3C": obd.exhaust_temperature,
    "0C": obd.engine_speed,
    "10": obd.air_flow,
}


def word_column(name: str) -> Word | None:
    """The parameter, where the head of a column says that it holds such words as they came."""
    if not _SAYS.search(name) or not _RAW.search(name):
        return None
    found = _PID.search(name)
    return WORDS[found.group(1).upper()] if found else None


def decoder(word: Word, name: str) -> Callable[[str], float | None]:
    """Reads a cell as `word.unit`; None for what is no word.

    Hexadecimal where the head or the cell says so (0x, letters, bytes apart), else a decimal
    word. Of a differential pressure the first word tells whether it is offset binary.
    """
    always_hex = re.search(r"\bhex|\bbytes?\b|\boctets?\b", name, re.I) is not None
    scale = _SCALE.get(word.pid)

    def read(text: str) -> float | None:
        nonlocal scale
        value = _word(text.strip(), word.pid, always_hex)
        if value is None:
            return None
        if scale is None:
            scale = _pressure_scale(value)
            if scale is None:
                return None
        return scale(value)

    return read


def _word(text: str, pid: str, always_hex: bool) -> int | None:
    if text.isascii() and text.isdigit() and not always_hex:
        value = int(text) if len(text) < 6 else -1
        return value if 0 <= value <= 0xFFFF else None
    found = _HEX.fullmatch(text)
    if found is None:
        return None
    data = bytes.fromhex(re.sub(r"[ :]", "", found.group(1)))
    skip = 1 if pid in _WITH_SUPPORT and len(data) > 2 else 0
    return obd.word(data[skip], data[skip + 1]) if len(data) > skip + 1 else None


def _pressure_scale(value: int) -> Callable[[int], float] | None:
    """By the word itself: no filter shows more than 120 kPa, so the two cannot be mistaken."""
    if abs(value - 0x8000) <= _NEAR:
        return obd.differential_pressure_offset_binary
    if value <= _NEAR or value >= 0x10000 - _NEAR:
        return obd.differential_pressure_twos_complement
    return None
