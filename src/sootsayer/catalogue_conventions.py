"""How numbers and days are written, language by language; pure, and nothing but that.

After the Unicode CLDR, release 48: the symbols and patterns of `numbers`, and of `dates` the short
day and time. Two things are our own. English keeps the ISO days that its pages always had. And
French thousands are parted by the plain no-break space, as in the texts of the packs, where CLDR
has the narrow one (U+202F), which few terminals' fonts and no 8-bit encoding have.

What is written to files and for programs never comes here: it has a point, and ISO days.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime

NO_BREAK = "\u00a0"
_NUMERAL = re.compile(r"([+-]?)([0-9]+)(?:\.([0-9]+))?((?:e[+-]?[0-9]+)?)")
_GROUP = re.compile(r"(?<=[0-9])(?=(?:[0-9]{3})+$)")


@dataclass(frozen=True, slots=True)
class Convention:
    """How one language writes numbers and days.

    `group` parts thousands: everywhere where `grouping`, else only where it is asked for. `gap`
    stands between a number and its unit. `day`, `moment` (to the minute) and `second` are as
    `strftime` takes them.
    """

    decimal: str
    group: str
    grouping: bool
    gap: str
    day: str
    moment: str
    second: str


CONVENTIONS = {
    "en": Convention(".", ",", False, " ", "%Y-%m-%d", "%Y-%m-%d %H:%M", "%Y-%m-%d %H:%M:%S"),
    "fr": Convention(
        ",", NO_BREAK, True, NO_BREAK, "%d/%m/%Y", "%d/%m/%Y %H:%M", "%d/%m/%Y %H:%M:%S"
    ),
}


def convention(language: str) -> Convention:
    """That of a language, `fr-CA` as `fr`; the English one where none is known."""
    own = CONVENTIONS.get(language) or CONVENTIONS.get(language.partition("-")[0])
    return own or CONVENTIONS["en"]


def numeral(text: str, how: Convention, *, grouped: bool = False) -> str:
    """A number as programs write it (`-1234.5`, `1e+06`) as this language does; what is no
    number stays as it is. `grouped`: thousands are parted, whatever the language does else."""
    found = _NUMERAL.fullmatch(text)
    if found is None:
        return text
    sign, whole, decimals, power = found.groups()
    if (grouped or how.grouping) and not power:
        whole = _GROUP.sub(how.group, whole)
    return sign + whole + (f"{how.decimal}{decimals}" if decimals else "") + power


def day(when: date, how: Convention) -> str:
    """A day, without its time."""
    return when.strftime(how.day)


def moment(when: datetime, how: Convention, *, seconds: bool = False) -> str:
    """A day and its time to the minute, or to the second."""
    return when.strftime(how.second if seconds else how.moment)


def plain(value: float) -> str:
    """A number as files and programs have it: at most four decimals, no zeros at their end, a
    point, and never an exponent."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text
