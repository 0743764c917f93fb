"""An order of work fixed beforehand, by cost over probability.

Where each candidate is cured by one piece of work alone and nothing else is at stake, the
smallest cost over probability first is the cheapest order (Kalagnanam & Henrion 1990); and where
it is best to stop before the end, what is left out comes last in it: were an earlier one left out,
doing it before the last that is done would cost less than it saves. Elsewhere it is a heuristic.
"""

from __future__ import annotations

from math import fsum

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
    """Doing the work by cost over probability as long as that is worth it, `first` before all if
    it is given; nothing is seen on the way but whether it is repaired."""
    done = _chain(laid, first)
    stop = _stop(laid, done, first)
    often = [0.0] * (len(laid.work) + len(laid.problem.looks))
    for work, reached, _ in done[:stop]:
        often[work.number] += reached
    begun = done[0][0].number if stop else None
    return Ahead(_total(laid, done, stop), begun, tuple(often), _left(done, stop))


def sequence(laid: Laid, first: int | None = None) -> tuple[int, ...]:
    """The numbers of the work in that order."""
    done = _chain(laid, first)
    return tuple(work.number for work, _, _ in done[: _stop(laid, done, first)])


def _stop(laid: Laid, done: list[tuple[Bits, float, float]], first: int | None) -> int:
    """After how many pieces of work it is best to stop."""
    return min(
        range(0 if first is None else 1, len(done) + 1), key=lambda stop: _total(laid, done, stop)
    )


def _total(laid: Laid, done: list[tuple[Bits, float, float]], stop: int) -> float:
    spent = fsum(reached * work.cost for work, reached, _ in done[:stop])
    return spent + _left(done, stop) * laid.problem.unrepaired


def _chain(laid: Laid, first: int | None) -> list[tuple[Bits, float, float]]:
    """All work one after the other: with what probability each is reached, and is not enough."""
    belief, reached = laid.start, 1.0
    work = _next(laid, belief) if first is None else laid.work[first]
    done = []
    while work is not None:
        ends = after(work, belief).left
        left = fsum(reached * share for share, _ in ends)
        done.append((work, reached, left))
        if not ends:
            break
        ((_, belief),) = ends  # without `sees` nothing is told apart
        reached = left
        work = _next(laid, belief)
    return done


def _left(done: list[tuple[Bits, float, float]], stop: int) -> float:
    return done[stop - 1][2] if stop else 1.0


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
