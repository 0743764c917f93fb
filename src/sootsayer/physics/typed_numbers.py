"""Numbers as a person types them at a prompt: as in a file, and with thousands apart by a blank.

`1 500`, with an ordinary or a no-break space, wide or narrow, is 1500, in every language, and so is
`1,500,000` a million and a half, for a number has one decimal mark; so what is shown can be typed
again. A point is a decimal mark in every language that is spoken here: none of them parts thousands
with one. One comma before three digits may be either, and is asked.
"""

from __future__ import annotations

import re

from sootsayer.physics.units import Typed, read_number

_MILLIONS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2}(?:,[0-9]{3}){2,}(?![0-9.,])")
_BLANK = "[ \u00a0\u202f]"
_GROUPED = re.compile(
    rf"(?<![0-9.,])([1-9][0-9]{{0,2}})((?:{_BLANK}[0-9]{{3}})+)(?![0-9]|{_BLANK}[0-9](?!/))"
)


def ungrouped(text: str) -> str:
    """The text with the thousands of its numbers together: `12 500,5 km` is `12500,5 km`."""
    text = _MILLIONS.sub(lambda found: found[0].replace(",", ""), text)
    return _GROUPED.sub(lambda found: found[1] + re.sub(_BLANK, "", found[2]), text)


def read_typed(text: str) -> Typed:
    """As `read_number`, of what was typed at a prompt. Raises NumberRefused or UnknownUnit."""
    return read_number(ungrouped(text))
