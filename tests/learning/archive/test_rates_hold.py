"""Numbers that are known come out of cases drawn with them: 95 % intervals hold 95 times in 100.

Findings are drawn from the network directly, not as whole case files: what is tried here is the
counting and the intervals, not the reading of files.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

import pytest

from sootsayer.learning.draw import draw
from sootsayer.learning.intervals import Interval
from sootsayer.learning.rates.found import Observed
from sootsayer.learning.rates.shares import FEWEST, LevelShare, rates
from sootsayer.learning.rates.tally import RatesTally, linked_in
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import whole_network
from sootsayer.rulebook.reads import levels_of
from tests.laws.making_cases import rulebook
from tests.learning.archive.support import small

CASES, ARCHIVES = 20_000, 40


def counted(model: Model, cases: int, seed: str) -> RatesTally:
    """The tally of so many drawn cases."""
    network, random = whole_network(model), Random(seed)
    tally = RatesTally(linked_in(model))
    for _ in range(cases):
        drawn = draw(network, random)
        levels = {name: levels_of(model, name)[level] for name, level in drawn.levels.items()}
        tally.take(Observed(tuple(sorted(drawn.faults)), tuple(sorted(levels.items()))))
    return tally


def shares(model: Model, tally: RatesTally) -> Iterator[LevelShare]:
    """Every level of every number that enough cases speak of."""
    for rate in rates(model, tally):
        if rate.n >= FEWEST:
            yield from rate.levels


def holding(found: list[tuple[Interval, float]]) -> float:
    return sum(interval.holds(said) for interval, said in found) / len(found)


def about_95_in_100(found: list[LevelShare], slack: float) -> None:
    jeffreys = holding([(each.jeffreys, each.said) for each in found])
    wilson = holding([(each.wilson, each.said) for each in found])
    assert jeffreys == pytest.approx(0.95, abs=slack)
    assert wilson == pytest.approx(0.95, abs=slack)


def test_forty_archives_of_a_small_rulebook() -> None:
    """20,000 cases in forty archives: over all of them, as often as it says."""
    model = small().model
    found = [
        share
        for archive in range(ARCHIVES)
        for share in shares(model, counted(model, CASES // ARCHIVES, f"archive {archive}"))
    ]
    assert len(found) > 500
    about_95_in_100(found, 0.025)


def test_wrong_numbers_are_not_held() -> None:
    """The same counts against numbers a third lower: far fewer are held, so the test can fail."""
    model = small().model
    found = [(each.jeffreys, each.said * 0.67) for each in shares(model, counted(model, 4000, "x"))]
    assert holding(found) < 0.5


@pytest.mark.slow
def test_the_shipped_rulebook() -> None:
    """20,000 cases of the shipped rulebook in one archive, every number with enough cases."""
    model = rulebook().model
    found = list(shares(model, counted(model, CASES, "shipped")))
    assert len(found) > 150
    about_95_in_100(found, 0.04)
