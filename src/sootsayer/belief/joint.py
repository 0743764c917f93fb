"""Variable elimination down to one joint table over the faults that are kept."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache, reduce
from operator import add, or_
from typing import cast

from sootsayer.belief.elimination import Piece, check_width, split_of, starred_of, weights_of
from sootsayer.belief.ordering import Step, min_fill
from sootsayer.belief.problem import Problem
from sootsayer.belief.products import product
from sootsayer.belief.splitting import Part
from sootsayer.belief.stars import Ray
from sootsayer.belief.tables import Table, bits, rescale
from sootsayer.belief.tree import part_table


def joint_of(problem: Problem, piece: Piece, kept: int) -> tuple[Table, int]:
    """The piece's table over its kept faults, lowest number first, and its power of two."""
    kept &= piece.members
    key = ("joint", piece, kept)
    found = cast("tuple[Table, int] | None", problem.memory.get(key))
    if found is None:
        found = problem.memory[key] = _forward(problem, piece, kept)
    return found


@lru_cache(maxsize=1024)
def _ordered(scopes: tuple[int, ...], members: int, kept: int) -> tuple[Step, ...]:
    return tuple(min_fill(scopes, members, kept))


def _parts(problem: Problem, piece: Piece) -> Sequence[Part | Ray]:
    """The piece's factors in parts that make narrow tables."""
    star = starred_of(problem, piece) if piece.factors else None
    return (split_of(problem, piece) if star is None else star.split).parts


def _steps(
    problem: Problem, piece: Piece, parts: Sequence[Part | Ray], kept: int
) -> tuple[Step, ...]:
    scopes = tuple(part.scope for part in parts)
    members = reduce(or_, scopes, piece.members)
    steps = _ordered(scopes, members, kept)
    for number, around in steps:
        check_width(problem, piece, around | 1 << number)
    return steps


def _forward(problem: Problem, piece: Piece, kept: int) -> tuple[Table, int]:
    """The table over the kept faults (lowest number first) and its power of two."""
    parts = _parts(problem, piece)
    steps = _steps(problem, piece, parts, kept)
    last = bits(piece.members & kept)
    order = [number for number, _ in steps] + last
    rank = {number: i for i, number in enumerate(order)}
    weights = weights_of(piece)
    waiting: dict[int, list[tuple[list[int], Table]]] = {number: [] for number in order}
    rest: list[tuple[list[int], Table]] = []

    def deliver(scope: list[int], table: Table) -> None:
        first_kept = not scope or kept >> scope[0] & 1
        (rest if first_kept else waiting[scope[0]]).append((scope, table))

    for part in parts:
        scope = sorted(bits(part.scope), key=rank.__getitem__)
        deliver(scope, part_table(problem, part, scope))
    power = 0
    for fault, around in steps:
        later = sorted(bits(around), key=rank.__getitem__)
        here = waiting.pop(fault)
        if fault in weights:
            here.append(([fault], list(weights[fault])))
        table, taken = _multiply([fault, *later], here)
        message, shift = rescale(list(map(add, table[0::2], table[1::2])))
        power += taken + shift
        deliver(later, message)
    table, shift = _together(last, weights, rest)
    return table, power + shift


def _together(
    kept: list[int],
    weights: dict[int, tuple[float, float]],
    rest: list[tuple[list[int], Table]],
) -> tuple[Table, int]:
    """The product of all that is left, over the kept faults, grown from the last to the first
    so that most of the work is done while the table is small; and its power of two."""
    table, power = _multiply([], [other for other in rest if not other[0]])
    for i in range(len(kept) - 1, -1, -1):
        absent, present = weights[kept[i]]
        grown = [0.0] * (2 * len(table))
        grown[0::2] = [value * absent for value in table]
        grown[1::2] = [value * present for value in table]
        table = grown
        mine = [other for other in rest if other[0] and other[0][0] == kept[i]]
        if mine:
            union = sorted({fault for scope, _ in mine for fault in scope})
            factor, taken = _multiply(union, mine)
            table, shift = _multiply(kept[i:], [(kept[i:], table), (union, factor)])
            power += taken + shift
    return table, power


def _multiply(scope: list[int], others: list[tuple[list[int], Table]]) -> tuple[Table, int]:
    """The product over `scope`, and the power of two taken out against underflow."""
    place = {fault: 1 << i for i, fault in enumerate(scope)}
    return product([(sum(place[f] for f in other), table) for other, table in others], len(scope))
