"""How French is set: spaces that hold together what belongs together.

A no-break space stands before `: ; ? ! » %` and after `«`, between the groups of a number, and
between a number (or a slot) and its unit, also where that is a slot. Texts are written with
ordinary spaces; this sets them.
"""

from __future__ import annotations

import re

HELD = "\u00a0"
_BEFORE = re.compile(r" ([:;?!»%])")
_GROUPS = re.compile(r"(?<=\d) (?=\d{3}(?!\d))")
_UNITS = re.compile(
    r"(?<=[\d}]) (?="
    r"(?:tr/min|mbar|bar|kPa|hPa|°C|km|kg|g|mg|L|min|h|s|V|mm|cm|m|K|%)(?!\w)|\{unit\})"
)


def french(text: str) -> str:
    """The text as it is printed; what is set already stays as it is."""
    text = _BEFORE.sub(HELD + r"\1", text).replace("« ", "«" + HELD)
    return _UNITS.sub(HELD, _GROUPS.sub(HELD, text))


SETTERS = {"fr": french}
"""By language, what sets its texts; others stand as they are written."""


def as_set(text: str, language: str) -> str:
    """The text as its language sets it."""
    setter = SETTERS.get(language.partition("-")[0])
    return text if setter is None else setter(text)
