"""The meaning of the numbers: strengths, spreads and what lint refuses."""

from __future__ import annotations

import random

import pytest

from sootsayer.belief.network import Observable, Seen
from sootsayer.belief.noisy import (
    SpreadProblem,
    cumulative_factors,
    level_spread,
    own_strength,
    spread_problems,
)
from tests.belief.random_networks import seen_spread, spread


def test_own_strength_takes_the_leak_out() -> None:
    """A link's strength and the leak together give back how often the finding is seen."""
    strength = own_strength(0.6, 0.08)
    assert 1 - (1 - strength) * (1 - 0.08) == pytest.approx(0.6, abs=1e-15)
    assert own_strength(0.08, 0.08) == 0.0


@pytest.mark.parametrize(("seen", "otherwise"), [(0.5, 1.0), (1.5, 0.1), (-0.1, 0.1)])
def test_no_strength_from_impossible_numbers(seen: float, otherwise: float) -> None:
    """Numbers that are no frequencies are refused."""
    with pytest.raises(ValueError, match="no strength"):
        own_strength(seen, otherwise)


def test_only_one_fault_shows_its_own_spread() -> None:
    """With one linked fault present the spread is the one that was written for it."""
    rng = random.Random(1)
    for levels in (2, 3, 5):
        otherwise = spread(rng, levels)
        seen = seen_spread(rng, otherwise)
        one = Observable("o", otherwise, (Seen("a", seen),))
        assert level_spread(one, {"a"}) == pytest.approx(seen, abs=1e-15)
        assert level_spread(one, {"b"}) == pytest.approx(otherwise, abs=1e-15)


def test_the_nearest_hider_present_replaces_everything() -> None:
    """The first hider present shows its spread, whatever else is present."""
    hiders = (Seen("near", (0.9, 0.1)), Seen("far", (0.2, 0.8)))
    one = Observable("o", (0.95, 0.05), (Seen("a", (0.1, 0.9)),), hiders)
    assert level_spread(one, {"a", "near", "far"}) == (0.9, 0.1)
    assert level_spread(one, {"a", "far"}) == (0.2, 0.8)
    assert level_spread(one, {"a"}) == pytest.approx((0.1, 0.9))


@pytest.mark.parametrize(
    ("otherwise", "seen", "expected"),
    [
        ((0.9, 0.1), (0.2, 0.8), []),
        ((0.9, 0.1), (0.9, 0.1), []),
        ((0.9, 0.1), (0.95, 0.05), [SpreadProblem.LOWERS]),
        ((0.9, 0.1), (0.0, 1.0), [SpreadProblem.ZERO_OR_ONE]),
        ((0.9, 0.1), (0.2, 0.7), [SpreadProblem.SUM]),
        ((0.9, 0.1), (0.2, 0.3, 0.5), [SpreadProblem.LENGTH]),
        ((0.5, 0.3, 0.2), (0.4, 0.1, 0.5), [SpreadProblem.DECREASES]),
        ((0.5, 0.3, 0.2), (0.6, 0.25, 0.15), [SpreadProblem.LOWERS, SpreadProblem.DECREASES]),
    ],
)
def test_lint_names_what_forbids_a_link(
    otherwise: tuple[float, ...], seen: tuple[float, ...], expected: list[SpreadProblem]
) -> None:
    """Each way to write a link wrong has its code, and a right one has none."""
    assert spread_problems(otherwise, seen) == expected


def test_links_that_pass_lint_never_give_a_negative_share() -> None:
    """Any number of faults that lint lets pass together still make a spread."""
    rng = random.Random(2)
    for _ in range(200):
        otherwise = spread(rng, rng.choice([2, 3, 5]))
        links = tuple(Seen(f"f{i}", seen_spread(rng, otherwise)) for i in range(4))
        assert not any(spread_problems(otherwise, link.spread) for link in links)
        shares = level_spread(Observable("o", otherwise, links), {f"f{i}" for i in range(4)})
        assert min(shares) >= 0.0
        assert sum(shares) == pytest.approx(1.0, abs=1e-12)


def test_cumulative_factors_want_the_same_levels() -> None:
    """Spreads of different lengths are refused."""
    with pytest.raises(ValueError, match="levels"):
        cumulative_factors((0.5, 0.5), (0.2, 0.3, 0.5))
