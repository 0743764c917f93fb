"""What a problem becomes once some faults are settled as present or absent.

Who hides what is settled by a tree: each leaf settles just enough hiders for every piece of
evidence to know its winner, or that it has none. Leaves exclude each other and together cover
everything, so sums over leaves are exact, also where hiders of one channel hide different
things.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.tables import Table, bits

# More leaves than this and the case counts as too wide.
MOST_LEAVES = 512

# Products below this hand their power of two on, against underflow.
SMALL = 1e-60


class TooWide(Exception):  # noqa: N818 - not an error, a fork in the road
    """Exact elimination would need too large a table, or too many leaves.

    `drop`: the evidence that ties most of the knot, or None where none does.
    """

    def __init__(self, drop: str | None) -> None:
        super().__init__(drop)
        self.drop = drop


class Factor(NamedTuple):
    """A table still to be built: sum over k of terms[k] * product over links of c[k].

    `name` and `terms` tell it from all others of its problem: evidence number, or the number
    of all evidence + a condition's number. With `child`, the table is a condition's own:
    terms[0] * product where the child is absent, 1 - that where it is present.
    """

    name: int
    scope: int
    terms: tuple[float, ...]
    child: int


@dataclass(frozen=True, slots=True)
class Leaf:
    """A network narrowed to the faults still open: `weights` (absent, present) of each, and
    the factors that tie them. `scale` is mantissa and power of two of what is constant."""

    present: int
    absent: int
    scale: tuple[float, int]
    weights: dict[int, tuple[float, float]]
    factors: tuple[Factor, ...]


def leaves(problem: Problem, present: int = 0, absent: int = 0) -> Iterator[tuple[int, int]]:
    """All ways to settle who hides what, as bitmasks (present, absent); nearest hiders first."""
    hidden = [one for one in problem.observed if one.hiders]
    stack = [(present, absent)]
    while stack:
        present, absent = stack.pop()
        fork = _undecided(hidden, present, absent)
        if fork is None:
            yield present, absent
        else:
            stack.append((present, absent | 1 << fork))
            stack.append((present | 1 << fork, absent))


def check_leaves(problem: Problem) -> None:
    """Raises TooWide where there are more leaves than `MOST_LEAVES`."""
    for count, _ in enumerate(leaves(problem), 1):
        if count > MOST_LEAVES:
            most = max(problem.observed, key=lambda one: len(one.hiders))
            raise TooWide(most.id)


def _undecided(hidden: list[Observed], present: int, absent: int) -> int | None:
    for one in hidden:
        for hider, _ in one.hiders:
            if present >> hider & 1:
                break
            if not absent >> hider & 1:
                return hider
    return None


class _Narrowing:
    """Gathers weights and factors of one leaf."""

    def __init__(self, problem: Problem, present: int, absent: int) -> None:
        self.problem, self.present, self.absent = problem, present, absent
        self.settled = present | absent
        self.mantissa, self.power = 1.0, 0
        self.weights: dict[int, list[float]] = {}
        self.factors: list[Factor] = []

    def constant(self, value: float) -> None:
        self.mantissa *= value
        if self.mantissa < SMALL:
            self.mantissa, power = math.frexp(self.mantissa)
            self.power += power

    def weigh(self, fault: int, absent: float, present: float) -> None:
        weight = self.weights.setdefault(fault, [1.0, 1.0])
        weight[0] *= absent
        weight[1] *= present
        largest = max(weight)
        if 0.0 < largest < SMALL:
            power = math.frexp(largest)[1]
            weight[:] = [math.ldexp(value, -power) for value in weight]
            self.power += power

    def spans(
        self, name: int, terms: tuple[float, ...], links: Mapping[int, tuple[float, ...]]
    ) -> None:
        """Adds sum over k of terms[k] * product of links[x][k], settled faults taken in."""
        open_links = []
        for fault, factors in links.items():
            if self.present >> fault & 1:
                terms = tuple(t * c for t, c in zip(terms, factors, strict=True))
            elif not self.absent >> fault & 1:
                open_links.append(fault)
        standing = [k for k, term in enumerate(terms) if term]
        if len(standing) == 1:  # a product: no table at all
            self.constant(terms[standing[0]])
            for fault in open_links:
                self.weigh(fault, 1.0, links[fault][standing[0]])
        elif not open_links:
            self.constant(max(0.0, math.fsum(terms)))
        elif len(open_links) == 1:
            with_it = (t * c for t, c in zip(terms, links[open_links[0]], strict=True))
            total = max(0.0, math.fsum(terms))
            self.weigh(open_links[0], total, max(0.0, math.fsum(with_it)))
        else:
            scope = sum(1 << fault for fault in open_links)
            self.factors.append(Factor(name, scope, terms, -1))

    def evidence(self) -> None:
        for fault, present in enumerate(self.problem.present):
            if present == 1.0 or self.absent >> fault & 1:
                continue
            if self.present >> fault & 1:
                self.constant(present)
            else:
                self.weigh(fault, 1.0, present)
        for name, one in enumerate(self.problem.observed):
            for hider, likelihood in one.hiders:
                if self.present >> hider & 1:
                    self.constant(likelihood)
                    break
            else:
                self.spans(name, one.terms, one.links)

    def settled_faults(self) -> None:
        for fault in bits(self.settled):
            prior, causes = self.problem.priors[fault], self.problem.parents[fault]
            leak = 1.0 - prior
            if self.absent >> fault & 1:
                self.spans(-1, (leak,), {c: (q,) for c, q in causes.items()})
            elif causes:
                links = {c: (1.0, q) for c, q in causes.items()}
                self.spans(len(self.problem.observed) + fault, (1.0, -leak), links)
            else:
                self.constant(prior)

    def open_faults(self, wanted: int) -> None:
        """Own tables of the faults that matter: wanted, tied, or causes of such."""
        todo = wanted & ~self.settled
        for fault in self.weights:
            todo |= 1 << fault
        for factor in self.factors:
            todo |= factor.scope
        done = 0
        while todo:
            fault = todo.bit_length() - 1
            todo ^= 1 << fault
            done |= 1 << fault
            causes = self.problem.parents[fault]
            leak, scope = 1.0 - self.problem.priors[fault], 0
            for cause, q in causes.items():
                if self.present >> cause & 1:
                    leak *= q
                elif not self.absent >> cause & 1:
                    scope |= 1 << cause
            if scope:
                self.weigh(fault, 1.0, 1.0)
                name = len(self.problem.observed) + fault
                self.factors.append(Factor(name, scope | 1 << fault, (leak,), fault))
                todo |= scope & ~done
            elif causes:
                self.weigh(fault, leak, 1.0 - leak)
            else:
                self.weigh(fault, leak, self.problem.priors[fault])


def narrow(problem: Problem, present: int, absent: int, wanted: int = 0) -> Leaf:
    """The problem with these faults settled; open conditions on which nothing observed depends
    are left out unless in `wanted`. All three are bitmasks of fault numbers."""
    work = _Narrowing(problem, present, absent)
    work.evidence()
    work.settled_faults()
    work.open_faults(wanted)
    return Leaf(
        present=present,
        absent=absent,
        scale=(work.mantissa, work.power),
        weights={fault: (w[0], w[1]) for fault, w in sorted(work.weights.items())},
        factors=tuple(sorted(work.factors)),
    )


def build(problem: Problem, factor: Factor, order: list[int]) -> Table:
    """The factor's table over the faults in `order` (bit 0 first), by doubling."""
    if factor.child >= 0:
        return _own_table(problem, factor, order)
    count = len(problem.observed)
    if factor.name < count:
        links = problem.observed[factor.name].links
    else:
        links = {c: (1.0, q) for c, q in problem.parents[factor.name - count].items()}
    total: Table = []
    for k, term in enumerate(factor.terms):
        if not term:
            continue
        table = [term]
        for fault in order:
            c = links[fault][k]
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
