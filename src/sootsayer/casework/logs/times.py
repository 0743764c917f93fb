"""Time as logs write it: seconds, milliseconds, a clock, a date with a clock."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

from sootsayer.casework.logs.cells import number

_CLOCK = re.compile(
    r"(?:[T ])?([0-9]{1,2}):([0-9]{2})(?::([0-9]{2})(?:[.,:]([0-9]{1,9}))?)?\s*([AaPp]\.?[Mm]\.?)?"
)
_SHORT_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])[.,]([0-9]{1,6})")
_DATE = re.compile(r"([0-9]{1,4})[-./]([0-9]{1,2})[-./]([0-9]{1,4})")
_ZONE = re.compile(r"\s*(?:Z|[+-][0-9]{2}:?[0-9]{2})$")
_DAY = 86_400.0

Reader = Callable[[str], float | None]


@dataclass(frozen=True, slots=True)
class Clock:
    """How to read a cell of time: `read` gives seconds, None for what is no time.

    `kind` says it in words. `epoch` is whether the seconds count from 1970-01-01, local, so
    that a date is known; `wraps` whether they begin anew each midnight.
    """

    kind: str
    read: Reader
    epoch: bool = False
    wraps: bool = False


def clock_of(samples: Sequence[str], unit: str, decimal_comma: bool) -> Clock | None:
    """The clock that reads most of the cells `samples`; None where none reads half of them."""
    cells = [text for text in samples if text.strip()]
    if not cells:
        return None
    numbers = [number(text, decimal_comma) for text in cells]
    known = [value for value in numbers if value is not None]
    if len(known) * 2 > len(cells):
        return _of_numbers(known, unit, decimal_comma)
    for kind, read, epoch in (
        ("date and time", _dated(cells), True),
        ("hh:mm:ss", _clock, False),
        ("mm:ss.s", _short_clock, False),
    ):
        if sum(read(text) is not None for text in cells) * 2 > len(cells):
            return Clock(kind, read, epoch, wraps=kind == "hh:mm:ss")
    return None


def moment_of(seconds: float) -> datetime | None:
    """The local moment of seconds since 1970-01-01, None outside 1990 to 2100."""
    if not 631_152_000 <= seconds <= 4_102_444_800:
        return None
    return datetime(1970, 1, 1) + timedelta(seconds=round(seconds))


def _of_numbers(known: Sequence[float], unit: str, decimal_comma: bool) -> Clock:
    scale, kind = 1.0, "seconds"
    if unit in ("min", "h"):
        scale, kind = (60.0, "minutes") if unit == "min" else (3600.0, "hours")
    elif unit == "ms" or known[0] > 1e11 or (not unit and _looks_like_ms(known)):
        scale, kind = 0.001, "milliseconds"

    def read(text: str) -> float | None:
        try:
            value = float(text.replace(",", ".") if decimal_comma else text)
        except ValueError:
            found = number(text, decimal_comma)
            if found is None:
                return None
            value = found
        return value * scale if -1e13 < value < 1e13 else None

    return Clock(kind, read, epoch=moment_of(known[0] * scale) is not None)


def _looks_like_ms(known: Sequence[float]) -> bool:
    """Whole numbers with steps of at least 20: nobody logs every 20 seconds and calls it live."""
    steps = [b - a for a, b in pairwise(known) if b > a]
    return bool(steps) and all(v == int(v) for v in known) and sorted(steps)[len(steps) // 2] >= 20


def _clock(text: str) -> float | None:
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    hours, minutes = int(found.group(1)), int(found.group(2))
    seconds = int(found.group(3) or 0)
    if found.group(5):
        hours = hours % 12 + (12 if found.group(5)[0] in "Pp" else 0)
    if hours > 47 or minutes > 59 or seconds > 60:
        return None
    part = float(f"0.{found.group(4)}") if found.group(4) else 0.0
    return hours * 3600.0 + minutes * 60.0 + seconds + part


def _short_clock(text: str) -> float | None:
    found = _SHORT_CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    return int(found.group(1)) * 60.0 + int(found.group(2)) + float(f"0.{found.group(3)}")


def _dated(cells: Sequence[str]) -> Reader:
    """Reads a date and a clock; day before month unless the cells show otherwise."""
    month_first = any(_month_must_lead(text) for text in cells)
    days: dict[str, float | None] = {}

    def read(text: str) -> float | None:
        bare = text.strip()
        head, _, clock = bare.replace("T", " ", 1).partition(" ")
        if head not in days:
            if len(days) > 1000:
                days.clear()
            days[head] = _day(head, month_first)
        day = days[head]
        seconds = _clock(_ZONE.sub("", clock))
        return None if day is None or seconds is None else day + seconds

    return read


def _month_must_lead(text: str) -> bool:
    found = _DATE.match(text.strip())
    return bool(found) and len(found.group(1)) < 3 and int(found.group(2)) > 12 if found else False


def _day(text: str, month_first: bool) -> float | None:
    """Seconds from 1970-01-01 to the beginning of a day."""
    found = _DATE.fullmatch(text)
    if found is None:
        return None
    one, two, three = (int(part) for part in found.groups())
    year, month, day = (one, two, three) if one > 31 else (three, two, one)
    if month_first and one <= 31:
        month, day = one, two
    year += 2000 if year < 100 else 0
    try:
        return (date(year, month, day) - date(1970, 1, 1)).days * _DAY
    except ValueError:
        return None
