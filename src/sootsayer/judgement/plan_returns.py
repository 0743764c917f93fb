"""How soon it comes back where work leaves a cause: this vehicle's own rate, else the usual one.

The numbers are limits of the packs, so that a vehicle or a shop may overrule each.
"""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.advice.coming_back import Filling as Course
from sootsayer.advice.coming_back import days, km_to_full
from sootsayer.judgement.plan_said import Range, ReturnSaid
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import Filling, RemedyDef

# Limits, in g, and in g per 1,000 km.
START = {Filling.SOOT: "soot-left-by-work", Filling.ASH: "ash-left-by-work"}
FULL_FROM = {Filling.SOOT: "soot-blocks-from", Filling.ASH: "ash-full-from"}
FULL_TO = {Filling.SOOT: "soot-over", Filling.ASH: "ash-full-to"}
GAIN_LEAST = {Filling.SOOT: "soot-gain-least", Filling.ASH: "ash-gain-least"}
GAIN_MOST = {Filling.SOOT: "soot-gain-most", Filling.ASH: "ash-gain-most"}
# Facts.
SOOT, SINCE, WEEK = ("soot-measured", "soot-shown"), "km-since-burn", "km-a-week"
ASH, ON_FILTER = ("ash-shown",), "filter-km"
ENOUGH_KM = 50.0  # below this a rate is guesswork
OWN_SPREAD = 1.5  # own rate, give or take
WEEK_SPREAD = 1.25


def returns(work: Workings, remedy: RemedyDef, leaves: Mapping[str, float]) -> ReturnSaid | None:
    """The soonest return among the conditions that the work cures and a left cause brings."""
    found = []
    for fault in sorted(remedy.cures):
        condition = work.model.faults[fault]
        brought = any(fault in work.model.faults[cause].leads_to for cause in leaves)
        if condition.fills_with is not None and brought:
            said = _return(work, fault, condition.fills_with)
            found += [said] if said is not None else []
    return min(found, key=lambda each: (each.km.lowest, each.of), default=None)


def _return(work: Workings, fault: str, filling: Filling) -> ReturnSaid | None:
    names = (START, FULL_FROM, FULL_TO, GAIN_LEAST, GAIN_MOST)
    if any(each[filling] not in work.limits for each in names):
        return None
    start, full_from, full_to, least, most = (work.limits[each[filling]] for each in names)
    own = _own_gain(work, filling)
    gain = (least / 1000.0, most / 1000.0) if own is None else own
    full = (min(full_from, full_to), max(full_from, full_to))
    if not 0.0 < gain[0] <= gain[1]:
        return None
    km = km_to_full(Course((0.0, start), full, gain))
    week = _number(work, WEEK)
    a_day = None
    if week is not None and week > 0.0:
        there = days(km, (week / WEEK_SPREAD / 7.0, week * WEEK_SPREAD / 7.0))
        a_day = Range(there.lowest, there.highest)
    return ReturnSaid(fault, filling, Range(km.lowest, km.highest), a_day, own is not None)


def _own_gain(work: Workings, filling: Filling) -> tuple[float, float] | None:
    """g per km that this vehicle gained until now, through instruments that are not distrusted."""
    shown, distance = (SOOT, SINCE) if filling is Filling.SOOT else (ASH, ON_FILTER)
    km = _number(work, distance)
    mass = next((m for slot in shown if (m := _number(work, slot)) is not None), None)
    if km is None or mass is None or km < ENOUGH_KM or mass <= 0.0:
        return None
    return mass / km / OWN_SPREAD, mass / km * OWN_SPREAD


def _number(work: Workings, slot: str) -> float | None:
    value = work.trusted.values.get(slot)
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None
