"""Tables over many faults told as stars of small ones.

A large factor is a sum over levels of products. With the level as a number of its own, each of
its faults is tied to that alone and not to the others (Díez & Galán 2003), which makes far
narrower tables than a chain does. The price: terms have either sign, and where they all but
cancel digits are lost. So what a star says is believed only where the same with other rounding
errors says the same of all faults (after Vignes 1993); else the chain, in which nothing cancels.
"""

from __future__ import annotations

from typing import NamedTuple

from sootsayer.belief.clusters import Shape, shape_of
from sootsayer.belief.factors import WRITTEN, Factor, build
from sootsayer.belief.ordering import Hub
from sootsayer.belief.problem import Problem
from sootsayer.belief.splitting import links_of
from sootsayer.belief.tables import Table, bits, reordered

# No table of fewer faults than this is told as a star.
LARGE = 10


class Ray(NamedTuple):
    """A factor or a part of one: its terms at the `hub`, the level in as many numbers of two
    states as it takes; or, with `links`, how far one fault spares each level. Without a hub,
    the whole factor."""

    factor: Factor
    scope: int
    links: tuple[int, ...] = ()
    hub: tuple[int, ...] = ()


class Star(NamedTuple):
    """A piece's factors in parts, and the tree for them; numbers from `faults` on are levels, not
    faults; `hubs`, for each evidence that is a star the part with its terms."""

    parts: tuple[Ray, ...]
    shape: Shape
    faults: int
    hubs: dict[Factor, Ray]


def star_of(problem: Problem, members: int, factors: tuple[Factor, ...], large: int) -> Star:
    """The factors of a piece, those of so many faults as stars."""
    parts: list[Ray] = []
    hubs: dict[Factor, Ray] = {}
    fresh = len(problem.ids)
    for factor in factors:
        levels = () if factor.scope.bit_count() < large else _levels(problem, factor)
        if not levels:
            parts.append(Ray(factor, factor.scope))
            continue
        hub = tuple(range(fresh, fresh + (len(levels) - 1).bit_length()))
        fresh += len(hub)
        seat = sum(1 << number for number in hub)
        own = 0 if factor.child < 0 else 1 << factor.child
        hubs[factor] = Ray(factor, seat | own, (), hub)
        parts.append(hubs[factor])
        parts += [
            Ray(factor, seat | 1 << fault, (fault,), hub) for fault in bits(factor.scope & ~own)
        ]
    everyone = members | (1 << fresh) - (1 << len(problem.ids))
    # A message over a hub, or over the fault that it brings about alone, would have either sign,
    # and where it is 0 nothing can be divided by it; so hubs go whole, and before that fault.
    kept_together = tuple(
        Hub(sum(1 << number for number in ray.hub), ray.factor.child) for ray in hubs.values()
    )
    shape = shape_of(tuple(part.scope for part in parts), everyone, kept_together)
    return Star(tuple(parts), shape, len(problem.ids), hubs)


def _levels(problem: Problem, factor: Factor) -> tuple[int, ...]:
    """The levels of a factor, the one that every fault spares last; none of a written one. The
    last stands at the hub even where its term is 0: it is what is left without the factor."""
    if factor.child == WRITTEN:
        return ()
    if factor.child >= 0 or factor.name >= len(problem.observed):
        return (1, 0)
    last = len(factor.terms) - 1
    return (*(k for k, term in enumerate(factor.terms) if term and k < last), last)


def table_of_ray(problem: Problem, ray: Ray, order: list[int]) -> Table:
    """The part's table over the numbers in `order` (bit 0 first)."""
    factor, hub = ray.factor, ray.hub
    if not hub:
        return build(problem, factor, order)
    levels = _levels(problem, factor)
    missing = (1 << len(hub)) - len(levels)
    if ray.links:
        (fault,) = ray.links
        spared = links_of(problem, factor)[fault]
        if len(hub) == 1:
            low, high = spared[levels[0]], spared[levels[1]]
            return [1.0, low, 1.0, high] if order[0] == fault else [1.0, 1.0, low, high]
        table = [1.0] * (1 << len(hub)) + [spared[k] for k in levels] + [1.0] * missing
        return reordered(table, (*hub, fault), order)
    if factor.child < 0:
        terms = [factor.terms[k] for k in levels]
        return reordered(terms + [0.0] * missing, hub, order)
    leak = factor.terms[0]
    return reordered([leak, 0.0, -leak, 1.0], (*hub, factor.child), order)


def gone(problem: Problem, ray: Ray, order: list[int]) -> Table:
    """What stands at the hub of evidence that is left out."""
    levels = _levels(problem, ray.factor)
    table = [float(i == len(levels) - 1) for i in range(1 << len(ray.hub))]
    return reordered(table, ray.hub, order)
