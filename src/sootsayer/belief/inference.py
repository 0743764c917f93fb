"""Exact posteriors, candidates and `none`, by variable elimination.

Faults and evidence are numbered in the order of their ids and every tie is broken for good,
so the same network and evidence give the same bits whatever order they came in.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass

from sootsayer.belief.approximate import bounds
from sootsayer.belief.leading import leading_joint
from sootsayer.belief.network import Beliefs, Candidate, Evidence, Kind, Network
from sootsayer.belief.nobody import nobody
from sootsayer.belief.problem import Problem, number
from sootsayer.belief.settling import TooWide, check_leaves
from sootsayer.belief.solving import gathered, solve_leaves
from sootsayer.belief.tables import bits

LISTED = 20  # candidates listed


@dataclass(frozen=True, slots=True)
class Solved:
    """`problem` is what could be solved exactly: without the evidence `dropped` (ids)."""

    problem: Problem
    dropped: frozenset[str]
    posteriors: dict[str, float]
    low: dict[str, float] | None
    high: dict[str, float] | None


def posteriors(network: Network, evidence: Evidence) -> dict[str, float]:
    """Each fault's probability given the evidence, as `infer` gives it.

    Raises ValueError for evidence that names no observable of the network or does not fit it.
    """
    return solve(network, evidence).posteriors


def leading(network: Network, evidence: Evidence) -> tuple[dict[str, float], dict[Kind, float]]:
    """Each fault's probability, and of each kind that no fault of it is present, as `infer` gives
    them, without the candidates: a fraction of the time. Raises ValueError as `posteriors` does."""
    solved = solve(network, evidence)
    return solved.posteriors, none_of_each(network, solved)


def infer(network: Network, evidence: Evidence) -> Beliefs:
    """Everything the network says of the evidence; raises ValueError as `posteriors` does.

    Exact, unless a table would span more than 20 faults or hiders combine in more than 512
    ways: then `exact` is false, `low` and `high` are proven bounds, and everything else comes
    from the network without the evidence that ties the knot. Where only the table of the
    dozen leading faults would be too large, candidates are made of fewer, exactly.
    """
    return beliefs_of(network, solve(network, evidence))


def beliefs_of(network: Network, solved: Solved) -> Beliefs:
    """All that `infer` says of a problem solved by `solve`."""
    problem = solved.problem
    none = none_of_each(network, solved)
    candidates, left_out = _candidates(problem, solved.posteriors)
    return Beliefs(
        posteriors=solved.posteriors,
        none=none,
        candidates=candidates,
        left_out=left_out,
        exact=not solved.dropped,
        low=solved.low,
        high=solved.high,
    )


def none_of_each(network: Network, solved: Solved) -> dict[Kind, float]:
    """For each kind the probability that no fault of it is present."""
    return {
        kind: _none(solved.problem, [one.id for one in network.faults if one.kind is kind])
        for kind in Kind
    }


def solve(network: Network, evidence: Evidence) -> Solved:
    """The problem and its posteriors, without as much evidence as it takes to be exact; raises
    ValueError as `posteriors` does."""
    dropped: set[str] = set()
    together = True
    while True:
        rest = {key: value for key, value in evidence.items() if key not in dropped}
        problem = number(network, rest, together)
        try:
            check_leaves(problem)
            found = _marginals(problem)
        except TooWide as knot:
            if together:  # one by one they make narrower leaves
                together = False
            else:
                dropped |= set(rest) if knot.drop is None else {knot.drop}
            continue
        if not dropped:
            return Solved(problem, frozenset(), found, None, None)
        low, high = bounds(network, evidence, dropped, found)
        found = {fault: min(max(p, low[fault]), high[fault]) for fault, p in found.items()}
        return Solved(problem, frozenset(dropped), found, low, high)


def _none(problem: Problem, faults: Collection[str]) -> float:
    if not faults:
        return 1.0
    absent = sum(1 << i for i, name in enumerate(problem.ids) if name in faults)
    return nobody(problem, absent)


def _marginals(problem: Problem) -> dict[str, float]:
    """All posteriors; raises TooWide, and ValueError where the network forbids the evidence."""
    known, _ = gathered(problem, [(leaf.weight, leaf.here) for leaf in solve_leaves(problem)])
    return {
        name: 1.0 - nobody(problem, 1 << fault) if p is None else p
        for fault, (name, p) in enumerate(zip(problem.ids, known, strict=True))
    }


def _candidates(problem: Problem, found: dict[str, float]) -> tuple[tuple[Candidate, ...], float]:
    """The most probable sets over the leading faults, and the mass not listed."""
    leading, shares = leading_joint(problem, found)
    cut = sorted(shares, reverse=True)[: LISTED + 1][-1] - 1e-12
    sets = [
        (-round(p, 12), tuple(problem.ids[leading[j]] for j in bits(i)), p)
        for i, p in enumerate(shares)
        if p >= cut
    ]
    listed = tuple(Candidate(faults, p) for _, faults, p in sorted(sets)[:LISTED])
    return listed, max(0.0, 1.0 - math.fsum(candidate.probability for candidate in listed))
