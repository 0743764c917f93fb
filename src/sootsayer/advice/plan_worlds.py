"""What a piece of work does to what may be wrong.

A *world* is what may be the case: the faults that are left, and the work that has been tried in
vain in it. A *belief* is worlds with their weights, which add to 1. Faults and work are bits.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.advice.plan_problem import HIDDEN_AT_MOST, Problem

World = tuple[int, int]
Belief = tuple[tuple[World, float], ...]
NOTHING = 1e-12  # weight below this is rounding


@dataclass(frozen=True, slots=True)
class Bits:
    """One piece of work over bits: `cures` (fault, chance), the masks of all else."""

    number: int
    cost: float
    cures: tuple[tuple[int, float], ...]
    reach: int
    needs: int
    hides: int
    sees: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Laid:
    """A problem laid out over bits: `start` has one world a candidate, in their order."""

    problem: Problem
    work: tuple[Bits, ...]
    start: Belief


@dataclass(frozen=True, slots=True)
class After:
    """What is left when the work was not the last: each belief that what is seen then leaves,
    with its probability. `cured`: the probability that no fault is left."""

    cured: float
    left: tuple[tuple[float, Belief], ...]


def lay_out(problem: Problem) -> Laid:
    """The problem over bits."""
    bit = {fault: 1 << number for number, fault in enumerate(problem.faults)}

    def mask(faults: frozenset[str]) -> int:
        return sum(bit[fault] for fault in faults if fault in bit)

    work = tuple(
        Bits(
            number=number,
            cost=each.cost,
            cures=tuple((bit[f], c) for f, c in sorted(each.cures.items()) if f in bit and c > 0),
            reach=mask(frozenset(f for f, c in each.cures.items() if c > 0)),
            needs=mask(each.needs),
            hides=mask(each.hides),
            sees=tuple(mask(group) for group in each.sees if mask(group)),
        )
        for number, each in enumerate(problem.work)
    )
    start = tuple(((mask(each.faults), 0), each.probability) for each in problem.candidates)
    return Laid(problem, work, start)


def may_help(work: Bits, belief: Belief) -> bool:
    """Whether the work is worth offering: it may cure something, and covers up nothing likely."""
    hidden = math.fsum(weight for (faults, _), weight in belief if faults & work.hides)
    if hidden > HIDDEN_AT_MOST:
        return False
    return any(_acts(work, world) for world, weight in belief if weight > NOTHING)


def _acts(work: Bits, world: World) -> bool:
    faults, tried = world
    return bool(faults & work.reach) and not faults & work.needs and not tried >> work.number & 1


def after(work: Bits, belief: Belief) -> After:
    """What the work leaves, apart by what is seen afterwards."""
    cured = 0.0
    seen: dict[tuple[bool, ...], dict[World, float]] = {}
    for world, weight in belief:
        for (faults, tried), share in _outcomes(work, world):
            if not faults:
                cured += weight * share
                continue
            worlds = seen.setdefault(tuple(bool(faults & group) for group in work.sees), {})
            worlds[faults, tried] = worlds.get((faults, tried), 0.0) + weight * share
    left = []
    for _, worlds in sorted(seen.items()):
        total = math.fsum(worlds.values())
        if total > NOTHING:
            left.append((total, normal(worlds, total)))
    return After(cured, tuple(left))


def _outcomes(work: Bits, world: World) -> Iterator[tuple[World, float]]:
    if not _acts(work, world):
        yield world, 1.0
        return
    faults, tried = world
    tried |= 1 << work.number
    ends = [(faults, 1.0)]
    for bit, chance in work.cures:
        if faults & bit:
            ends = [
                end
                for left, share in ends
                for end in ((left & ~bit, share * chance), (left, share * (1.0 - chance)))
                if end[1] > 0.0
            ]
    for left, share in ends:
        yield (left, tried), share


def normal(worlds: dict[World, float], total: float) -> Belief:
    """Weights that add to 1, worlds in order, so that equal beliefs are equal keys."""
    return tuple(
        (world, round(weight / total, 12))
        for world, weight in sorted(worlds.items())
        if weight > NOTHING * total
    )
