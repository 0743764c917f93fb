"""Variable elimination over one leaf: its probability and its marginals.

The leaf falls into pieces that share no factor; each piece is worked out once per problem,
since leaves and questions share most of theirs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import cast

from sootsayer.belief.factors import Factor
from sootsayer.belief.given import Leaf
from sootsayer.belief.problem import Problem
from sootsayer.belief.settling import TooWide
from sootsayer.belief.splitting import Split, cheapest
from sootsayer.belief.stars import LARGE, star_of
from sootsayer.belief.tables import bits
from sootsayer.belief.tree import Solved, laid_out, posteriors_of, solve, solved_otherwise

# Largest table: 2 ** WIDEST numbers. Above, the answer is a bound and says so.
WIDEST = 20


# How far a star may be from the same rounded otherwise: its total, and a posterior as a share of
# the smaller of it and its complement.
TOTAL_ALIKE = 1e-12
ALIKE = 1e-12
ROUNDING = 1e-15


@dataclass(frozen=True, slots=True)
class Piece:
    """Faults tied together, their weights (absent, present) in order, and their factors.

    `digest`: its hash, worked out once, for it is looked up again and again.
    """

    members: int
    weights: tuple[tuple[float, float], ...]
    factors: tuple[Factor, ...]
    digest: int = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "digest", hash((self.members, self.weights, self.factors)))

    def __hash__(self) -> int:
        return self.digest


def pieces(leaf: Leaf) -> list[Piece]:
    """The leaf in pieces that share no factor, lone faults among them."""
    groups: list[tuple[int, list[Factor]]] = []
    for factor in leaf.factors:
        scope, factors = factor.scope, [factor]
        apart = []
        for group in groups:
            if group[0] & scope:
                scope |= group[0]
                factors += group[1]
            else:
                apart.append(group)
        groups = [*apart, (scope, factors)]
    tied = 0
    for scope, _ in groups:
        tied |= scope
    groups += [(1 << fault, []) for fault in leaf.weights if not tied >> fault & 1]
    return [
        Piece(scope, tuple(leaf.weights[fault] for fault in bits(scope)), tuple(sorted(factors)))
        for scope, factors in sorted(groups, key=lambda group: group[0])
    ]


def check_width(problem: Problem, piece: Piece, clique: int) -> None:
    """Raises TooWide where a table over the faults of this bitmask would be too large."""
    if clique.bit_count() > WIDEST:
        raise TooWide(_knot(problem, piece, clique))


def _knot(problem: Problem, piece: Piece, clique: int) -> str | None:
    """The evidence that ties most of the clique; None where none ties two faults."""
    count = len(problem.observed)
    tying = [
        (-(factor.scope & clique).bit_count(), problem.observed[factor.name].id)
        for factor in piece.factors
        if 0 <= factor.name < count and (factor.scope & clique).bit_count() > 1
    ]
    return min(tying)[1] if tying else None


def split_of(problem: Problem, piece: Piece) -> Split:
    """The piece's factors, large ones in parts in which nothing is subtracted."""
    key = ("split", piece)
    found = cast("Split | None", problem.memory.get(key))
    if found is None:
        found = problem.memory[key] = cheapest(problem, piece.members, piece.factors)
    return found


def solved_of(problem: Problem, piece: Piece, limited: bool = True) -> Solved:
    """The piece solved, on the narrowest tree that is to be trusted; where `limited`, raises
    TooWide rather than build too large a table."""
    return starred_of(problem, piece) or chained_of(problem, piece, limited)


def chained_of(problem: Problem, piece: Piece, limited: bool = True) -> Solved:
    """The piece solved on the tree in which nothing is subtracted; raises TooWide as
    `solved_of` does."""
    key = ("chained", piece)
    found = cast("Solved | None", problem.memory.get(key))
    if found is None:
        split = split_of(problem, piece)
        if limited:
            for cluster in split.shape.clusters:
                check_width(problem, piece, sum(1 << number for number in cluster.scope))
        laid = laid_out(problem, split, weights_of(piece))
        found = problem.memory[key] = solve(split, laid)
    return found


def weights_of(piece: Piece) -> dict[int, tuple[float, float]]:
    """Each fault's weight where it is absent and where it is present."""
    return dict(zip(bits(piece.members), piece.weights, strict=True))


def starred_of(problem: Problem, piece: Piece) -> Solved | None:
    """The piece solved with its large factors as stars; None where too many digits are lost."""
    key = ("starred", piece)
    if key not in problem.memory:
        problem.memory[key] = _starred(problem, piece)
    return cast("Solved | None", problem.memory[key])


def _starred(problem: Problem, piece: Piece) -> Solved | None:
    star = star_of(problem, piece.members, piece.factors, LARGE)
    if max(len(each.scope) for each in star.shape.clusters) > WIDEST:
        return None
    laid = laid_out(problem, star, weights_of(piece))
    solved = solve(star, laid)
    if not star.hubs:  # nothing was subtracted
        return solved
    if not solved.messages[-1][0] > 0.0:
        return None
    again, times = solved_otherwise(solved, laid)
    if abs(times - 1.0) > TOTAL_ALIKE:
        return None
    found = posteriors_of(solved)
    if not _alike(piece, found, posteriors_of(again)):
        return None
    problem.memory["marginals", piece] = {fault: found[fault] for fault in bits(piece.members)}
    return solved


def _alike(piece: Piece, found: Mapping[int, float], again: Mapping[int, float]) -> bool:
    """Whether both say the same of every fault, present and absent."""
    return all(
        abs(found[fault] - again[fault]) <= ALIKE * min(again[fault], 1.0 - again[fault]) + ROUNDING
        for fault in bits(piece.members)
    )


def weight_of(problem: Problem, piece: Piece) -> tuple[float, int]:
    """The piece's total weight, as mantissa and power of two."""
    if not piece.factors:
        return piece.weights[0][0] + piece.weights[0][1], 0
    solved = solved_of(problem, piece, limited=False)
    return solved.messages[-1][0], solved.power


def marginals_of(problem: Problem, piece: Piece) -> dict[int, float]:
    """Each fault's posterior in the piece; raises TooWide."""
    key = ("marginals", piece)
    found = cast("dict[int, float] | None", problem.memory.get(key))
    if found is None:
        if not piece.factors:
            absent, present = piece.weights[0]
            total = absent + present
            found = {piece.members.bit_length() - 1: present / total if total else 0.0}
        else:
            found = posteriors_of(solved_of(problem, piece))
        problem.memory[key] = found
    return found
