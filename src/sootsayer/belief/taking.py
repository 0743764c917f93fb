"""The leaves of a solved problem with something multiplied in, for many such things at once."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.belief.elimination import Piece, solved_of, weights_of
from sootsayer.belief.factors import Factor
from sootsayer.belief.many import all_again
from sootsayer.belief.problem import Problem
from sootsayer.belief.solving import LeafSolved, Scaled, add_up, over, times, unobserved
from sootsayer.belief.splitting import Part, can_go
from sootsayer.belief.stars import Ray, Star, gone
from sootsayer.belief.tables import Table, bits
from sootsayer.belief.tree import Change, Solved, folded, ordered, part_table, with_part_instead

# Numbers that differ by more than this are not divided out: what underflow took does not come
# back.
SOUND = 1e100


@dataclass(frozen=True, slots=True)
class Taken:
    """What a leaf is multiplied by: a constant, odds of faults, the inverse of a factor."""

    scale: Scaled = (1.0, 0)
    odds: Mapping[int, float] = field(default_factory=dict)
    factor: Factor | None = None

    @property
    def touched(self) -> int:
        """The faults, as a bitmask, that more than a constant is multiplied by."""
        scope = 0 if self.factor is None else self.factor.scope
        return scope | sum(1 << fault for fault in self.odds)


# For each fault its posterior; what does not change stands once, else one for each job.
Columns = dict[int, list[float]]


class _Leaf:
    """A leaf with each job done to it: `weights` (None where it cannot be had) and posteriors."""

    def __init__(self, problem: Problem, leaf: LeafSolved, jobs: Sequence[Taken]) -> None:
        self._problem, self._here, self._jobs = problem, leaf.here, jobs
        self.weights: list[Scaled | None] = [times(leaf.weight, job.scale) for job in jobs]
        self.columns: Columns = {}
        touched = [job.touched if leaf.weight[0] and job.scale[0] else 0 for job in jobs]
        for piece in leaf.split:
            which = [i for i, scope in enumerate(touched) if piece.members & scope]
            if which:
                self._change(piece, which)

    def column(self, fault: int) -> list[float] | None:
        """The fault's posterior after each job; None where the leaf does not know."""
        found = self.columns.get(fault)
        if found is None:
            p = self._here.get(fault)
            found = self._beyond(fault) if p is None else [p] * len(self._jobs)
            if found is not None:
                self.columns[fault] = found
        return found

    def _beyond(self, fault: int) -> list[float] | None:
        """The same of one on which nothing observed depends."""
        columns = {cause: self.columns.get(cause) for cause in self._problem.parents[fault]}
        changed = {cause: column for cause, column in columns.items() if column is not None}
        found = []
        for i in range(len(self._jobs) if changed else 1):
            here = {**self._here, **{cause: column[i] for cause, column in changed.items()}}
            p = unobserved(self._problem, fault, here)
            if p is None:
                return None
            found.append(p)
        return found if changed else found * len(self._jobs)

    def _change(self, piece: Piece, which: Sequence[int]) -> None:
        for fault in bits(piece.members):
            self.columns[fault] = [self._here[fault]] * len(self._jobs)
        asked: list[tuple[int, Change]] = []
        for i in which:
            job = self._jobs[i]
            odds = {fault: r for fault, r in job.odds.items() if piece.members >> fault & 1}
            if not piece.factors:
                factor, (fault, p) = _lone(piece, odds)
                self._weigh(i, factor)
                self.columns[fault][i] = p
            elif job.factor is None or not piece.members & job.factor.scope:
                asked.append((i, Change(odds)))
            else:
                change = _without_factor(self._problem, piece, job.factor, odds)
                if change is None:
                    self.weights[i] = None
                else:
                    asked.append((i, change))
        if asked:
            answers = all_again(solved_of(self._problem, piece), [change for _, change in asked])
            for (i, _), factor in zip(asked, answers.times, strict=True):
                self._weigh(i, factor)
            for fault in bits(piece.members):
                column = self.columns[fault]
                for (i, _), p in zip(asked, answers.found[fault], strict=True):
                    column[i] = p

    def _weigh(self, i: int, factor: float) -> None:
        weight = self.weights[i]
        self.weights[i] = None if weight is None else times(weight, (factor, 0))


def all_times(
    problem: Problem, leaves: Sequence[LeafSolved], jobs: Sequence[Sequence[Taken]]
) -> list[list[float] | None]:
    """All posteriors with each job done: something multiplied into each leaf. None where that
    cannot be had, or where nothing is left."""
    done = [_Leaf(problem, leaf, [job[k] for job in jobs]) for k, leaf in enumerate(leaves)]
    shares = [_shares([leaf.weights[i] for leaf in done]) for i in range(len(jobs))]
    columns: list[list[float]] = []
    for fault in range(len(problem.ids)):
        parts = [leaf.column(fault) for leaf in done]
        known = [part for part in parts if part is not None]
        if len(known) < len(parts):
            return [None] * len(jobs)
        columns.append(
            [
                0.0 if share is None else min(1.0, math.fsum(map(float.__mul__, share, each)))
                for share, each in zip(shares, zip(*known, strict=True), strict=True)
            ]
        )
    rows = zip(*columns, strict=True)
    return [None if s is None else list(row) for s, row in zip(shares, rows, strict=True)]


def _shares(weights: Sequence[Scaled | None]) -> list[float] | None:
    """Each leaf's share of the whole; None where a weight is not known or all are 0."""
    known = [weight for weight in weights if weight is not None]
    whole = add_up(known)
    if len(known) < len(weights) or not whole[0]:
        return None
    return [over(weight, whole) for weight in known]


def _lone(piece: Piece, odds: Mapping[int, float]) -> tuple[float, tuple[int, float]]:
    """Of a fault by itself, by what its weight is multiplied; and the fault, with its posterior."""
    ((fault, ratio),) = odds.items()
    absent, present = piece.weights[0]
    whole = absent + present * ratio
    return whole / (absent + present), (fault, present * ratio / whole if whole else 0.0)


def _without_factor(
    problem: Problem, piece: Piece, factor: Factor, odds: Mapping[int, float]
) -> Change | None:
    """How a factor is divided out, or where that is not sound the table where it stands made anew;
    None where it cannot go."""
    solved = solved_of(problem, piece)
    found = _standing(problem, solved, factor)
    if found is None:
        return None
    part, order, left = found
    before = part_table(problem, part, order)
    if _divisible(before):
        return Change(odds, tuple(order), [a / b for a, b in zip(left, before, strict=True)])
    at, table = with_part_instead(problem, solved, weights_of(piece), part, left)
    message = folded(table, solved.shape.clusters[at].own)
    if any(new and not old for new, old in zip(message, solved.messages[at], strict=True)):
        return None  # what the factor made impossible has no place in the clusters above
    return Change(odds, instead=(at, table))


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
