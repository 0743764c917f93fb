"""Tables over many faults told as differences of products.

"No fault brings it above this level" is a product over the faults, one number each; a finding at
a level is the difference of two such products, and a condition is what its causes do not spare
(Díez & Galán 2003). A chooser, a number beyond the faults' with a state for each product, ties a
fault to the finding with a table of its own, so that faults which share a finding need no table
together. What the products weigh may be negative: see `whole`, where nothing is lost by that.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from sootsayer.belief.clusters import Shape, shape_of
from sootsayer.belief.factors import SPANS, WRITTEN, Factor, build
from sootsayer.belief.problem import Problem
from sootsayer.belief.tables import Table, bits

# A table over fewer faults than this is built as it stands.
FEW = 4


class Told(NamedTuple):
    """One table, over the numbers `scope` (bit 0 first). `end`: it weighs the products of this
    factor, and with `free` in its place the factor is gone."""

    scope: tuple[int, ...]
    table: Table
    end: Factor | None = None
    free: Table = []  # noqa: RUF012 (never changed)


class Products(NamedTuple):
    """A piece's tables, and the tree of clusters for them."""

    tables: tuple[Told, ...]
    shape: Shape


def products_of(problem: Problem, members: int, factors: tuple[Factor, ...]) -> Products:
    """The piece with these factors over `members` (a bitmask), large tables told as products."""
    tables: list[Told] = []
    fresh = len(problem.ids)
    for factor in factors:
        levels = _levels(problem, factor)
        if levels:
            choosers = tuple(range(fresh, fresh + (len(levels) - 1).bit_length()))
            fresh += len(choosers)
            tables += _told(problem, factor, levels, choosers)
        else:
            scope = tuple(bits(factor.scope))
            table = build(problem, factor, list(scope))
            # Of few faults, and nobody asks what it is without it: as it stands, and all ones.
            tables.append(Told(scope, table, factor, [1.0] * len(table)))
    everyone = members | (1 << fresh) - (1 << len(problem.ids))
    scopes = tuple(sorted({sum(1 << number for number in told.scope) for told in tables}))
    return Products(tuple(tables), shape_of(scopes, everyone))


def _levels(problem: Problem, factor: Factor) -> tuple[int, ...]:
    """The levels up to which products are made, the highest last, which all faults keep to; none
    for a factor that is built as it stands."""
    if factor.child == WRITTEN or factor.scope.bit_count() < FEW:
        return ()
    if factor.child >= 0:
        return (1, 0)
    links = _links(problem, factor)
    faults = bits(factor.scope)
    standing = [k for k, term in enumerate(factor.terms) if term]
    top = next(k for k in range(len(factor.terms) - 1, -1, -1) if _kept(links, faults, k))
    return (*(k for k in standing if k != top), top)


def _kept(links: Mapping[int, tuple[float, ...]], faults: list[int], level: int) -> bool:
    return all(links[fault][level] == 1.0 for fault in faults)


def _told(
    problem: Problem, factor: Factor, levels: tuple[int, ...], choosers: tuple[int, ...]
) -> list[Told]:
    links = _links(problem, factor)
    states = 1 << len(choosers)
    tables = []
    for fault in bits(factor.scope):
        if fault != factor.child:
            spared = [links[fault][k] for k in levels] + [1.0] * (states - len(levels))
            tables.append(Told((fault, *choosers), [x for c in spared for x in (1.0, c)]))
    nothing = [0.0] * (states - len(levels))
    if factor.child >= 0:  # absent: the leak times what the causes spare; present: the rest
        leak = factor.terms[0]
        table = [leak, 0.0, -leak, 1.0]
        return [*tables, Told((*choosers, factor.child), table, factor, [0.0, 1.0, 0.0, 1.0])]
    terms = [factor.terms[k] for k in levels] + nothing
    free = [0.0] * (len(levels) - 1) + [1.0] + nothing
    return [*tables, Told(choosers, terms, factor, free)]


def _links(problem: Problem, factor: Factor) -> Mapping[int, tuple[float, ...]]:
    count = len(problem.observed)
    if factor.child == SPANS and factor.name < count:
        return problem.observed[factor.name].links
    condition = factor.child if factor.child >= 0 else factor.name - count
    return {cause: (1.0, spared) for cause, spared in problem.parents[condition].items()}
