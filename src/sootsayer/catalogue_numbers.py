"""Numbers, days and units as a person reads them, in the language in force: the one place where
they are written.

What goes into files and to programs is not written here: it has a point and ISO days
(`catalogue_conventions.plain`, `isoformat`).
"""

from __future__ import annotations

import re
from datetime import date, datetime

from sootsayer.catalogue import Said, language, say, say_count, shown
from sootsayer.catalogue_conventions import convention, day, moment, numeral, plain

# Units that are called otherwise in another language; all others are symbols, alike everywhere.
UNIT = {
    "rpm": "rpm",
    "mg/stroke": "mg/stroke",
    "C": "C",
    "F": "F",
    "L/1000km": "L/1000km",
    "g/1000km": "g/1000km",
}
# Units that are words, for one of them and for many.
UNIT_COUNTED = {"days": ("day", "days")}
PER_CENT = "{number} %"
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_SEVERAL = 2.0
_DAY, _MINUTE = 10, 16  # characters of an ISO moment


def figure(text: str, *, grouped: bool = False) -> Said:
    """A number as programs write it (`1234.5`) as the language in force does; `grouped`: with its
    thousands apart in every language."""
    return Said(numeral(text, convention(language()), grouped=grouped))


def number(value: float) -> Said:
    """Without trailing zeros, at most four decimals, never with an exponent."""
    return figure(plain(value))


def fixed(value: float, places: int = 0) -> Said:
    """With so many decimals."""
    return figure(f"{value:.{places}f}")


def brief(value: float) -> Said:
    """Six figures at most, without trailing zeros."""
    return figure(f"{value:g}")


def significant(value: float, figures: int) -> Said:
    """So many figures at most, without trailing zeros."""
    return figure(f"{value:.{figures}g}")


def whole(value: float) -> Said:
    """A whole number with its thousands apart in every language."""
    return figure(f"{value:.0f}", grouped=True)


def per_cent(share: float, places: int = 0) -> Said:
    """A share in per cent, without zeros behind the mark."""
    text = f"{share * 100:.{places}f}"
    return say(PER_CENT, number=figure(text.rstrip("0").rstrip(".") if places else text))


def unit_said(unit: str, amount: Said | None = None) -> Said:
    """A unit as it is called behind so many, else behind several; what is none (a currency) as it
    is."""
    if unit in UNIT_COUNTED:
        return say_count(*UNIT_COUNTED[unit], count=_many(amount))
    return say(UNIT[unit]) if unit in UNIT else shown(unit)


def with_unit(amount: Said, unit: str | None) -> Said:
    """A number that is already written, with its unit; alone where it has none."""
    if not unit or unit == "none":
        return amount
    return Said(f"{amount}{convention(language()).gap}{unit_said(unit, amount)}")


def _many(amount: Said | None) -> float:
    """How many a number that is already written says; several where it says none."""
    how = convention(language())
    text = (amount or "").replace(how.group, "").replace(how.decimal, ".")
    try:
        return float(text)
    except ValueError:
        return _SEVERAL


def day_said(when: date) -> Said:
    """A day."""
    return shown(day(when, convention(language())))


def moment_said(when: datetime, *, seconds: bool = False) -> Said:
    """A day and its time, to the minute or to the second."""
    return shown(moment(when, convention(language()), seconds=seconds))


def day_of(text: str) -> Said:
    """The day of an ISO moment that stands in a file as text."""
    return shown(_day_of(text))


def moment_of(text: str) -> Said:
    """An ISO moment that stands in a file as text, to the minute, as the clock there showed it."""
    clock = text[_DAY:_MINUTE].replace("T", " ")
    return shown(_day_of(text) + clock)


def _day_of(text: str) -> str:
    iso = text[:_DAY]
    if not _ISO_DAY.fullmatch(iso):
        return iso
    try:
        return day(date.fromisoformat(iso), convention(language()))
    except ValueError:
        return iso
