"""Exact posteriors, candidates and `none`, by variable elimination.

Faults and evidence are numbered in the order of their ids and every tie is broken for good,
so the same network and evidence give the same bits whatever order they came in.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass

from sootsayer.belief.approximate import bounds
from sootsayer.belief.elimination import Piece, joint_of, marginals_of, pieces, weight_of
from sootsayer.belief.given import Leaf, narrow
from sootsayer.belief.network import Beliefs, Candidate, Evidence, Kind, Network
from sootsayer.belief.problem import Problem, number
from sootsayer.belief.settling import TooWide, check_leaves, leaves
from sootsayer.belief.tables import Table, bits, rescale

LEADING = 12  # faults a candidate is made of
LISTED = 20  # candidates listed

Scaled = tuple[float, int]  # mantissa, power of two


@dataclass(frozen=True, slots=True)
class _Solved:
    """`problem` is what could be solved exactly: without the evidence `dropped` (ids)."""

    problem: Problem
    dropped: frozenset[str]
    whole: Scaled
    posteriors: dict[str, float]
    low: dict[str, float] | None
    high: dict[str, float] | None


def posteriors(network: Network, evidence: Evidence) -> dict[str, float]:
    """Each fault's probability given the evidence, as `infer` gives it.

    Raises ValueError for evidence that names no observable of the network or does not fit it.
    """
    return _solve(network, evidence).posteriors


def infer(network: Network, evidence: Evidence) -> Beliefs:
    """Everything the network says of the evidence; raises ValueError as `posteriors` does.

    Exact, unless a table would span more than 20 faults or hiders combine in more than 512
    ways: then `exact` is false, `low` and `high` are proven bounds, and everything else comes
    from the network without the evidence that ties the knot. Where only the table of the
    dozen leading faults would be too large, candidates are made of fewer, exactly.
    """
    solved = _solve(network, evidence)
    problem = solved.problem
    none = {
        kind: _none(problem, [one.id for one in network.faults if one.kind is kind], solved.whole)
        for kind in Kind
    }
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


def _solve(network: Network, evidence: Evidence) -> _Solved:
    dropped: set[str] = set()
    together = True
    while True:
        rest = {key: value for key, value in evidence.items() if key not in dropped}
        problem = number(network, rest, together)
        try:
            check_leaves(problem)
            found, whole = _marginals(problem)
        except TooWide as knot:
            if together:  # one by one they make narrower leaves
                together = False
            else:
                dropped |= set(rest) if knot.drop is None else {knot.drop}
            continue
        if not dropped:
            return _Solved(problem, frozenset(), whole, found, None, None)
        low, high = bounds(network, evidence, dropped, found)
        found = {fault: min(max(p, low[fault]), high[fault]) for fault, p in found.items()}
        return _Solved(problem, frozenset(dropped), whole, found, low, high)


def _add_up(parts: list[Scaled]) -> Scaled:
    """The sum of numbers given as mantissa and power of two."""
    standing = [(mantissa, power) for mantissa, power in parts if mantissa]
    if not standing:
        return 0.0, 0
    top = max(power for _, power in standing)
    return math.fsum(math.ldexp(mantissa, power - top) for mantissa, power in standing), top


def _over(part: Scaled, whole: Scaled) -> float:
    return min(1.0, math.ldexp(part[0] / whole[0], part[1] - whole[1]))


def _weight(problem: Problem, leaf: Leaf, split: list[Piece]) -> Scaled:
    mantissa, power = leaf.scale
    for piece in split:
        weight, shift = weight_of(problem, piece)
        mantissa, more = math.frexp(mantissa * weight)
        power += shift + more
    return mantissa, power


def _total(problem: Problem, absent: int = 0) -> Scaled:
    """The probability of the evidence and of all faults in the bitmask being absent."""
    parts = []
    for settled in leaves(problem, 0, absent):
        leaf = narrow(problem, settled)
        parts.append(_weight(problem, leaf, pieces(leaf)))
    return _add_up(parts)


def _none(problem: Problem, faults: Collection[str], whole: Scaled) -> float:
    if not faults:
        return 1.0
    absent = sum(1 << i for i, name in enumerate(problem.ids) if name in faults)
    return _over(_total(problem, absent), whole)


def _marginals(problem: Problem) -> tuple[dict[str, float], Scaled]:
    """All posteriors, and the probability of the evidence; raises TooWide, and ValueError where
    the network forbids the evidence."""
    parts: list[list[Scaled]] = [[] for _ in problem.ids]
    weights = []
    left_out = 0
    for settled in leaves(problem):
        leaf = narrow(problem, settled)
        split = pieces(leaf)
        here = dict.fromkeys(bits(settled.present), 1.0)
        here |= dict.fromkeys(bits(settled.absent), 0.0)
        for piece in split:
            here |= marginals_of(problem, piece)
        mantissa, power = _weight(problem, leaf, split)
        weights.append((mantissa, power))
        for fault, found in enumerate(parts):
            p = here.get(fault)
            if p is None:
                p = _unobserved(problem, fault, here)
            if p is None:
                left_out |= 1 << fault
            else:
                found.append((mantissa * p, power))
    whole = _add_up(weights)
    if not whole[0]:
        raise ValueError("the network says that this evidence cannot be")
    found_all = {}
    for fault, name in enumerate(problem.ids):
        if left_out >> fault & 1:
            found_all[name] = max(0.0, 1.0 - _over(_total(problem, 1 << fault), whole))
        else:
            found_all[name] = _over(_add_up(parts[fault]), whole)
    return found_all, whole


def _unobserved(problem: Problem, fault: int, here: dict[int, float]) -> float | None:
    """In one leaf, the posterior of a fault on which nothing observed depends; None where it
    hangs on several causes at once, which may be tied."""
    causes = problem.parents[fault]
    if not causes:
        return problem.priors[fault]
    if len(causes) > 1:
        return None
    ((cause, spared),) = causes.items()
    p = here.get(cause)
    if p is None and not problem.parents[cause]:
        p = problem.priors[cause]
    if p is None:
        return None
    return 1.0 - (1.0 - problem.priors[fault]) * (1.0 - p * (1.0 - spared))


def _candidates(problem: Problem, found: dict[str, float]) -> tuple[tuple[Candidate, ...], float]:
    """The most probable sets over the leading faults, and the mass not listed."""
    ranked = sorted(range(len(problem.ids)), key=lambda i: (-round(found[problem.ids[i]], 12), i))
    leading = sorted(ranked[:LEADING])
    while True:
        try:
            joint = _joint(problem, leading)
            break
        except TooWide:
            leading = sorted(ranked[: len(leading) - 1])
    whole = math.fsum(joint)
    shares = [value / whole for value in joint]
    cut = sorted(shares, reverse=True)[: LISTED + 1][-1] - 1e-12
    sets = [
        (-round(p, 12), tuple(problem.ids[leading[j]] for j in bits(i)), p)
        for i, p in enumerate(shares)
        if p >= cut
    ]
    listed = tuple(Candidate(faults, p) for _, faults, p in sorted(sets)[:LISTED])
    return listed, max(0.0, 1.0 - math.fsum(candidate.probability for candidate in listed))


def _joint(problem: Problem, leading: list[int]) -> Table:
    """The joint table of the leading faults (first one bit 0), up to a constant factor."""
    place = {fault: j for j, fault in enumerate(leading)}
    kept = sum(1 << fault for fault in leading)
    tables: list[tuple[list[int], Table, int]] = []
    for settled in leaves(problem):
        leaf = narrow(problem, settled, kept)
        (mantissa, power), spread = leaf.scale, []
        for piece in pieces(leaf):
            values, shift = joint_of(problem, piece, kept)
            power += shift
            if len(values) > 1:
                spread.append((bits(piece.members & kept), values))
            else:
                mantissa, more = math.frexp(mantissa * values[0])
                power += more
        index, table = [sum(1 << place[fault] for fault in bits(settled.present & kept))], [mantissa]
        for members, values in spread:
            for fault in members:
                bit = 1 << place[fault]
                index += [i + bit for i in index]
            table, more = rescale([x * y for y in values for x in table])
            power += more
        tables.append((index, table, power))
    top = max(power for _, _, power in tables)
    joint = [0.0] * (1 << len(leading))
    for index, table, power in tables:
        factor = math.ldexp(1.0, max(power - top, -1074))
        for i, value in zip(index, table, strict=True):
            joint[i] += value * factor
    return joint
