"""Money, minutes and distances as a person says them: ranges stay ranges."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import figure, fixed, unit_said
from sootsayer.console import plan_texts as t

if TYPE_CHECKING:  # the short page of a verdict has no plan, and starts without it
    from sootsayer.judgement.plan_said import Expected, Plan, Range, RemedySaid


def between(ends: Range, unit: str) -> Said:
    """`40 EUR`, `40 to 90 EUR`; to three figures above a hundred, for no estimate is better."""
    lowest = rounded(ends.lowest)
    if ends.highest is None:
        return say(t.NUMBER_OPEN, lowest=lowest, unit=unit_said(unit, lowest))
    highest = rounded(ends.highest)
    if lowest == highest:
        return say(t.NUMBER_ONE, lowest=lowest, unit=unit_said(unit, lowest))
    return say(t.NUMBER_TO, lowest=lowest, highest=highest, unit=unit_said(unit, highest))


def rounded(number: float) -> Said:
    """A whole number with commas; above 1,000 to three figures."""
    if number >= 1000.0:
        step = 10.0 ** (math.floor(math.log10(number)) - 2)
        number = round(number / step) * step
    return figure(f"{round(number)}", grouped=True)


def price(said: RemedySaid, plan: Plan) -> Said:
    """What one piece of work costs, as far as that is known."""
    minutes = between(said.minutes, "min")
    days = None if said.days is None else between(said.days, "days")
    if said.cost is None:
        if days is None:
            return say(t.TIME_ONLY, minutes=minutes)
        return say(t.TIME_DAYS, minutes=minutes, days=days)
    money = between(said.cost, plan.currency)
    if days is None:
        return say(t.MONEY, money=money, minutes=minutes)
    return say(t.MONEY_DAYS, money=money, minutes=minutes, days=days)


def expected(said: Expected, plan: Plan) -> Said:
    minutes = between(said.minutes, "min")
    if said.cost is None:
        return minutes
    return say(t.MONEY, money=between(said.cost, plan.currency), minutes=minutes)


def gain(saves: float, more: float, plan: Plan) -> Said:
    """What a look or an opening gains: money or minutes, and lasting repairs."""
    unit = plan.currency if plan.by == "cost" else "min"
    saving = between(_exactly(abs(saves)), unit)
    in_100 = fixed(100.0 * more)
    if saves < 0.0:
        return say(t.COSTS_BUT_MORE, saving=saving, more=in_100)
    return say(t.SAVES_AND_MORE if more >= 0.005 else t.SAVES, saving=saving, more=in_100)


def _exactly(amount: float) -> Range:
    from sootsayer.judgement.plan_said import Range

    return Range(amount, amount)
