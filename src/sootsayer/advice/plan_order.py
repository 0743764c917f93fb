"""An order of work fixed beforehand, by cost over probability.

Where each candidate is cured by one piece of work alone and nothing else is at stake, the
smallest cost over probability first is the cheapest order (Kalagnanam & Henrion 1990). Elsewhere
it is a heuristic.
"""

from __future__ import annotations

from sootsayer.advice.plan_exact import Ahead
from sootsayer.advice.plan_problem import Problem
from sootsayer.advice.plan_worlds import Belief, Bits, Laid, after, may_help


def ratio_is_exact(problem: Problem) -> bool:
    """Whether the order by cost over probability is the cheapest: no candidate that two pieces of
    work could cure or that none cures as a whole, nothing that has to come first, waits, or is
    seen on the way."""
    if any(each.needs or each.hides or each.sees for each in problem.work):
        return False
    for candidate in problem.candidates:
        reaching = [each for each in problem.work if candidate.faults & each.cures.keys()]
        if len(reaching) > 1 or any(candidate.faults - each.cures.keys() for each in reaching):
            return False
    return True


def ordered(laid: Laid, first: int | None = None) -> Ahead:
    """Doing all work by cost over probability, `first` before all if it is given; exact in what
    that costs, as far as nothing is seen on the way but whether it is repaired."""
    belief, reached = laid.start, 1.0
    cost, often = 0.0, [0.0] * (len(laid.work) + len(laid.problem.looks))
    begun: int | None = None
    while True:
        work = laid.work[first] if begun is None and first is not None else _next(laid, belief)
        if work is None:
            return Ahead(cost + reached * laid.problem.unrepaired, begun, tuple(often), reached)
        begun = work.number if begun is None else begun
        often[work.number] += reached
        cost += reached * work.cost
        ends = after(work, belief).left
        if not ends:
            return Ahead(cost, begun, tuple(often), 0.0)
        ((share, belief),) = ends  # without `sees` nothing is told apart
        reached *= share


def _next(laid: Laid, belief: Belief) -> Bits | None:
    ways = [each for each in laid.work if may_help(each, belief)]
    return min(
        ways, key=lambda each: (each.cost / _progress(each, belief), each.number), default=None
    )


def _progress(work: Bits, belief: Belief) -> float:
    """The probability that the work cures a fault that is there."""
    total = 0.0
    for (faults, tried), weight in belief:
        if faults & work.needs or tried >> work.number & 1:
            continue
        missed = 1.0
        for bit, chance in work.cures:
            if faults & bit:
                missed *= 1.0 - chance
        total += weight * (1.0 - missed)
    return total
