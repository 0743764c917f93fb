"""Vehicles of the small world, asked to the end: choosing by usefulness pays."""

from __future__ import annotations

from functools import cache
from statistics import mean

from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from tests.bench.asking import NEVER, Walked, vehicle
from tests.interview.worlds import book

VEHICLES = 30
ORDERS = ("useful", "fixed", "cheapest", "random")


@cache
def walks() -> list[dict[str, Walked]]:
    return [vehicle(book(), ORDERS, number) for number in range(VEHICLES)]


def minutes(order: str) -> float:
    """Mean minutes until a kind is clear, over all kinds of all vehicles."""
    return mean(m for walk in walks() for m in walk[order].kinds.values())


def test_useful_is_shorter_than_the_customary_order() -> None:
    """A floor: shorter than the customary order and the cheapest first even in this small world
    of ten checks, and a tenth shorter than any order. The shipped rulebook saves more: see
    `python -m tests.bench.asking`."""
    assert minutes("useful") < minutes("fixed")
    assert minutes("useful") < minutes("cheapest")
    assert minutes("useful") <= 0.9 * minutes("random")


def test_the_comparison_is_of_something() -> None:
    """Most kinds become clear in every order, and not at once."""
    for order in ORDERS:
        clear = [m for walk in walks() for m in walk[order].kinds.values() if m < NEVER]
        assert len(clear) > VEHICLES
        assert any(clear)


def test_useful_is_shorter_on_the_shipped_rulebook() -> None:
    """A floor on a handful of vehicles: a tenth shorter than the customary order."""
    shipped = load_rulebook([shipped_rules()])
    asked = [vehicle(shipped, ("useful", "fixed"), number) for number in range(6)]
    spent = {
        order: mean(m for walk in asked for m in walk[order].kinds.values())
        for order in ("useful", "fixed")
    }
    assert spent["useful"] <= 0.9 * spent["fixed"]


def test_every_order_ends_with_the_same_verdict_where_all_is_asked() -> None:
    """Orders differ in minutes, never in what is true: where two of them asked everything, the
    same leads."""
    for walk in walks():
        done = [each for each in walk.values() if each.all >= NEVER]
        assert len({tuple(sorted(each.right.items())) for each in done}) <= 1
