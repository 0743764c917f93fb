"""One line as cells, and one cell as a number."""

from __future__ import annotations

import csv
import math
import re

MISSING = frozenset({
    "", "-", "--", "---", "----", "n/a", "na", "n.a.", "n/v", "nan", "null", "none", "?", "nil",
    "k.a.", "n.v.", "s.o.", "nd", "n.d.", "not available", "invalid", "error", "no data", "...",
    "ungultig", "ungültig", "non disponible", "#n/a", "inf", "-inf", "infinity", "-infinity",
})  # fmt: skip
_HELD = re.compile("[\u00a0\u202f]")  # no-break spaces, which part thousands
OVER = re.compile(r"[<>≥≤]=?\s*[-+]?[0-9][0-9.,]*")
_NUMBER = re.compile(r"[-+]?[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]{1,3})?")
_GROUPED_POINT = re.compile(r"[-+]?[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+")
_GROUPED_COMMA = re.compile(r"[-+]?[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+")
_DOUBTFUL = re.compile(r"[-+−]?[1-9][0-9]{0,2},[0-9]{3}")
_PARTED = re.compile(r"[-+]?[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_WITH_UNIT = re.compile(r"([-+−]?[0-9]+(?:[.,][0-9]+)?)\s*([^0-9\s].{0,11})")


def split(line: str, delimiter: str) -> list[str]:
    """The cells of a line. A quote that is never closed ends with its line."""
    if '"' not in line:
        return line.split(delimiter)
    try:
        return next(csv.reader((line,), delimiter=delimiter, skipinitialspace=True), [])
    except csv.Error:  # a cell longer than the module holds
        return line.split(delimiter)


def number(text: str, decimal_comma: bool, *, parted: bool = False) -> float | None:
    """The number of a cell, None for anything else; NaN and infinity are none.

    Thousands are never guessed: beside a decimal mark of the other kind alone they show, or where
    somebody said so (`parted`: commas part thousands).
    """
    bare = _HELD.sub("", text.strip().replace("−", "-"))
    if parted and _PARTED.fullmatch(bare):
        bare = bare.replace(",", "")
    if _GROUPED_POINT.fullmatch(bare) and decimal_comma:
        bare = bare.replace(".", "")
    elif _GROUPED_COMMA.fullmatch(bare) and not decimal_comma:
        bare = bare.replace(",", "")
    if decimal_comma:
        bare = bare.replace(",", ".", 1)
    if not _NUMBER.fullmatch(bare):
        return None
    value = float(bare)
    return value if math.isfinite(value) else None


def is_doubtful(text: str) -> bool:
    """Whether a cell, or the number before its unit, may be one and a half or fifteen hundred:
    `1,500`."""
    bare = text.strip()
    found = _WITH_UNIT.fullmatch(bare[:40])
    if found is not None and found.group(2)[0] not in ".,":
        bare = found.group(1)
    return bool(_DOUBTFUL.fullmatch(bare))


def is_missing(text: str) -> bool:
    """Whether a cell says that there is no reading."""
    return text.strip().lower() in MISSING


def is_over(text: str) -> bool:
    """Whether a cell says "beyond what I can show", as >655 does."""
    return bool(OVER.fullmatch(text.strip()))


def with_unit(text: str) -> tuple[str, str] | None:
    """A cell such as "24 mbar" as number and unit, both still text."""
    found = _WITH_UNIT.fullmatch(text.strip()[:40])
    return (found.group(1), found.group(2)) if found else None
