"""The order of repairs against Kalagnanam & Henrion, "A comparison of decision analysis and expert
rules for sequential diagnosis" (UAI 1988; in Uncertainty in Artificial Intelligence 4, 1990).

One fault, each repair mends its own: cost over probability, smallest first, is the cheapest order.
The numbers of the examples are ours; the rule, and that it is only a heuristic where a repair
covers several faults, is theirs and that of set covering.
"""

from __future__ import annotations

from itertools import permutations

import pytest

from sootsayer.advice.plan_choice import Method, choose
from sootsayer.advice.plan_exact import Solver
from sootsayer.advice.plan_order import ordered, ratio_is_exact
from sootsayer.advice.plan_problem import Candidate, Problem, Work
from sootsayer.advice.plan_worlds import lay_out


def problem(shares: dict[str, float], work: dict[str, tuple[float, str]]) -> Problem:
    """Single faults with weights, and work: its cost and the faults that it surely mends."""
    total = sum(shares.values())
    return Problem(
        tuple(Candidate(frozenset(f), p / total) for f, p in shares.items()),
        tuple(
            Work(name, cost, dict.fromkeys(faults, 1.0)) for name, (cost, faults) in work.items()
        ),
        unrepaired=1000.0,  # dear enough for everything to be tried
    )


FOUR = problem(
    {"p": 0.45, "q": 0.30, "r": 0.15, "s": 0.10},
    {"a": (10, "p"), "b": (2, "q"), "c": (1, "r"), "d": (5, "s")},
)
COVERS = problem({"0": 7, "1": 2, "2": 8, "3": 9}, {"a": (3, "02"), "b": (3, "123"), "c": (1, "2")})


def by_hand(of: Problem, order: tuple[str, ...]) -> float:
    """Each cost times the probability that what came before has not mended it."""
    work = {each.id: each for each in of.work}
    mended: set[str] = set()
    total = 0.0
    for name in order:
        left = sum(c.probability for c in of.candidates if c.faults - mended)
        total += work[name].cost * left
        mended |= work[name].cures.keys()
    return total


def test_cost_over_probability() -> None:
    """b, c, a, d (b and c tie) at 8.70; by probability alone it would be 11.85."""
    found = choose(FOUR)
    assert found.method is Method.RATIO
    assert found.order == ("b", "c", "a", "d")
    assert found.begun[0].cost == pytest.approx(8.70, abs=1e-9)
    assert by_hand(FOUR, ("c", "b", "a", "d")) == pytest.approx(8.70)
    assert by_hand(FOUR, ("a", "b", "c", "d")) == pytest.approx(11.85)
    costs = {each.work: each.cost for each in found.begun}
    assert costs["a"] == pytest.approx(11.85)


def test_no_order_is_cheaper() -> None:
    """All twenty-four orders by hand: none below 8.70, and expectimax agrees."""
    assert min(by_hand(FOUR, order) for order in permutations("abcd")) == pytest.approx(8.70)
    laid = lay_out(FOUR)
    assert Solver(laid, 1000).best(laid.start).cost == pytest.approx(8.70)


def test_where_repairs_overlap_the_ratio_is_only_a_heuristic() -> None:
    """Greedy c, b, a at 3.884615; best b, a, c at 3.807692, which expectimax finds."""
    assert not ratio_is_exact(COVERS)
    greedy = ordered(lay_out(COVERS))
    assert greedy.cost == pytest.approx(3.884615, abs=1e-6)
    assert by_hand(COVERS, ("c", "b", "a")) == pytest.approx(3.884615, abs=1e-6)
    found = choose(COVERS)
    assert found.method is Method.EXACT
    assert found.begun[0].work == "b"
    assert found.begun[0].cost == pytest.approx(3.807692, abs=1e-6)
    least = min(by_hand(COVERS, order) for order in permutations("abc"))
    assert least == pytest.approx(3.807692, abs=1e-6)


def test_the_word_heuristic_where_there_is_too_much_to_weigh() -> None:
    """With a dozen overlapping repairs the order is called heuristic, and is one all the same."""
    faults = "abcdefghijkl"
    shares = {f: 1.0 + n for n, f in enumerate(faults)}
    work = {f"w{n}": (5.0 + n, faults[n] + faults[(n + 5) % 12]) for n in range(12)}
    found = choose(problem(shares, work))
    assert found.method is Method.HEURISTIC
    assert len(found.begun) == 12
    assert found.begun[0].left == pytest.approx(0.0, abs=1e-9)
