"""What our schemas say themselves of what would be right (`x-instead`), to be found again here.

A schema is data, and a translation is found by a text that stands in the program; so each hint
stands here too, and a test holds both against each other.
"""

from __future__ import annotations

from sootsayer.catalogue import Said, say, shown

HINTS = (
    "write an id as packs have it, in lower case with hyphens",
    "write the code of a language, such as en",
    "write three capitals, such as EUR",
    "write the translation, or leave the whole entry out",
    "write small letters and digits, with hyphens between words",
    "write it in lower case with dashes, like after-clean",
    "write yes, no or unknown",
    "write `from` and `to`, or `one of` several such ranges",
)


def hint_said(hint: str) -> Said:
    """A schema's own hint; of a schema that is none of ours, as it stands there."""
    return say(hint) if hint in HINTS else shown(hint)
