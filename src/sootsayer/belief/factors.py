"""The tables that tie faults together, named cheaply first and built where they are needed."""

from __future__ import annotations

from typing import NamedTuple

from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.tables import Table, bits, reordered

# `child` of a factor that is no condition's own table.
SPANS = -1
WRITTEN = -2


class Factor(NamedTuple):
    """A table still to be built: sum over k of terms[k] * product over links of c[k].

    `name` and `terms` tell it from all others of its problem: evidence number, or the number
    of all evidence + a condition's number. With a fault as `child`, the table is a condition's
    own: terms[0] * product where the child is absent, 1 - that where it is present. With
    `WRITTEN`, `terms` is the table itself, over `scope` with its lowest number as bit 0.
    """

    name: int
    scope: int
    terms: tuple[float, ...]
    child: int


def build(problem: Problem, factor: Factor, order: list[int]) -> Table:
    """The factor's table over the faults in `order` (bit 0 first), by doubling."""
    if factor.child == WRITTEN:
        return reordered(factor.terms, bits(factor.scope), order)
    if factor.child >= 0:
        return _own_table(problem, factor, order)
    count = len(problem.observed)
    if factor.name < count:
        links = problem.observed[factor.name].links
    else:
        links = {c: (1.0, q) for c, q in problem.parents[factor.name - count].items()}
    return _spanned(factor.terms, [links[fault] for fault in order])


def _spanned(terms: tuple[float, ...], links: list[tuple[float, ...]]) -> Table:
    total: Table = []
    for k, term in enumerate(terms):
        if not term:
            continue
        table = [term]
        for factors in links:
            c = factors[k]
            table += table if c == 1.0 else [value * c for value in table]
        total = list(map(float.__add__, total, table)) if total else table
    # Rounding may leave a hair below nothing where a level is all but impossible.
    return total if min(total) >= 0.0 else [max(0.0, value) for value in total]


def _own_table(problem: Problem, factor: Factor, order: list[int]) -> Table:
    causes = problem.parents[factor.child]
    table, ones = [factor.terms[0]], [0.0]
    for fault in order:
        if fault == factor.child:
            table += [-value for value in table]
            ones += [1.0] * len(ones)
        else:
            q = causes[fault]
            table += [value * q for value in table]
            ones += ones
    return list(map(float.__add__, table, ones))


def masked(one: Observed, terms: tuple[float, ...], links: list[int], hiders: list[int]) -> Factor:
    """Hidden evidence as one written table over open `links` and `hiders`, nearest first; no
    other hider of `one` may be present. `terms` has the settled links taken in, or is a single
    likelihood where all links are settled."""
    likelihood = dict(one.hiders)
    made = links + hiders[::-1]
    table = _spanned(terms, [one.links[fault] for fault in links])
    for hider in reversed(hiders):
        table += [likelihood[hider]] * len(table)
    scope = sum(1 << fault for fault in made)
    # The nearest hider was put in last: bring the table into the order of numbers.
    return Factor(one.number, scope, tuple(reordered(table, made, bits(scope))), WRITTEN)


def some_of(name: int, faults: list[int]) -> Factor:
    """That at least one of the faults is present."""
    table = (0.0, *[1.0] * ((1 << len(faults)) - 1))
    return Factor(name, sum(1 << fault for fault in faults), table, WRITTEN)
