"""Tables over many faults told as a chain of small ones.

"No fault brings it above this level" can be asked of a few faults at a time, each handing on
the level reached so far (parent divorcing: Olesen et al. 1989; of a noisy maximum: Díez & Galán
2003). The chain has numbers of its own beyond the faults', two states each, which are summed out
like faults; nothing in it is negative, so nothing cancels.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from sootsayer.belief.clusters import Shape, shape_of
from sootsayer.belief.factors import SPANS, WRITTEN, Factor, build
from sootsayer.belief.problem import Problem
from sootsayer.belief.tables import Table, bits, reordered

# No table of fewer faults than this is split.
LARGE = 6

# Ways to split: faults in a part, and whether those tied to most come first; the later ones
# only where the earlier make a table of more than `NARROW` numbers.
WAYS = ((2, False), (3, False), (2, True))
NARROW = 12


class Part(NamedTuple):
    """A factor or a part of one: over `links` of it, the level that the parts `before` it have
    reached and the level handed on `after` it, each in as many numbers of two states as it
    takes, lowest bit first; none where there is none. Without links, the whole factor."""

    factor: Factor
    scope: int
    links: tuple[int, ...] = ()
    before: tuple[int, ...] = ()
    after: tuple[int, ...] = ()


class Split(NamedTuple):
    """A piece's factors in parts, and the tree for them; numbers from `faults` on are levels, not
    faults; `last`, for each factor the part where its likelihood stands: with that part replaced
    by ones, the factor is gone, if it `can_go`."""

    parts: tuple[Part, ...]
    shape: Shape
    faults: int
    last: dict[Factor, Part]


def cheapest(
    problem: Problem, members: int, factors: tuple[Factor, ...], narrow: int = NARROW
) -> Split:
    """The first split with no table over more than `narrow` variables, else the one with the
    smallest tables."""
    ways = WAYS if any(_levels(problem, factor) for factor in factors) else ((0, False),)
    splits: list[tuple[int, Split]] = []
    for way in ways:
        split = _split(problem, members, factors, *way)
        sizes = [len(cluster.scope) for cluster in split.shape.clusters]
        if max(sizes) <= narrow:
            return split
        splits.append((sum(1 << size for size in sizes), split))
    return min(splits, key=lambda each: each[0])[1]


def can_go(problem: Problem, factor: Factor) -> bool:
    """Whether a factor is gone with its last part: the levels handed on must be all there are,
    for what none of them stands for is lost on the way."""
    levels = _levels(problem, factor)
    return not levels or factor.child >= 0 or _all_keep(problem, factor, levels[-1])


def _all_keep(problem: Problem, factor: Factor, level: int) -> bool:
    links = links_of(problem, factor)
    return all(links[fault][level] == 1.0 for fault in bits(factor.scope))


def _split(
    problem: Problem, members: int, factors: tuple[Factor, ...], size: int, most_first: bool
) -> Split:
    ties = {
        fault: sum(factor.scope >> fault & 1 for factor in factors) * (-1 if most_first else 1)
        for fault in bits(members)
    }
    parts: list[Part] = []
    last: dict[Factor, Part] = {}
    fresh = len(problem.ids)
    for factor in factors:
        levels = _levels(problem, factor) if size else ()
        if levels:
            links = [fault for fault in bits(factor.scope) if fault != factor.child]
            links.sort(key=lambda fault: (ties[fault], fault))
            wide = (len(levels) - 1).bit_length()
            before: tuple[int, ...] = ()
            while len(links) > size:
                after = tuple(range(fresh, fresh + wide))
                parts.append(_part(factor, links[:size], before, after))
                links, before, fresh = links[size:], after, fresh + wide
            parts.append(_part(factor, links, before, ()))
        else:
            parts.append(Part(factor, factor.scope))
        last[factor] = parts[-1]
    everyone = members | (1 << fresh) - (1 << len(problem.ids))
    shape = shape_of(tuple(part.scope for part in parts), everyone)
    return Split(tuple(parts), shape, len(problem.ids), last)


def _part(
    factor: Factor, links: Sequence[int], before: tuple[int, ...], after: tuple[int, ...]
) -> Part:
    ends = after or ((factor.child,) if factor.child >= 0 else ())
    scope = sum(1 << number for number in (*links, *before, *ends))
    return Part(factor, scope, tuple(links), before, after)


def _levels(problem: Problem, factor: Factor) -> tuple[int, ...]:
    """The levels between which a large factor tells apart, the one least often kept to first;
    none for a small one. Of a condition's own table: spared, and the level that all keep to."""
    if factor.child == WRITTEN or factor.scope.bit_count() < LARGE:
        return ()
    if factor.child >= 0:
        return (1, 0)
    links = links_of(problem, factor)
    faults = bits(factor.scope)
    standing = [k for k, term in enumerate(factor.terms) if term]
    standing.sort(key=lambda k: min(links[fault][k] for fault in faults))
    rising = all(
        links[fault][lower] <= links[fault][upper] and factor.terms[upper]
        for lower, upper in pairwise(standing)
        for fault in faults
    )
    return tuple(standing) if rising else ()


def links_of(problem: Problem, factor: Factor) -> dict[int, tuple[float, ...]]:
    """How far each fault that can raise the level spares each one."""
    count = len(problem.observed)
    if factor.child == SPANS and factor.name < count:
        return problem.observed[factor.name].links
    condition = factor.child if factor.child >= 0 else factor.name - count
    return {cause: (1.0, spared) for cause, spared in problem.parents[condition].items()}


def table_of(problem: Problem, part: Part, order: list[int]) -> Table:
    """The part's table over the numbers in `order` (bit 0 first)."""
    factor = part.factor
    if not part.links:
        return build(problem, factor, order)
    links = links_of(problem, factor)
    levels = _levels(problem, factor)
    kept = [_product([links[fault][k] for fault in part.links]) for k in levels]
    reached = range(1 << len(part.before))
    table: Table = []
    if part.after:
        for to in range(1 << len(part.after)):
            for at in reached:
                table += _step(kept, at, to)
        made = (*part.links, *part.before, *part.after)
    elif factor.child >= 0:
        leak = factor.terms[0]
        absent = [leak * value for value in kept[0]]
        absent += [0.0] * len(absent) if part.before else []
        table = absent + [1.0 - value for value in absent]
        made = (*part.links, *part.before, factor.child)
    else:
        for at in reached:
            table += _ended(kept, [factor.terms[k] for k in levels], at)
        made = (*part.links, *part.before)
    return reordered(table, made, order)


def _product(factors: Sequence[float]) -> Table:
    table: Table = [1.0]
    for c in factors:
        table += table if c == 1.0 else [value * c for value in table]
    return table


def _step(kept: Sequence[Table], at: int, to: int) -> Table:
    """How likely the part's faults take the level from `at` to `to`; `kept[k]`: that they bring
    it no higher than k."""
    if to < at or to >= len(kept):
        return [0.0] * len(kept[0])
    if to == at:
        return kept[to]
    return [max(0.0, upper - lower) for upper, lower in zip(kept[to], kept[to - 1], strict=True)]


def _ended(kept: Sequence[Table], terms: Sequence[float], at: int) -> Table:
    """The likelihood once the level `at` is reached before the last part: no lower one counts.
    (Of a level that there is none of, anything: it is never reached.)"""
    if at >= len(kept):
        return [1.0] * len(kept[0])
    total = [0.0] * len(kept[0])
    for values, term in zip(kept[at:], terms[at:], strict=True):
        total = [sum_ + value * term for sum_, value in zip(total, values, strict=True)]
    return [max(0.0, value) for value in total]
