"""All leaves of a problem solved, and their sum."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import cast

from sootsayer.belief.elimination import Piece, marginals_of, pieces, weight_of
from sootsayer.belief.given import Leaf, narrow
from sootsayer.belief.problem import Problem
from sootsayer.belief.settling import leaves
from sootsayer.belief.tables import bits

Scaled = tuple[float, int]  # mantissa, power of two


@dataclass(frozen=True, slots=True)
class LeafSolved:
    """A leaf, its pieces, its weight, and the posteriors of the faults it settles or ties."""

    leaf: Leaf
    split: tuple[Piece, ...]
    weight: Scaled
    here: Mapping[int, float]


def solve_leaves(problem: Problem, wanted: int = 0) -> list[LeafSolved]:
    """Every leaf, with the faults `wanted` (bitmask) even where nothing depends on them; raises
    TooWide."""
    key = ("leaves", wanted)
    known = cast("list[LeafSolved] | None", problem.memory.get(key))
    if known is None:
        known = problem.memory[key] = list(_each_solved(problem, wanted))
    return known


def _each_solved(problem: Problem, wanted: int) -> Iterator[LeafSolved]:
    for settled in leaves(problem):
        leaf = narrow(problem, settled, wanted)
        split = tuple(pieces(leaf))
        here = dict.fromkeys(bits(settled.present), 1.0)
        here |= dict.fromkeys(bits(settled.absent), 0.0)
        for piece in split:
            here |= marginals_of(problem, piece)
        yield LeafSolved(leaf, split, weigh(problem, leaf, split), here)


def weigh(problem: Problem, leaf: Leaf, split: Iterable[Piece]) -> Scaled:
    """The probability of the evidence in one leaf."""
    weight = leaf.scale
    for piece in split:
        weight = times(weight, weight_of(problem, piece))
    return weight


def times(one: Scaled, other: Scaled) -> Scaled:
    mantissa, power = math.frexp(one[0] * other[0])
    return mantissa, power + one[1] + other[1]


def add_up(parts: Iterable[Scaled]) -> Scaled:
    """The sum of numbers given as mantissa and power of two."""
    standing = [(mantissa, power) for mantissa, power in parts if mantissa]
    if not standing:
        return 0.0, 0
    top = max(power for _, power in standing)
    return math.fsum(math.ldexp(mantissa, power - top) for mantissa, power in standing), top


def over(part: Scaled, whole: Scaled) -> float:
    """A share as a probability."""
    return min(1.0, math.ldexp(part[0] / whole[0], part[1] - whole[1]))


def total(problem: Problem, absent: int = 0) -> Scaled:
    """The probability of the evidence and of all faults in the bitmask being absent."""
    parts = []
    for settled in leaves(problem, 0, absent):
        leaf = narrow(problem, settled)
        parts.append(weigh(problem, leaf, pieces(leaf)))
    return add_up(parts)


def gathered(
    problem: Problem, parts: list[tuple[Scaled, Mapping[int, float]]]
) -> tuple[list[float | None], Scaled]:
    """Each fault's posterior, and the weight of all leaves, from each leaf's weight and
    posteriors. None where no leaf knows. Raises ValueError where all weights are 0."""
    whole = add_up(weight for weight, _ in parts)
    if not whole[0]:
        raise ValueError("the network says that this evidence cannot be")
    shares = [(over(weight, whole), here) for weight, here in parts]
    found: list[float | None] = []
    for fault in range(len(problem.ids)):
        known = []
        for share, here in shares:
            p = here.get(fault)
            if p is None:
                p = unobserved(problem, fault, here)
            if p is None:
                break
            known.append(share * p)
        else:
            found.append(min(1.0, math.fsum(known)))
            continue
        found.append(None)
    return found, whole


def unobserved(problem: Problem, fault: int, here: Mapping[int, float]) -> float | None:
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


def hanging(problem: Problem) -> int:
    """Faults whose posteriors a leaf may not know where nothing observed depends on them."""
    parents = problem.parents
    return sum(
        1 << fault
        for fault, causes in enumerate(parents)
        if len(causes) > 1 or any(parents[cause] for cause in causes)
    )
