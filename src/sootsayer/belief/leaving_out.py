"""One piece of evidence left out, from the problem solved with all of it.

A likelihood is a factor: divided out of the tables in which it stands, and the messages sent
again, what is left is the problem without it, exactly. (Dividing it out of a joint table of
some faults would not be exact.) Where the division is not sound the answer is None.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import cast

from sootsayer.belief.given import share_of
from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.solving import LeafSolved, gathered, hanging, solve_leaves, times
from sootsayer.belief.taking import SOUND, Taken, all_times

# Evidence on one fault alone that moves its odds by no more than this is taken from the joint
# probabilities with that fault, whose difference it would otherwise magnify.
MILD = 1e3


class LeftOut:
    """A problem solved with all its evidence, to be asked without each piece of it.

    Raises TooWide, and ValueError where the network forbids the evidence.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.solved = solve_leaves(problem, hanging(problem))
        self.posteriors, _ = gathered(problem, [(one.weight, one.here) for one in self.solved])
        self._evidence = {one.id: one for one in (*problem.absorbed, *problem.observed)}

    def without(self, keys: Sequence[str]) -> dict[str, dict[str, float]]:
        """All posteriors without each piece of evidence; left out where that is not sound here."""
        found = {}
        mild: dict[str, tuple[int, float]] = {}
        jobs: dict[str | int, list[Taken]] = {}  # evidence left out, or a fault ruled out
        for key in keys:
            one = self._evidence.get(key)
            alone = None if one is None else _alone(one)
            if one is None:  # it says nothing
                found[key] = self._named(self.posteriors)
            elif alone is not None and 1.0 / MILD < alone[1] < MILD:
                mild[key] = alone
                jobs[alone[0]] = [_never(leaf, alone[0]) for leaf in self.solved]
            else:
                taken = [_taken(self.problem, leaf, one) for leaf in self.solved]
                sound = [part for part in taken if part is not None]
                if len(sound) == len(taken):
                    jobs[key] = sound
        done = all_times(self.problem, self.solved, list(jobs.values()))
        rows = dict(zip(jobs, done, strict=True))
        found |= {key: self._named(row) for key, row in rows.items() if isinstance(key, str)}
        for key, (fault, odds) in mild.items():
            found[key] = self._named(self._reweighed(fault, odds, rows[fault]))
        return {key: named for key, named in found.items() if named is not None}

    def _named(self, found: Sequence[float | None] | None) -> dict[str, float] | None:
        if found is None or None in found:
            return None
        return dict(zip(self.problem.ids, cast("Sequence[float]", found), strict=True))

    def _reweighed(
        self, fault: int, odds: float, without_it: Sequence[float | None] | None
    ) -> list[float] | None:
        """All posteriors with the odds of one fault multiplied, from those where it is absent."""
        p = self.posteriors[fault]
        if p is None or p == 1.0 or without_it is None:
            return None
        absent = 1.0 - p
        whole = absent + p * odds
        found: list[float] = []
        for other, (q, if_absent) in enumerate(zip(self.posteriors, without_it, strict=True)):
            if q is None or if_absent is None:
                return None
            without = absent * if_absent if other != fault else 0.0
            found.append(min(1.0, (without + max(0.0, q - without) * odds) / whole))
        return found


def _alone(one: Observed) -> tuple[int, float] | None:
    """The only fault that evidence speaks of and what leaving it out multiplies its odds by."""
    if one.hiders or len(one.links) != 1:
        return None
    ((fault, factors),) = one.links.items()
    absent = math.fsum(one.terms)
    present = math.fsum(t * c for t, c in zip(one.terms, factors, strict=True))
    return (fault, absent / present) if absent > 0.0 and present > 0.0 else None


def _never(leaf: LeafSolved, fault: int) -> Taken:
    """A leaf with the fault absent."""
    if leaf.leaf.settled.present >> fault & 1:
        return Taken(scale=(0.0, 0))
    return Taken() if leaf.leaf.settled.absent >> fault & 1 else Taken(odds={fault: 0.0})


def _taken(problem: Problem, leaf: LeafSolved, one: Observed) -> Taken | None:
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
    return Taken(scale, odds, factor)
