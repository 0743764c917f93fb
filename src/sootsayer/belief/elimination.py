"""Variable elimination over one leaf: its probability, its marginals, its joint tables.

The leaf falls into pieces that share no factor; each piece is worked out once per problem,
since leaves and questions share most of theirs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from operator import add, mul, truediv
from typing import NamedTuple, cast

from sootsayer.belief.factors import Factor, build
from sootsayer.belief.given import Leaf
from sootsayer.belief.ordering import Step, min_fill
from sootsayer.belief.problem import Problem
from sootsayer.belief.settling import TooWide
from sootsayer.belief.tables import Table, bits, rescale, sum_out, widen

# Largest table: 2 ** WIDEST numbers. Above, the answer is a bound and says so.
WIDEST = 20

# Tables multiplied before looking whether the product becomes too small to hold.
RESCALED = 8


class Piece(NamedTuple):
    """Faults tied together, their weights (absent, present) in order, and their factors."""

    members: int
    weights: tuple[tuple[float, float], ...]
    factors: tuple[Factor, ...]


@dataclass(frozen=True, slots=True)
class _Bucket:
    """One fault's turn: the product table over it and `later`, and the message it sends on."""

    fault: int
    later: list[int]
    table: Table
    message: Table


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


def _steps(problem: Problem, piece: Piece, kept: int, widest: int | None) -> list[Step]:
    scopes = tuple(factor.scope for factor in piece.factors)
    key = ("steps", piece.members, scopes, kept)
    steps = cast("list[Step] | None", problem.memory.get(key))
    if steps is None:
        steps = min_fill(scopes, piece.members, kept)
        problem.memory[key] = steps
    if widest is not None:
        for fault, around in steps:
            if around.bit_count() >= widest:
                raise TooWide(_knot(problem, piece, around | 1 << fault))
    return steps


def _knot(problem: Problem, piece: Piece, clique: int) -> str | None:
    """The evidence that ties most of the clique; None where none ties two faults."""
    count = len(problem.observed)
    tying = [
        (-(factor.scope & clique).bit_count(), problem.observed[factor.name].id)
        for factor in piece.factors
        if 0 <= factor.name < count and (factor.scope & clique).bit_count() > 1
    ]
    return min(tying)[1] if tying else None


def _forward(
    problem: Problem, piece: Piece, kept: int, widest: int | None
) -> tuple[list[_Bucket], Table, int]:
    """The buckets, then the table over the kept faults (lowest number first) and its scale."""
    steps = _steps(problem, piece, kept, widest)
    last = bits(piece.members & kept)
    order = [fault for fault, _ in steps] + last
    rank = {fault: i for i, fault in enumerate(order)}
    weights = dict(zip(bits(piece.members), piece.weights, strict=True))
    waiting: dict[int, list[tuple[list[int], Table]]] = {fault: [] for fault in order}
    rest: list[tuple[list[int], Table]] = []

    def deliver(scope: list[int], table: Table) -> None:
        first_kept = not scope or kept >> scope[0] & 1
        (rest if first_kept else waiting[scope[0]]).append((scope, table))

    for factor in piece.factors:
        scope = sorted(bits(factor.scope), key=rank.__getitem__)
        deliver(scope, build(problem, factor, scope))
    buckets, power = [], 0
    for fault, around in steps:
        later = sorted(bits(around), key=rank.__getitem__)
        table = list(weights[fault]) * (1 << len(later))
        table, taken = _multiply(table, [fault, *later], waiting.pop(fault))
        message, shift = rescale(list(map(add, table[0::2], table[1::2])))
        power += taken + shift
        buckets.append(_Bucket(fault, later, table, message))
        deliver(later, message)
    table, shift = _together(last, weights, rest)
    return buckets, table, power + shift


def _together(
    kept: list[int],
    weights: dict[int, tuple[float, float]],
    rest: list[tuple[list[int], Table]],
) -> tuple[Table, int]:
    """The product of all that is left, over the kept faults, grown from the last to the first
    so that most of the work is done while the table is small; and its power of two."""
    table, power = _multiply([1.0], [], [other for other in rest if not other[0]])
    for i in range(len(kept) - 1, -1, -1):
        absent, present = weights[kept[i]]
        grown = [0.0] * (2 * len(table))
        grown[0::2] = [value * absent for value in table]
        grown[1::2] = [value * present for value in table]
        table = grown
        mine = [other for other in rest if other[0] and other[0][0] == kept[i]]
        if mine:
            union = sorted({fault for scope, _ in mine for fault in scope})
            product, taken = _multiply([1.0] * (1 << len(union)), union, mine)
            table, shift = _multiply(table, kept[i:], [(union, product)])
            power += taken + shift
    return table, power


def _multiply(
    table: Table, scope: list[int], others: list[tuple[list[int], Table]]
) -> tuple[Table, int]:
    """The product over `scope`, and the power of two taken out against underflow."""
    place = {fault: i for i, fault in enumerate(scope)}
    power = 0
    for i, (other, values) in enumerate(others, 1):
        mask = sum(1 << place[fault] for fault in other)
        table = list(map(mul, table, widen(values, mask, len(scope))))
        if i % RESCALED == 0 or i == len(others):
            table, shift = rescale(table)
            power += shift
    return table, power


def _ratio(over: Table, under: Table) -> Table:
    try:
        return list(map(truediv, over, under))
    except ZeroDivisionError:  # underflow: what has no weight gets none
        return [a / b if b else 0.0 for a, b in zip(over, under, strict=True)]


def _backward(buckets: list[_Bucket]) -> dict[int, float]:
    """Each fault's posterior within its piece, from the last bucket back to the first."""
    parents = {bucket.later[0] for bucket in buckets if bucket.later}
    beliefs: dict[int, tuple[list[int], Table]] = {}
    posteriors: dict[int, float] = {}
    for bucket in reversed(buckets):
        table, later = bucket.table, bucket.later
        if later:
            scope, above = beliefs[later[0]]
            for position in range(len(scope) - 1, -1, -1):
                if scope[position] not in later:
                    above = sum_out(above, position)
            ratio = _ratio(above, bucket.message)
        else:
            ratio = [1.0]
        absent = math.fsum(map(mul, table[0::2], ratio))
        present = math.fsum(map(mul, table[1::2], ratio))
        posteriors[bucket.fault] = _share(present, absent)
        if bucket.fault in parents:
            both = [0.0] * len(table)
            both[0::2] = both[1::2] = ratio
            beliefs[bucket.fault] = ([bucket.fault, *later], list(map(mul, table, both)))
    return posteriors


def _share(present: float, absent: float) -> float:
    total = present + absent
    return present / total if total else 0.0


def weight_of(problem: Problem, piece: Piece) -> tuple[float, int]:
    """The piece's total weight, as mantissa and power of two."""
    key = ("weight", piece)
    found = cast("tuple[float, int] | None", problem.memory.get(key))
    if found is None:
        if not piece.factors:
            found = (piece.weights[0][0] + piece.weights[0][1], 0)
        else:
            _, table, power = _forward(problem, piece, 0, None)
            found = (table[0], power)
        problem.memory[key] = found
    return found


def marginals_of(problem: Problem, piece: Piece) -> dict[int, float]:
    """Each fault's posterior in the piece; raises TooWide. Remembers the weight on the way."""
    key = ("marginals", piece)
    found = cast("dict[int, float] | None", problem.memory.get(key))
    if found is None:
        if not piece.factors:
            absent, present = piece.weights[0]
            found = {piece.members.bit_length() - 1: _share(present, absent)}
        else:
            buckets, table, power = _forward(problem, piece, 0, WIDEST)
            problem.memory["weight", piece] = (table[0], power)
            found = _backward(buckets)
        problem.memory[key] = found
    return found


def joint_of(problem: Problem, piece: Piece, kept: int) -> tuple[Table, int]:
    """The piece's table over its kept faults, lowest number first, and its power of two."""
    kept &= piece.members
    key = ("joint", piece, kept)
    found = cast("tuple[Table, int] | None", problem.memory.get(key))
    if found is None:
        _, table, power = _forward(problem, piece, kept, WIDEST)
        found = (table, power)
        problem.memory[key] = found
    return found
