"""The page on what a lasting repair takes reckons as the program does."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.advice.coming_back import Filling, days, km_to_full
from sootsayer.advice.plan_choice import choose
from sootsayer.advice.plan_problem import HIDDEN_AT_MOST, Candidate, Look, Problem, Work
from sootsayer.judgement.plan import UNREPAIRED
from sootsayer.judgement.plan_costs import MINUTES_A_DAY
from sootsayer.judgement.plan_problem import LEAST_FAULT, LEAST_SHARE
from sootsayer.judgement.plan_remedy import WORTH_SAYING_LEFT

PAGE = Path(__file__).parents[1] / "docs" / "explanation" / "lasting-repair.md"
TEXT = " ".join(PAGE.read_text(encoding="utf-8").split())
SOOT = (Candidate(frozenset({"soot"}), 1.0),)


@pytest.mark.parametrize(
    ("chance", "sums"),
    [
        (0.5, ("35 + 0.5 × 350 = 210", "350 + 0.1 × 35 = 353.50")),
        (0.05, ("35 + 0.95 × 350 = 367.50", "353.50")),
    ],
)
def test_the_can_and_the_clean(chance: float, sums: tuple[str, str]) -> None:
    """Both orders of the worked example, as the page has them."""
    work = (Work("can", 35.0, {"soot": chance}), Work("clean", 350.0, {"soot": 0.9}))
    costs = {each.work: each.cost for each in choose(Problem(SOOT, work, 1e5)).begun}
    for name, told in zip(("can", "clean"), sums, strict=True):
        assert told in TEXT
        assert costs[name] == pytest.approx(float(told.rpartition(" ")[2]))


def test_the_look_at_the_hose() -> None:
    """304 without, 234 with: 70 saved."""
    candidates = Candidate(frozenset({"s"}), 0.6), Candidate(frozenset({"h"}), 0.4)
    work = Work("sensor", 200.0, {"s": 1.0}), Work("hose", 260.0, {"h": 1.0})
    look = Look("look", 10.0, ((1.0, 0.0), (0.0, 1.0)))
    found = choose(Problem(candidates, work, 1e5, (look,)))
    assert found.begun[0].cost == pytest.approx(304)
    assert found.looks[0].saves == pytest.approx(70)
    assert "10 + 0.6 × 200 + 0.4 × 260 = 234" in TEXT


def test_the_way_back() -> None:
    """333 to 1,333 km, and 53 to 333 days."""
    km = km_to_full(Filling((0.0, 5.0), (25.0, 40.0), (0.03, 0.06)))
    there = days(km, (5 / 1.25, 5 * 1.25))
    assert km.highest is not None
    assert there.highest is not None
    assert f"= {km.lowest:.0f} km at the soonest" in TEXT
    assert f"= {km.highest:,.0f} at the latest" in TEXT
    assert f"that is {there.lowest:.0f} to {there.highest:.0f} days" in TEXT


def test_the_numbers_that_the_page_names() -> None:
    """One in twenty, ten times, half a per cent, one in fifty, one in five, 480 minutes."""
    numbers = (HIDDEN_AT_MOST, UNREPAIRED, LEAST_SHARE, LEAST_FAULT, WORTH_SAYING_LEFT)
    assert numbers == (0.05, 10, 0.005, 0.02, 0.2)
    assert MINUTES_A_DAY == 480
