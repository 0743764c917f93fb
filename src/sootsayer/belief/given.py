"""What a problem becomes in one leaf, where some faults are settled as present or absent."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.belief.factors import SPANS, Factor, masked, some_of
from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.settling import Settled, hiding
from sootsayer.belief.tables import bits

# Products below this hand their power of two on, against underflow.
SMALL = 1e-60


@dataclass(frozen=True, slots=True)
class Leaf:
    """A network narrowed to the faults still open: `weights` (absent, present) of each, and
    the factors that tie them. `scale` is mantissa and power of two of what is constant."""

    settled: Settled
    scale: tuple[float, int]
    weights: dict[int, tuple[float, float]]
    factors: tuple[Factor, ...]


class _Narrowing:
    """Gathers weights and factors of one leaf."""

    def __init__(self, problem: Problem, leaf: Settled) -> None:
        self.problem, self.leaf = problem, leaf
        self.present, self.absent, self.some = leaf
        self.settled = self.present | self.absent
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
        terms, open_links = self.taken_in(terms, links)
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
            self.factors.append(Factor(name, scope, terms, SPANS))

    def taken_in(
        self, terms: tuple[float, ...], links: Mapping[int, tuple[float, ...]]
    ) -> tuple[tuple[float, ...], list[int]]:
        """The terms with the settled links taken in, and the open ones."""
        open_links = []
        for fault, factors in links.items():
            if self.present >> fault & 1:
                terms = tuple(t * c for t, c in zip(terms, factors, strict=True))
            elif not self.absent >> fault & 1:
                open_links.append(fault)
        return terms, open_links

    def witness(self, one: Observed) -> None:
        """Adds one piece of evidence."""
        near: list[int] = []
        for hider, likelihood in one.hiders:
            if self.present >> hider & 1:
                if near:
                    self.factors.append(masked(one, (likelihood,), [], near))
                else:
                    self.constant(likelihood)
                return
            if not self.absent >> hider & 1:
                near.append(hider)
        if not near:
            self.spans(one.number, one.terms, one.links)
        elif one.number in hiding(self.problem).channel_of:
            # One of them is present, so what stands where none is never counts.
            self.factors.append(masked(one, (1.0,), [], near))
        else:
            terms, links = self.taken_in(one.terms, one.links)
            self.factors.append(masked(one, terms, links, near))

    def evidence(self) -> None:
        for fault, present in enumerate(self.problem.present):
            if present == 1.0 or self.absent >> fault & 1:
                continue
            if self.present >> fault & 1:
                self.constant(present)
            else:
                self.weigh(fault, 1.0, present)
        for one in self.problem.observed:
            self.witness(one)
        for channel, hiders in enumerate(hiding(self.problem).channels):
            if self.some >> channel & 1 and not hiders & self.present:
                self.factors.append(some_of(channel, bits(hiders & ~self.absent)))

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

    def gathered(self) -> Leaf:
        return Leaf(
            settled=self.leaf,
            scale=(self.mantissa, self.power),
            weights={fault: (w[0], w[1]) for fault, w in sorted(self.weights.items())},
            factors=tuple(sorted(self.factors)),
        )


def narrow(problem: Problem, leaf: Settled, wanted: int = 0) -> Leaf:
    """The problem in this leaf; open conditions on which nothing observed depends are left out
    unless in `wanted`, a bitmask of fault numbers."""
    work = _Narrowing(problem, leaf)
    work.evidence()
    work.settled_faults()
    work.open_faults(wanted)
    return work.gathered()


def share_of(problem: Problem, leaf: Settled, one: Observed) -> Leaf:
    """What one piece of evidence alone adds to a leaf; nothing of the faults themselves."""
    work = _Narrowing(problem, leaf)
    work.witness(one)
    return work.gathered()
