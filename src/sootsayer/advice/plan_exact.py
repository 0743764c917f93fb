"""Exact expectimax: the cheapest way to a lasting repair, whatever is seen on the way.

Giving up is a move too, and costs what ending unrepaired costs: so nothing is tried on a chance too
faint for its price, and no order is cheap because it stops early. Costs come back with how often
each move is made on average, so that ranges of prices stay ranges.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from sootsayer.advice.plan_problem import Look
from sootsayer.advice.plan_worlds import (
    NOTHING,
    Belief,
    Bits,
    Laid,
    World,
    after,
    may_help,
    normal,
)


class TooMany(Exception):  # noqa: N818 (a plan is then made otherwise; nothing is wrong)
    """There are more states than the budget allows."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """What lies ahead of a state: `cost` on average, with what ending unrepaired costs.

    `first`: the move to make, None where it is best to stop. `often`: how many times each
    move is made on average, all work first, then the looks. `left`: the probability of ending
    unrepaired.
    """

    cost: float
    first: int | None
    often: tuple[float, ...]
    left: float


@dataclass(slots=True)
class Solver:
    """`budget`: how many states may be looked at before `TooMany`."""

    laid: Laid
    budget: int
    known: dict[Belief, Ahead] = field(default_factory=dict)
    looked: dict[tuple[Belief, int], Ahead] = field(default_factory=dict)

    def best(self, belief: Belief) -> Ahead:
        """The best that can be done from here by work alone."""
        found = self.known.get(belief)
        if found is None:
            self._spend()
            ways = [self.by_work(work.number, belief) for work in self.open_work(belief)]
            found = min([*ways, self._stopping()], key=lambda way: way.cost)
            self.known[belief] = found
        return found

    def best_with_looks(self, belief: Belief, open_looks: int) -> Ahead:
        """The same where the looks in the bitmask `open_looks` may still come first."""
        if not open_looks:
            return self.best(belief)
        found = self.looked.get((belief, open_looks))
        if found is None:
            self._spend()
            ways = [self.best(belief)]
            for number in range(len(self.laid.problem.looks)):
                if open_looks >> number & 1:
                    ways.append(self.by_look(number, belief, open_looks & ~(1 << number)))
            found = min(ways, key=lambda way: way.cost)
            self.looked[belief, open_looks] = found
        return found

    def open_work(self, belief: Belief) -> list[Bits]:
        """The work that may help from here, and costs less than stopping."""
        most = self.laid.problem.unrepaired
        return [each for each in self.laid.work if each.cost < most and may_help(each, belief)]

    def by_work(self, number: int, belief: Belief) -> Ahead:
        """Doing this piece of work, then the best."""
        work = self.laid.work[number]
        ways = [(p, self.best(then)) for p, then in after(work, belief).left]
        return self._joined(number, work.cost, ways)

    def by_look(self, number: int, belief: Belief, open_looks: int) -> Ahead:
        """Looking, then the best; `open_looks`: those that are open after it."""
        look = self.laid.problem.looks[number]
        ways = [(p, self.best_with_looks(then, open_looks)) for p, then in self.seen(look, belief)]
        return self._joined(len(self.laid.work) + number, look.cost, ways)

    def seen(self, look: Look, belief: Belief) -> list[tuple[float, Belief]]:
        """Each outcome's probability and the belief after it; no work has been done yet."""
        place = {world: number for number, (world, _) in enumerate(self.laid.start)}
        found = []
        for outcome in look.outcomes:
            worlds: dict[World, float] = {w: p * outcome[place[w]] for w, p in belief}
            total = math.fsum(worlds.values())
            if total > NOTHING:
                found.append((total, normal(worlds, total)))
        return found

    def _stopping(self) -> Ahead:
        return Ahead(self.laid.problem.unrepaired, None, self._never(), 1.0)

    def _joined(self, move: int, cost: float, ways: Sequence[tuple[float, Ahead]]) -> Ahead:
        often = list(self._never())
        often[move] = 1.0
        for p, way in ways:
            for number, times in enumerate(way.often):
                often[number] += p * times
        return Ahead(
            cost + math.fsum(p * way.cost for p, way in ways),
            move,
            tuple(often),
            math.fsum(p * way.left for p, way in ways),
        )

    def _never(self) -> tuple[float, ...]:
        return (0.0,) * (len(self.laid.work) + len(self.laid.problem.looks))

    def _spend(self) -> None:
        self.budget -= 1
        if self.budget < 0:
            raise TooMany
