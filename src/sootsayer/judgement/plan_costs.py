"""What a remedy costs: parts and labour, by the shop's numbers before the pack's."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.judgement.plan_said import Range
from sootsayer.rulebook.model import Money, RemedyDef, Span
from sootsayer.rulebook.shop import Shop

# A day that the vehicle is away counts as a working day where the order is by time.
MINUTES_A_DAY = 480.0


@dataclass(frozen=True, slots=True)
class Price:
    """Minutes of work, days away, and money, None where unknown. `why_unknown`: the remedy's id,
    or "" for the labour rate."""

    minutes: Span
    days: Span | None
    money: Money | None
    shops: bool
    why_unknown: tuple[str, ...] = ()

    @property
    def time(self) -> tuple[float, float]:
        """Minutes, lowest and highest, days away included."""
        away = self.days or Span(0.0, 0.0)
        return (
            self.minutes.lowest + away.lowest * MINUTES_A_DAY,
            self.minutes.highest + away.highest * MINUTES_A_DAY,
        )


def price_of(remedy: RemedyDef, shop: Shop | None) -> Price:
    """Its price in the shop's currency. Without a labour rate no price is known."""
    minutes = remedy.minutes
    own = None
    if shop is not None:
        minutes = shop.times.get(remedy.id, minutes)
        own = shop.prices.get(remedy.id)
    parts = remedy.parts if own is None else own
    rate = None if shop is None else shop.labour_rate
    unknown = (() if rate is not None else ("",)) + (() if parts is not None else (remedy.id,))
    money = None
    if rate is not None and parts is not None:
        money = Money(
            parts.lowest + rate * minutes.lowest / 60.0,
            parts.highest + rate * minutes.highest / 60.0,
        )
    return Price(minutes, remedy.days, money, own is not None, unknown)


def chances_of(remedy: RemedyDef, shop: Shop | None) -> dict[str, float]:
    """How often it cures each fault: the shop's own numbers before the pack's."""
    own = {} if shop is None else shop.chances.get(remedy.id, {})
    return {**remedy.cures, **own}


def span(of: Span | Money) -> Range:
    return Range(of.lowest, of.highest)
