"""The last part of the full page: the numbers that may be overruled, and whose each one is."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import HEADING, QUIET, Line
from sootsayer.console.words import typed_said, value_said
from sootsayer.judgement.verdict import Verdict

# Whose own a limit is: the nearest to the vehicle first.
_ORIGINS = ("vehicle", "shop", "pack")


def numbers_lines(verdict: Verdict, names: Names) -> list[Line]:
    """The shop's overrides, then all limits used: the vehicle's, the shop's, the packs'."""
    lines: list[Line] = []
    if names.overrides:
        lines.append(Line(say(t.OVERRIDES), style=HEADING))
    for item in names.overrides:
        text = say(
            t.OVERRIDE,
            what=item.what,
            was=typed_said(item.was),
            now=typed_said(item.now),
            why=item.why,
        )
        lines.append(Line(text, indent=2))
        place = say(t.OVERRIDE_AT, file=item.file, line=item.line)
        lines.append(Line(place, indent=4, style=QUIET))
    if verdict.limits:
        lines.append(Line(say(t.LIMITS), style=HEADING))
    for origin in _ORIGINS:
        for used in verdict.limits:
            if used.origin == origin:
                text = say(t.LIMIT[origin], label=used.label, id=used.id)
                lines.append(Line(text, indent=2, right=value_said(used.value, used.unit)))
    return lines
