"""Variable elimination over one leaf: its probability and its marginals.

The leaf falls into pieces that share no factor; each piece is worked out once per problem,
since leaves and questions share most of theirs.
"""

from __future__ import annotations

from typing import NamedTuple, cast

from sootsayer.belief.clusters import Shape, shape_of
from sootsayer.belief.factors import Factor
from sootsayer.belief.given import Leaf
from sootsayer.belief.problem import Problem
from sootsayer.belief.products import products_of
from sootsayer.belief.settling import TooWide
from sootsayer.belief.tables import bits
from sootsayer.belief.tree import Solved, posteriors_of, solve
from sootsayer.belief.whole import Solver

# Largest table: 2 ** WIDEST numbers. Above, the answer is a bound and says so.
WIDEST = 20

# A piece whose tables as they stand hold more numbers than this is told as products.
LARGE = 4096

# So many times what a number of a plain table costs is what a whole number costs.
WHOLE_COSTS = 8


class Piece(NamedTuple):
    """Faults tied together, their weights (absent, present) in order, and their factors."""

    members: int
    weights: tuple[tuple[float, float], ...]
    factors: tuple[Factor, ...]


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


def whole_of(problem: Problem, piece: Piece, limited: bool = True) -> Solver | None:
    """The piece told as products, where its tables as they stand would be large; else None.
    Where `limited`, raises TooWide rather than build too large a table even so."""
    key = ("whole", piece)
    if key not in problem.memory:
        found = None
        plain = _size(shape_of_piece(piece))
        if plain > LARGE:
            products = products_of(problem, piece.members, piece.factors)
            if WHOLE_COSTS * _size(products.shape) < plain:
                weights = dict(zip(bits(piece.members), piece.weights, strict=True))
                found = Solver(products, weights)
        problem.memory[key] = found
    solver = cast("Solver | None", problem.memory[key])
    if limited:
        shape = shape_of_piece(piece) if solver is None else solver.products.shape
        for cluster in shape.clusters:
            check_width(problem, piece, sum(1 << number for number in cluster.scope))
    return solver


def _size(shape: Shape) -> int:
    """How many numbers its tables hold."""
    return sum(1 << len(cluster.scope) for cluster in shape.clusters)


def shape_of_piece(piece: Piece) -> Shape:
    """The tree of clusters for a piece's tables as they stand."""
    return shape_of(tuple(factor.scope for factor in piece.factors), piece.members)


def solved_of(problem: Problem, piece: Piece) -> Solved:
    """The piece solved with its tables as they stand."""
    key = ("solved", piece)
    found = cast("Solved | None", problem.memory.get(key))
    if found is None:
        weights = dict(zip(bits(piece.members), piece.weights, strict=True))
        found = problem.memory[key] = solve(problem, shape_of_piece(piece), piece.factors, weights)
    return found


def weight_of(problem: Problem, piece: Piece) -> tuple[float, int]:
    """The piece's total weight, as mantissa and power of two."""
    if not piece.factors:
        return piece.weights[0][0] + piece.weights[0][1], 0
    solver = whole_of(problem, piece, limited=False)
    if solver is not None:
        return solver.ask().weight
    solved = solved_of(problem, piece)
    return solved.messages[-1][0], solved.power


def marginals_of(problem: Problem, piece: Piece) -> dict[int, float]:
    """Each fault's posterior in the piece; raises TooWide."""
    if not piece.factors:
        absent, present = piece.weights[0]
        total = absent + present
        return {piece.members.bit_length() - 1: present / total if total else 0.0}
    solver = whole_of(problem, piece)
    if solver is not None:
        return solver.ask().posteriors
    key = ("marginals", piece)
    found = cast("dict[int, float] | None", problem.memory.get(key))
    if found is None:
        found = problem.memory[key] = posteriors_of(solved_of(problem, piece))
    return found
