"""How much of each list the page of a plan may show, so that it stays within three screens."""

from __future__ import annotations

from dataclasses import dataclass

MOST_LINES = 3 * 24
"""Lines that the page without --more takes at most, where that can be, on 80 columns."""
_ALL = 1000


@dataclass(frozen=True, slots=True)
class PlanRoom:
    """`whole`: pieces of work that are told with steps, cautions and all; the rest is named.

    `looks` before the work, `openings` that would be worth having, `others` of each state that
    are not first, `reasons` of each list of them, `checks` to be settled that are told whole.
    `more`: on what is unlikely too.
    """

    whole: int = 2
    looks: int = 2
    openings: int = 2
    others: int = 3
    reasons: int = 3
    checks: int = 3
    more: bool = False


EVERYTHING = PlanRoom(_ALL, _ALL, _ALL, _ALL, _ALL, _ALL, more=True)
# The roomiest first; the last is drawn whatever it takes. What a caution says is never cut.
ROOMS = (
    PlanRoom(),
    PlanRoom(looks=1, openings=1, others=2, reasons=2, checks=2),
    PlanRoom(whole=1),
    PlanRoom(whole=1, looks=1, openings=1, others=2, reasons=2, checks=2),
    PlanRoom(whole=1, looks=1, openings=1, others=1, reasons=1, checks=1),
    PlanRoom(whole=1, looks=1, openings=0, others=0, reasons=1, checks=1),
)
