"""What work usually costs, by the shop's numbers before the pack's; the invoice counts."""

from __future__ import annotations

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import figure
from sootsayer.report import customer_texts as t
from sootsayer.report.reported import Reported
from sootsayer.rulebook.model import Money


def cost_of(of: Reported, work: str, label: Said) -> Said:
    """The sentence on one piece of work; unknown where labour or parts are."""
    money = price_of(of, work)
    if money is None or of.shop is None:
        return say(t.COST_UNKNOWN, work=label)
    low, high = amount(money.lowest), amount(money.highest)
    slots = {"work": label, "low": low, "currency": of.shop.currency}
    return say(t.COST_WORK_ONE, **slots) if low == high else say(t.COST_WORK, **slots, high=high)


def price_of(of: Reported, work: str) -> Money | None:
    """Parts and labour in the shop's currency; None where either is not known."""
    remedy, shop = of.remedy(work), of.shop
    if remedy is None or shop is None or shop.labour_rate is None:
        return None
    parts = shop.prices.get(work, remedy.parts)
    if parts is None:
        return None
    rate = shop.labour_rate / 60.0
    lowest = parts.lowest + rate * remedy.minutes.lowest
    return Money(lowest, parts.highest + rate * remedy.minutes.highest)


def amount(money: float) -> Said:
    """Whole from 10 on: an estimate has no cents."""
    return figure(f"{money:.0f}" if money >= 10 else f"{money:.2f}".rstrip("0").rstrip("."))
