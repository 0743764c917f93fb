"""Tables over many faults told as a chain of small ones.

"Seen unless no fault brings it" can be asked of a few faults at a time, each handing on
whether it was brought already (parent divorcing: Olesen et al. 1989). The chain has numbers
of its own beyond the faults', which are summed out like faults; nothing in it is negative, so
nothing cancels.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from sootsayer.belief.clusters import Shape, shape_of
from sootsayer.belief.factors import SPANS, WRITTEN, Factor, build
from sootsayer.belief.problem import Problem
from sootsayer.belief.tables import Table, bits

# No table of fewer faults than this is split.
LARGE = 6

# Ways to split: faults in a part, and whether those tied to most come first; 0 is none.
WAYS = ((0, False), (2, True), (3, False))


class Part(NamedTuple):
    """A factor or a part of one: over `links` of it, what the part `before` handed on, and what
    it hands on as `after`; -1 where there is none. Without links, the whole factor."""

    factor: Factor
    scope: int
    links: tuple[int, ...] = ()
    before: int = -1
    after: int = -1


class Split(NamedTuple):
    """A piece's factors in parts, and the tree for them; `last`, for each factor the part where
    its likelihood stands: with that part replaced by ones, the factor is gone."""

    parts: tuple[Part, ...]
    shape: Shape
    last: dict[Factor, Part]


def cheapest(problem: Problem, members: int, factors: tuple[Factor, ...]) -> Split:
    """The split with the smallest tables, of all in `WAYS`; the first where they are even."""
    ways = WAYS if any(_flat(problem, factor) for factor in factors) else WAYS[:1]
    splits = [_split(problem, members, factors, *way) for way in ways]
    return min(splits, key=lambda split: sum(1 << len(c.scope) for c in split.shape.clusters))


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
        before = -1
        if size and _flat(problem, factor):
            links = [fault for fault in bits(factor.scope) if fault != factor.child]
            links.sort(key=lambda fault: (ties[fault], fault))
            while len(links) > size:
                parts.append(_part(factor, links[:size], before, fresh))
                links = links[size:]
                before, fresh = fresh, fresh + 1
            parts.append(_part(factor, links, before, -1))
        else:
            parts.append(Part(factor, factor.scope))
        last[factor] = parts[-1]
    everyone = members | (1 << fresh) - (1 << len(problem.ids))
    shape = shape_of(tuple(part.scope for part in parts), everyone)
    return Split(tuple(parts), shape, last)


def _part(factor: Factor, links: Sequence[int], before: int, after: int) -> Part:
    ends = [before, after if after >= 0 else max(factor.child, -1)]
    scope = sum(1 << fault for fault in (*links, *ends) if fault >= 0)
    return Part(factor, scope, tuple(links), before, after)


def _flat(problem: Problem, factor: Factor) -> tuple[int, int] | None:
    """Of a large factor a - b * product of links, the numbers of both terms; else None. Of a
    condition's own table both are 0."""
    if factor.child == WRITTEN or factor.scope.bit_count() < LARGE:
        return None
    if factor.child >= 0:
        return 0, 0
    standing = [k for k, term in enumerate(factor.terms) if term]
    if len(standing) != 2 or sum(factor.terms[k] for k in standing) < 0.0:
        return None
    links = _links(problem, factor)
    for flat, steep in (standing, standing[::-1]):
        if factor.terms[flat] > 0.0 and all(links[f][flat] == 1.0 for f in bits(factor.scope)):
            return flat, steep
    return None


def _links(problem: Problem, factor: Factor) -> dict[int, tuple[float, ...]]:
    count = len(problem.observed)
    if factor.child == SPANS and factor.name < count:
        return problem.observed[factor.name].links
    condition = factor.child if factor.child >= 0 else factor.name - count
    return {cause: (1.0, spared) for cause, spared in problem.parents[condition].items()}


def table_of(problem: Problem, part: Part, order: list[int]) -> Table:
    """The part's table over the numbers in `order` (bit 0 first)."""
    if not part.links:
        return build(problem, part.factor, order)
    factor = part.factor
    found = _flat(problem, factor)
    assert found is not None
    flat, steep = (1, 1) if factor.child >= 0 else found
    links = _links(problem, factor)
    spared: Table = [1.0]
    for fault in part.links:
        c = links[fault][steep]
        spared += [value * c for value in spared]
    made = list(part.links)
    if part.after >= 0:  # handed on: not brought yet, brought already
        open_yet = (spared, [1.0 - value for value in spared])
        settled = ([0.0] * len(spared), [1.0] * len(spared))
        table = _ended(open_yet, settled, part.before)
        made += [n for n in (part.before, part.after) if n >= 0]
    elif factor.child >= 0:
        absent = [factor.terms[0] * value for value in spared]
        open_yet = (absent, [1.0 - value for value in absent])
        settled = ([0.0] * len(spared), [1.0] * len(spared))
        table = _ended(open_yet, settled, part.before)
        made += [part.before, factor.child]
    else:
        top, slope = factor.terms[flat], factor.terms[steep]
        table = [max(0.0, top + slope * value) for value in spared] + [top] * len(spared)
        made += [part.before]
    return _reordered(table, made, order)


def _ended(open_yet: tuple[Table, Table], settled: tuple[Table, Table], before: int) -> Table:
    """The states of what was handed on, then of what is."""
    if before < 0:
        return open_yet[0] + open_yet[1]
    return open_yet[0] + settled[0] + open_yet[1] + settled[1]


def _reordered(table: Table, made: list[int], order: list[int]) -> Table:
    place = {number: 1 << i for i, number in enumerate(made)}
    index = [0]
    for number in order:
        index += [i + place[number] for i in index]
    return [table[i] for i in index]
