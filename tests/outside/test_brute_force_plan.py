"""Expectimax against a decision tree written out in full, on small problems drawn at random.

The tree is another program: sets instead of bits, exact fractions instead of floats, weights that
are never made to add to 1, nothing remembered, nothing shared but the meaning of a problem.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product
from random import Random

import pytest

from sootsayer.advice.plan_choice import Method, choose
from sootsayer.advice.plan_exact import Solver
from sootsayer.advice.plan_order import ordered, ratio_is_exact
from sootsayer.advice.plan_problem import HIDDEN_AT_MOST, Candidate, Look, Problem, Work
from sootsayer.advice.plan_worlds import lay_out

DRAWN = 400
FAULTS = ("hose", "offset", "soot", "ash", "trips")

Faults = frozenset[str]
Lot = tuple[int, Faults, Faults]  # candidate it began as, faults left, work tried in vain
Weights = dict[Lot, Fraction]


def exact(number: float) -> Fraction:
    return Fraction(number).limit_denominator(10**6)


class Tree:
    """The value of a state is a sum over all its branches, each carrying its own weight."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.leaves = 0

    def root(self, looks: frozenset[int]) -> Fraction:
        weights = {
            (n, each.faults, frozenset[str]()): exact(each.probability)
            for n, each in enumerate(self.problem.candidates)
        }
        return self.before_work(weights, looks)

    def before_work(self, weights: Weights, looks: frozenset[int]) -> Fraction:
        ways = [self.working(weights)]
        for number in looks:
            look = self.problem.looks[number]
            total = sum(weights.values()) * exact(look.cost)
            for outcome in look.outcomes:
                seen = {lot: w * exact(outcome[lot[0]]) for lot, w in weights.items()}
                seen = {lot: w for lot, w in seen.items() if w > 0}
                if seen:
                    total += self.before_work(seen, looks - {number})
            ways.append(total)
        return min(ways)

    def working(self, weights: Weights) -> Fraction:
        self.leaves += 1
        stopping = sum(weights.values(), Fraction(0)) * exact(self.problem.unrepaired)
        ways = [
            self.doing(each, weights) for each in self.problem.work if self.helps(each, weights)
        ]
        return min([stopping, *ways])

    def helps(self, work: Work, weights: Weights) -> bool:
        hidden = sum((w for (_, f, _), w in weights.items() if f & work.hides), Fraction(0))
        if hidden > exact(HIDDEN_AT_MOST) * sum(weights.values()):
            return False
        return any(self.acts(work, faults, tried) for _, faults, tried in weights)

    def acts(self, work: Work, faults: Faults, tried: Faults) -> bool:
        return bool(faults & set(work.cures)) and not faults & work.needs and work.id not in tried

    def doing(self, work: Work, weights: Weights) -> Fraction:
        total = sum(weights.values(), Fraction(0)) * exact(work.cost)
        sights: dict[tuple[bool, ...], Weights] = {}
        for lot, weight in weights.items():
            for after, share in self.results(work, lot):
                if after[1]:
                    sight = tuple(bool(after[1] & group) for group in work.sees if group)
                    there = sights.setdefault(sight, {})
                    there[after] = there.get(after, Fraction(0)) + weight * share
        return total + sum((self.working(each) for each in sights.values()), Fraction(0))

    def results(self, work: Work, lot: Lot) -> Iterator[tuple[Lot, Fraction]]:
        began, faults, tried = lot
        if not self.acts(work, faults, tried):
            yield lot, Fraction(1)
            return
        reached = sorted(faults & set(work.cures))
        for cured in product((True, False), repeat=len(reached)):
            share = Fraction(1)
            for fault, gone in zip(reached, cured, strict=True):
                chance = exact(work.cures[fault])
                share *= chance if gone else 1 - chance
            if share:
                gone_now = {f for f, gone in zip(reached, cured, strict=True) if gone}
                yield (began, faults - gone_now, tried | {work.id}), share


def drawn(number: int) -> Problem:
    """A small problem; every sixteenth or so of a share, so that floats are exact fractions."""
    chance = Random(number)
    some = FAULTS[: chance.randint(2, 5)]
    sets: list[Faults] = []
    while len(sets) < chance.randint(1, 4):
        one = frozenset(chance.sample(some, min(len(some), chance.choice([1, 1, 1, 2, 2, 3]))))
        if one not in sets:
            sets.append(one)
    cuts = sorted([0, 64, *chance.sample(range(1, 64), len(sets) - 1)])
    shares = [(b - a) / 64 for a, b in pairwise(cuts)]
    candidates = tuple(Candidate(f, p) for f, p in zip(sets, shares, strict=True))
    work = tuple(_work(chance, n, some) for n in range(chance.randint(1, 4)))
    looks = tuple(_look(chance, n, len(sets)) for n in range(chance.randint(0, 2)))
    return Problem(candidates, work, float(chance.choice([50, 300, 2000])), looks)


def _work(chance: Random, number: int, some: tuple[str, ...]) -> Work:
    cured = chance.sample(some, chance.choice([1, 1, 2]) if len(some) > 1 else 1)
    others = [f for f in some if f not in cured]
    return Work(
        f"work-{number}",
        float(chance.choice([0, 5, 20, 35, 90, 300])),
        {fault: chance.choice([4, 8, 12, 15, 16]) / 16 for fault in cured},
        frozenset(chance.sample(others, 1)) if others and chance.random() < 0.3 else frozenset(),
        frozenset(chance.sample(others, 1)) if others and chance.random() < 0.3 else frozenset(),
        (frozenset(some[:2]), frozenset(some[2:4])) if chance.random() < 0.5 else (),
    )


def _look(chance: Random, number: int, candidates: int) -> Look:
    first = tuple(chance.randint(0, 16) / 16 for _ in range(candidates))
    return Look(
        f"look-{number}", float(chance.randint(0, 12)), (first, tuple(1 - p for p in first))
    )


@pytest.mark.parametrize("block", range(8))
def test_expectimax_is_the_whole_tree(block: int) -> None:
    """On four hundred random problems, with and without looks, the value is that of the tree."""
    leaves = 0
    for number in range(block * DRAWN // 8, (block + 1) * DRAWN // 8):
        problem = drawn(number)
        laid, tree = lay_out(problem), Tree(problem)
        solver = Solver(laid, 10**6)
        every = (1 << len(problem.looks)) - 1
        bare = float(tree.root(frozenset()))
        looking = float(tree.root(frozenset(range(len(problem.looks)))))
        assert solver.best(laid.start).cost == pytest.approx(bare, abs=1e-6), number
        assert solver.best_with_looks(laid.start, every).cost == pytest.approx(looking, abs=1e-6)
        assert looking <= bare + 1e-9
        leaves += tree.leaves
    assert leaves > 100


def test_the_problems_are_not_all_alike() -> None:
    """Among those drawn are some of every sort: covering up, needing, seeing, several faults,
    looks that are worth it, and orders that a ratio finds and that it misses."""
    problems = [drawn(number) for number in range(DRAWN)]
    assert sum(any(w.hides for w in p.work) for p in problems) > 50
    assert sum(any(w.needs for w in p.work) for p in problems) > 50
    assert sum(any(w.sees for w in p.work) for p in problems) > 50
    assert sum(any(len(c.faults) > 1 for c in p.candidates) for p in problems) > 50
    assert sum(bool(choose(p).looks) for p in problems) > 5
    ratio = missed = 0
    for problem in problems:
        if any(w.sees for w in problem.work):
            continue
        laid = lay_out(problem)
        best, greedy = Solver(laid, 10**6).best(laid.start).cost, ordered(laid).cost
        assert greedy >= best - 1e-6
        if ratio_is_exact(problem):
            assert greedy == pytest.approx(best, abs=1e-6)
            ratio += 1
        missed += greedy > best + 1e-6
    assert ratio > 10
    assert missed > 1


def test_the_costs_are_those_of_how_often_each_move_is_made() -> None:
    """Cost is each move's own times how often it is made on average, and what is left over."""
    for number in range(DRAWN):
        problem = drawn(number)
        found = choose(problem)
        costs = {each.id: each.cost for each in problem.work}
        for begun in found.begun:
            assert begun.cost == pytest.approx(
                sum(costs[name] * times for name, times in begun.often.items()), abs=1e-6
            )
            assert begun.weighed == pytest.approx(begun.cost + begun.left * problem.unrepaired)
        if found.method is not Method.HEURISTIC and found.begun:
            bare = float(Tree(problem).root(frozenset()))
            least = min(found.begun[0].weighed, problem.unrepaired)
            assert least == pytest.approx(bare, abs=1e-6)
            assert bool(found.order) == (found.begun[0].weighed < problem.unrepaired)
