"""The plan: which work first, what each way costs on average, and which look is worth it.

Exact expectimax where the moves are few; the order by cost over probability where that is as
good (Kalagnanam & Henrion 1990); else an order fixed beforehand, which is called heuristic.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from sootsayer.advice.plan_exact import Ahead, Solver, TooMany
from sootsayer.advice.plan_order import ordered, ratio_is_exact, sequence
from sootsayer.advice.plan_problem import Look, Problem
from sootsayer.advice.plan_worlds import Laid, after, lay_out, may_help

MOST_SEEN = 6  # pieces of work that are weighed with all that is seen on the way
MOST_FIXED = 7  # pieces of work of which the best fixed order is found
MOST_OFTEN = 5  # the same where it is asked again and again
BUDGET = 1000  # states


class Method(Enum):
    EXACT = "exact"
    RATIO = "cost-over-probability"
    HEURISTIC = "heuristic"


@dataclass(frozen=True, slots=True)
class Begun:
    """Beginning with one piece of work and going on as is best.

    `cost` on average, without what ending unrepaired costs; `weighed`, with it: what the order
    is by. `often`: how many times each piece of work is done on average. `left`: the
    probability of ending unrepaired. `cures`: that this work alone is a lasting repair.
    """

    work: str
    cost: float
    weighed: float
    often: dict[str, float]
    left: float
    cures: float


@dataclass(frozen=True, slots=True)
class Worth:
    """A look worth having before all work: what it saves on average, its own cost taken off, and by
    how `more` a lasting repair is likelier."""

    look: str
    saves: float
    more: float
    changes: tuple[str, ...]  # what may come first after it, other than without it


@dataclass(frozen=True, slots=True)
class Best:
    """The best with nothing seen on the way: as `Begun`, and the work that comes first."""

    first: str
    cost: float
    weighed: float
    left: float


@dataclass(frozen=True, slots=True)
class Choice:
    """`begun`: the cheapest first. `order`: the work in the order in which it is done as long as
    it fails, always by the likelier sight. `looks`: the most worth first."""

    method: Method
    begun: tuple[Begun, ...]
    order: tuple[str, ...]
    looks: tuple[Worth, ...]


@dataclass(frozen=True, slots=True)
class _Found:
    """Every piece of work that may come first, with what lies ahead; `solver`, where every way to
    go on was weighed, knows the rest."""

    method: Method
    laid: Laid
    ways: dict[int, Ahead]
    solver: Solver | None


def choose(problem: Problem) -> Choice:
    """The plan of a problem; no `begun` where no work may help."""
    found = _found(replace(problem, looks=()))
    begun = sorted(
        (_begun(found.laid, number, ahead) for number, ahead in found.ways.items()),
        key=lambda each: (round(each.weighed, 9), each.work),
    )
    return Choice(found.method, tuple(begun), _order(found, begun), _looks(problem))


def _found(problem: Problem) -> _Found:
    fixed = lay_out(_unseen(problem))
    if not ratio_is_exact(problem):
        seen = lay_out(problem)
        for laid, most in ((seen, MOST_SEEN), (fixed, MOST_FIXED)):
            solver = Solver(laid, BUDGET)
            ways = _exactly(solver) if len(laid.work) <= most else None
            if ways is not None:
                exact = laid is seen or fixed.work == seen.work
                method = Method.EXACT if exact else Method.HEURISTIC
                return _Found(method, laid, ways, solver)
    method = Method.RATIO if ratio_is_exact(problem) else Method.HEURISTIC
    return _Found(method, fixed, _each_first(fixed, lambda n: ordered(fixed, n)), None)


def _exactly(solver: Solver) -> dict[int, Ahead] | None:
    """Each first piece of work with the best after it; None where that is too much."""
    try:
        return _each_first(solver.laid, lambda number: solver.by_work(number, solver.laid.start))
    except TooMany:
        return None


def _each_first(laid: Laid, ahead: Callable[[int], Ahead]) -> dict[int, Ahead]:
    return {each.number: ahead(each.number) for each in laid.work if may_help(each, laid.start)}


def _unseen(problem: Problem) -> Problem:
    return replace(problem, work=tuple(replace(each, sees=()) for each in problem.work))


def _begun(laid: Laid, number: int, ahead: Ahead) -> Begun:
    names = [each.id for each in laid.problem.work]
    return Begun(
        work=names[number],
        cost=max(0.0, ahead.cost - ahead.left * laid.problem.unrepaired),
        weighed=ahead.cost,
        often={n: t for n, t in zip(names, ahead.often, strict=True) if t > 0.0},
        left=ahead.left,
        cures=after(laid.work[number], laid.start).cured,
    )


def _order(found: _Found, begun: list[Begun]) -> tuple[str, ...]:
    """What is done one after the other as long as it fails."""
    if not begun or begun[0].weighed >= found.laid.problem.unrepaired:
        return ()
    names = [each.id for each in found.laid.problem.work]
    number: int | None = names.index(begun[0].work)
    if found.solver is None:
        return tuple(names[each] for each in sequence(found.laid, number))
    belief, done = found.laid.start, []
    while number is not None:
        done.append(names[number])
        ends = after(found.laid.work[number], belief).left
        if not ends:
            break
        belief = max(ends, key=lambda end: end[0])[1]
        number = found.solver.best(belief).first  # known from the search
    return tuple(done)


def _looks(problem: Problem) -> tuple[Worth, ...]:
    """What each look alone is worth before work whose order is then fixed."""
    unseen = _unseen(replace(problem, looks=()))
    without = best_first(unseen)
    if without is None:
        return ()
    worths = [_worth(unseen, look, without) for look in problem.looks]
    found = [each for each in worths if each is not None]
    return tuple(sorted(found, key=lambda each: (-each.saves, each.look)))


def _worth(problem: Problem, look: Look, without: Best) -> Worth | None:
    cost, weighed, left = look.cost, look.cost, 0.0
    firsts = set()
    for outcome in look.outcomes:
        shares = [c.probability * s for c, s in zip(problem.candidates, outcome, strict=True)]
        total = math.fsum(shares)
        if total <= 1e-9:
            continue
        best = best_first(_after_look(problem, [share / total for share in shares]))
        if best is None:
            weighed += total * problem.unrepaired
            left += total
            continue
        cost += total * best.cost
        weighed += total * best.weighed
        left += total * best.left
        firsts.add(best.first)
    changes = tuple(sorted(firsts - {without.first}))
    if weighed >= without.weighed - 1e-9 or not changes:
        return None
    return Worth(look.id, without.cost - cost, without.left - left, changes)


def _after_look(problem: Problem, weights: list[float]) -> Problem:
    total = math.fsum(weights)
    candidates = tuple(
        replace(each, probability=weight / total)
        for each, weight in zip(problem.candidates, weights, strict=True)
    )
    return replace(problem, candidates=candidates)


def best_first(problem: Problem) -> Best | None:
    """The best with nothing seen on the way; None where it is best to do nothing."""
    laid = lay_out(_unseen(replace(problem, looks=())))
    ahead: Ahead | None = None
    if len(laid.work) <= MOST_OFTEN and not ratio_is_exact(laid.problem):
        try:
            ahead = Solver(laid, BUDGET).best(laid.start)
        except TooMany:
            ahead = None
    if ahead is None:
        ahead = ordered(laid)
    if ahead.first is None:
        return None
    cost = ahead.cost - ahead.left * problem.unrepaired
    return Best(problem.work[ahead.first].id, max(0.0, cost), ahead.cost, ahead.left)
