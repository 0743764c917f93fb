"""How soon a filter fills again while a cause of it is left: a range, never a date.

What is left in it at first, what it gains on each km net of what burns by itself, and where it is
full: the ends of all three make the ends of the answer. It is what physics.soot gives for a feed
without burning, and physics.ash for a rate by distance.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Between:
    """From the lowest to the highest; `highest` None where there is no end."""

    lowest: float
    highest: float | None


@dataclass(frozen=True, slots=True)
class Filling:
    """`start` and `full` in g, `gain` in g per km (above 0), each (lowest, highest)."""

    start: tuple[float, float]
    full: tuple[float, float]
    gain: tuple[float, float]


def km_to_full(filling: Filling) -> Between:
    """km until it is full again: soonest from most left, most gained, and least room.

    Raises ValueError where a range is upside down, or nothing is gained.
    """
    for lowest, highest in (filling.start, filling.full, filling.gain):
        if not 0.0 <= lowest <= highest:
            raise ValueError(f"no range: {lowest} to {highest}")
    if filling.gain[0] <= 0.0:
        raise ValueError("a filter that gains nothing does not fill")
    soonest = max(0.0, filling.full[0] - filling.start[1]) / filling.gain[1]
    latest = max(0.0, filling.full[1] - filling.start[0]) / filling.gain[0]
    return Between(soonest, latest)


def days(km: Between, km_a_day: tuple[float, float]) -> Between:
    """The same in days, at so many km a day, lowest and highest, above 0."""
    if not 0.0 < km_a_day[0] <= km_a_day[1]:
        raise ValueError(f"no distance a day: {km_a_day}")
    latest = None if km.highest is None else km.highest / km_a_day[0]
    return Between(km.lowest / km_a_day[1], latest)
