"""One piece of evidence left out, from the problem solved with all of it.

A likelihood is a factor: divided out of the tables in which it stands, and the messages sent
again, what is left is the problem without it, exactly. (Dividing it out of a joint table of
some faults would not be exact.) Where the division is not sound the answer is None.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.belief.elimination import Piece, swift_of
from sootsayer.belief.factors import Factor
from sootsayer.belief.given import share_of
from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.solving import (
    LeafSolved,
    Scaled,
    gathered,
    hanging,
    solve_leaves,
    times,
)
from sootsayer.belief.splitting import Part, can_go
from sootsayer.belief.stars import Ray, Star, gone
from sootsayer.belief.tables import Table, bits
from sootsayer.belief.tree import (
    Change,
    Solved,
    again,
    ordered,
    part_table,
    posteriors_of,
    solve,
)

# Numbers that differ by more than this are not divided out: what underflow took does not come
# back.
SOUND = 1e100

# Evidence on one fault alone that moves its odds by no more than this is taken from the joint
# probabilities with that fault, whose difference it would otherwise magnify.
MILD = 1e3


@dataclass(frozen=True, slots=True)
class _Taken:
    """What a leaf is multiplied by: a constant, odds of faults, the inverse of a factor."""

    scale: Scaled = (1.0, 0)
    odds: Mapping[int, float] = field(default_factory=dict)
    factor: Factor | None = None


class LeftOut:
    """A problem solved with all its evidence, to be asked without each piece of it.

    Raises TooWide, and ValueError where the network forbids the evidence.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.solved = solve_leaves(problem, hanging(problem))
        self.posteriors, _ = gathered(problem, [(one.weight, one.here) for one in self.solved])
        self._if_absent: dict[int, list[float | None]] = {}
        self._evidence = {one.id: one for one in (*problem.absorbed, *problem.observed)}

    def without(self, key: str) -> dict[str, float] | None:
        """All posteriors without the evidence `key`; None where that is not sound here."""
        one = self._evidence.get(key)
        if one is None:  # it says nothing
            return self._named(self.posteriors)
        alone = _alone(one)
        if alone is not None and 1.0 / MILD < alone[1] < MILD:
            return self._reweighed(*alone)
        taken = [_taken(self.problem, leaf, one) for leaf in self.solved]
        sound = [part for part in taken if part is not None]
        return self._named(self._with(sound)) if len(sound) == len(taken) else None

    def _named(self, found: Sequence[float | None]) -> dict[str, float] | None:
        named = {name: p for name, p in zip(self.problem.ids, found, strict=True) if p is not None}
        return named if len(named) == len(found) else None

    def _with(self, taken: Sequence[_Taken]) -> list[float | None]:
        parts = []
        for leaf, part in zip(self.solved, taken, strict=True):
            if leaf.weight[0] and part.scale[0]:
                changed = _times(self.problem, leaf, part)
                if changed is None:
                    return [None] * len(self.problem.ids)
                parts.append(changed)
        try:
            return gathered(self.problem, parts)[0]
        except ValueError:  # nothing is left: too unlikely to be worked out this way
            return [None] * len(self.problem.ids)

    def _reweighed(self, fault: int, odds: float) -> dict[str, float] | None:
        """All posteriors with the odds of one fault multiplied."""
        p = self.posteriors[fault]
        if p is None or p == 1.0:
            return None
        if fault not in self._if_absent:
            self._if_absent[fault] = self._with([_never(leaf, fault) for leaf in self.solved])
        absent = 1.0 - p
        whole = absent + p * odds
        found: list[float | None] = []
        for other, (q, if_absent) in enumerate(
            zip(self.posteriors, self._if_absent[fault], strict=True)
        ):
            if q is None or if_absent is None:
                return None
            without = absent * if_absent if other != fault else 0.0
            found.append(min(1.0, (without + max(0.0, q - without) * odds) / whole))
        return self._named(found)


def _alone(one: Observed) -> tuple[int, float] | None:
    """The only fault that evidence speaks of and what leaving it out multiplies its odds by."""
    if one.hiders or len(one.links) != 1:
        return None
    ((fault, factors),) = one.links.items()
    absent = math.fsum(one.terms)
    present = math.fsum(t * c for t, c in zip(one.terms, factors, strict=True))
    return (fault, absent / present) if absent > 0.0 and present > 0.0 else None


def _never(leaf: LeafSolved, fault: int) -> _Taken:
    """A leaf with the fault absent."""
    if leaf.leaf.settled.present >> fault & 1:
        return _Taken(scale=(0.0, 0))
    return _Taken() if leaf.leaf.settled.absent >> fault & 1 else _Taken(odds={fault: 0.0})


def _taken(problem: Problem, leaf: LeafSolved, one: Observed) -> _Taken | None:
    """A leaf with the evidence divided out; None where that is not sound."""
    share = share_of(problem, leaf.leaf.settled, one)
    if not share.scale[0]:
        return None
    scale = times((1.0 / share.scale[0], -share.scale[1]), (1.0, 0))
    odds, spread = {}, 1.0
    for fault, (absent, present) in share.weights.items():
        if not (absent and present):
            return None
        scale = times(scale, (1.0 / absent, 0))
        odds[fault] = absent / present
        spread *= max(odds[fault], 1.0 / odds[fault])
    if spread > SOUND:
        return None
    factor = share.factors[0] if share.factors else None
    return _Taken(scale, odds, factor)


def _times(
    problem: Problem, leaf: LeafSolved, taken: _Taken
) -> tuple[Scaled, Mapping[int, float]] | None:
    """The leaf's weight and posteriors with something multiplied in; None where that cannot be
    had."""
    weight = times(leaf.weight, taken.scale)
    touched = sum(1 << fault for fault in taken.odds)
    if taken.factor is not None:
        touched |= taken.factor.scope
    if not touched:
        return weight, leaf.here
    here = dict(leaf.here)
    for piece in leaf.split:
        if piece.members & touched:
            changed = _piece_times(problem, piece, taken)
            if changed is None:
                return None
            factor, found = changed
            weight = times(weight, (factor, 0))
            here |= found
    return weight, here


def _piece_times(
    problem: Problem, piece: Piece, taken: _Taken
) -> tuple[float, dict[int, float]] | None:
    odds = {fault: times for fault, times in taken.odds.items() if piece.members >> fault & 1}
    if not piece.factors:
        ((fault, ratio),) = odds.items()
        absent, present = piece.weights[0]
        whole = absent + present * ratio
        return whole / (absent + present), {fault: present * ratio / whole if whole else 0.0}
    if taken.factor is None or not piece.members & taken.factor.scope:
        return again(swift_of(problem, piece), Change(odds))
    return _without_factor(problem, piece, taken.factor, odds)


def _without_factor(
    problem: Problem, piece: Piece, factor: Factor, odds: Mapping[int, float]
) -> tuple[float, dict[int, float]] | None:
    """The same where a factor goes too: divided out, or where that is not sound the piece solved
    anew on the tree that stands."""
    solved = swift_of(problem, piece)
    found = _standing(problem, solved, factor)
    if found is None:
        return None
    part, order, left = found
    before = part_table(problem, part, order)
    if _divisible(before):
        ratio = [a / b for a, b in zip(left, before, strict=True)]
        return again(solved, Change(odds, tuple(order), ratio))
    weights = dict(zip(bits(piece.members), piece.weights, strict=True))
    weights |= {f: (weights[f][0], weights[f][1] * ratio) for f, ratio in odds.items()}
    anew = solve(problem, solved.split, weights, {part: left})
    share = anew.messages[-1][0] / solved.messages[-1][0]
    return math.ldexp(share, anew.power - solved.power), posteriors_of(anew)


def _standing(
    problem: Problem, solved: Solved, factor: Factor
) -> tuple[Part | Ray, list[int], Table] | None:
    """The part of a solved piece where the likelihood of a factor stands, its numbers in order,
    and what stands there once the factor is gone; None where it cannot go."""
    split = solved.split
    part: Part | Ray
    if isinstance(split, Star):
        part = split.hubs.get(factor) or Ray(factor, factor.scope)
        order = ordered(solved.shape, part.scope)
        left = gone(problem, part, order) if part.hub else [1.0] * (1 << len(order))
        return part, order, left
    if not can_go(problem, factor):
        return None
    part = split.last[factor]
    order = ordered(solved.shape, part.scope)
    return part, order, [1.0] * (1 << len(order))


def _divisible(before: Table) -> bool:
    sizes = list(map(abs, before))
    return min(sizes) > 0.0 and max(sizes) / min(sizes) <= SOUND
