"""A piece told as products, solved in whole numbers.

Differences of nearly equal numbers lose digits, so every number is a whole one, so many times
2 ** -bits: nothing is rounded but the bits far behind. How many of them were lost is counted, and
where too few are left the piece is solved again with more. Messages go to the root of the tree of
clusters and back, as in `tree`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.belief.clusters import Cluster
from sootsayer.belief.factors import Factor
from sootsayer.belief.products import Products, Told
from sootsayer.belief.tables import widen

# Whole numbers of so many bits behind the point; doubled where that is too few.
BITS = 192
MOST_BITS = 3072
# Bits that must be left of what was counted lost: more than a float has, by a good deal.
LEFT = 80

Whole = list[int]
Weights = Mapping[int, tuple[float, float]]


class TooFewBits(Exception):  # noqa: N818 - not an error, a fork in the road
    """Too much was lost; with more bits it would do."""


@dataclass(frozen=True, slots=True)
class Laid:
    """The tables of a piece laid into its clusters, as whole numbers of `bits` bits.

    `fixed`: of each cluster, the product of the tables that no question changes. `ends`: the
    others, each with its seat, its factor, and what stands there when the factor is gone.
    """

    products: Products
    bits: int
    fixed: list[Whole]
    ends: list[list[tuple[int, Factor, Whole, Whole]]]


@dataclass(frozen=True, slots=True)
class Ran:
    """The piece's weight, mantissa and power of two, and each fault's posterior."""

    weight: tuple[float, int]
    posteriors: dict[int, float]


@dataclass(slots=True)
class Solver:
    """Questions to one piece: its weight and posteriors, with other odds, without a factor."""

    products: Products
    weights: Weights
    laid: Laid | None = None
    asked: dict[object, Ran] = field(default_factory=dict)

    def ask(self, odds: Mapping[int, float] | None = None, gone: Factor | None = None) -> Ran:
        """With the odds of faults multiplied (by 0: absent), and without the factor `gone`."""
        changes = odds or {}
        key = (tuple(sorted(changes.items())), gone)
        found = self.asked.get(key)
        if found is None:
            weights = {f: (a, p * changes.get(f, 1.0)) for f, (a, p) in self.weights.items()}
            found = self.asked[key] = self._with_enough_bits(weights, gone)
        return found

    def _with_enough_bits(self, weights: Weights, gone: Factor | None) -> Ran:
        while True:
            if self.laid is None:
                self.laid = lay(self.products, BITS)
            try:
                return _run(self.laid, weights, gone)
            except TooFewBits:
                if self.laid.bits >= MOST_BITS:
                    return Ran((0.0, 0), dict.fromkeys(weights, 0.0))
                self.laid = lay(self.products, 2 * self.laid.bits)


def lay(products: Products, bits: int) -> Laid:
    """The tables in the clusters where they stand."""
    shape = products.shape
    fixed: list[Whole] = [[] for _ in shape.clusters]
    ends: list[list[tuple[int, Factor, Whole, Whole]]] = [[] for _ in shape.clusters]
    for told in products.tables:
        order = sorted(told.scope, key=shape.rank.__getitem__)
        at = shape.home[order[0]]
        scope = shape.clusters[at].scope
        seat = sum(1 << scope.index(number) for number in order)
        table = widen_whole(as_whole(reordered(told, told.table, order), bits), seat, len(scope))
        if told.end is None:
            fixed[at] = multiplied(fixed[at], table, bits) if fixed[at] else table
        else:
            free = as_whole(reordered(told, told.free, order), bits)
            ends[at].append((seat, told.end, table, widen_whole(free, seat, len(scope))))
    return Laid(products, bits, fixed, ends)


def as_whole(table: Sequence[float], bits: int) -> Whole:
    return [int(math.ldexp(value, bits)) for value in table]


def multiplied(one: Whole, other: Whole, bits: int) -> Whole:
    return [a * b >> bits for a, b in zip(one, other, strict=True)]


def widen_whole(table: Whole, seat: int, size: int) -> Whole:
    return widen(table, seat, size)  # type: ignore[arg-type, return-value]


def reordered(told: Told, table: Sequence[float], order: Sequence[int]) -> list[float]:
    place = {number: 1 << i for i, number in enumerate(told.scope)}
    index = [0]
    for number in order:
        index += [i + place[number] for i in index]
    return [table[i] for i in index]


def _run(laid: Laid, weights: Weights, gone: Factor | None) -> Ran:
    clusters = laid.products.shape.clusters
    bits = laid.bits
    children: list[list[int]] = [[] for _ in clusters]
    for at, cluster in enumerate(clusters):
        if cluster.parent >= 0:
            children[cluster.parent].append(at)
    local: list[Whole] = []
    sent: list[Whole] = []
    lost = [0] * len(clusters)
    power = 0
    for at, cluster in enumerate(clusters):
        here, taken = _local(laid, at, cluster, weights, gone)
        local.append(here)
        table = here
        for child in children[at]:
            table = multiplied(table, _seated(clusters, child, sent[child]), bits)
        message, shift = scaled(folded(table, cluster.own), bits)
        lost[at] = shift + max((lost[child] for child in children[at]), default=0)
        if not any(message):
            raise TooFewBits
        power += taken - shift
        sent.append(message)
    root = len(clusters) - 1
    if lost[root] > bits - LEFT:
        raise TooFewBits
    mantissa, more = math.frexp(float(sent[root][0] >> bits - 64))
    weight = (mantissa, more - 64 + power)
    return Ran(weight, _downward(laid, children, local, sent, lost, weights))


def _local(
    laid: Laid, at: int, cluster: Cluster, weights: Weights, gone: Factor | None
) -> tuple[Whole, int]:
    """A cluster's own tables and weights; and the power of two taken out of the weights."""
    bits = laid.bits
    table: Whole = [1 << bits]
    power = 0
    for number in cluster.scope[: cluster.own]:
        if number in weights:
            absent, present = weights[number]
            shift = math.frexp(max(absent, present))[1]
            power += shift
            low = int(math.ldexp(absent, bits - shift))
            high = int(math.ldexp(present, bits - shift))
            table = [v * low >> bits for v in table] + [v * high >> bits for v in table]
        else:
            table += table
    table = table * (1 << len(cluster.scope) - cluster.own)
    if laid.fixed[at]:
        table = multiplied(table, laid.fixed[at], bits)
    for _, factor, values, free in laid.ends[at]:
        table = multiplied(table, free if factor == gone else values, bits)
    return table, power


def _seated(clusters: Sequence[Cluster], child: int, message: Whole) -> Whole:
    """A child's message over the whole scope of its parent."""
    seat, parent = clusters[child].seat, clusters[clusters[child].parent]
    return widen_whole(message, seat, len(parent.scope))


def folded(table: Whole, own: int) -> Whole:
    for _ in range(own):
        table = [a + b for a, b in zip(table[0::2], table[1::2], strict=True)]
    return table


def scaled(table: Whole, bits: int) -> tuple[Whole, int]:
    """The table with its largest number brought near 1, and by how many bits it was raised."""
    largest = max(max(table), -min(table))
    shift = bits - largest.bit_length()
    if not largest or shift == 0:
        return table, 0
    if shift > 0:
        return [value << shift for value in table], shift
    return [value >> -shift for value in table], shift


def _downward(
    laid: Laid,
    children: Sequence[Sequence[int]],
    local: Sequence[Whole],
    sent: Sequence[Whole],
    lost: Sequence[int],
    weights: Weights,
) -> dict[int, float]:
    """Posteriors, from the root back to the leaves."""
    clusters, bits = laid.products.shape.clusters, laid.bits
    found: dict[int, float] = {}
    given: dict[int, tuple[Whole, int]] = {}
    for at in range(len(clusters) - 1, -1, -1):
        cluster = clusters[at]
        table, gone_bits = local[at], 0
        if at in given:
            message, gone_bits = given[at]
            own = (1 << len(cluster.scope)) - (1 << cluster.own)
            table = multiplied(table, widen_whole(message, own, len(cluster.scope)), bits)
        seated = [_seated(clusters, child, sent[child]) for child in children[at]]
        for i, child in enumerate(children[at]):
            part, spent = table, gone_bits
            for j, other in enumerate(children[at]):
                if j != i:
                    part = multiplied(part, seated[j], bits)
                    spent = max(spent, lost[other])
            message, shift = scaled(
                _seat_only(part, clusters[child].seat, len(cluster.scope)), bits
            )
            if spent + shift > bits - LEFT or not any(message):
                raise TooFewBits
            given[child] = (message, spent + shift)
        if any(number in weights for number in cluster.scope[: cluster.own]):
            for each in seated:
                table = multiplied(table, each, bits)
            _read_off(table, cluster, weights, found)
    return found


def _seat_only(table: Whole, seat: int, size: int) -> Whole:
    """The table with every position outside the seat summed out."""
    for position in range(size - 1, -1, -1):
        if not seat >> position & 1:
            block, out = 1 << position, []
            for i in range(0, len(table), 2 * block):
                out += [
                    a + b
                    for a, b in zip(
                        table[i : i + block], table[i + block : i + 2 * block], strict=True
                    )
                ]
            table = out
    return table


def _read_off(table: Whole, cluster: Cluster, weights: Weights, found: dict[int, float]) -> None:
    total = sum(table)
    for position, number in enumerate(cluster.scope[: cluster.own]):
        if number in weights:
            block = 1 << position
            present = sum(
                sum(table[i + block : i + 2 * block]) for i in range(0, len(table), 2 * block)
            )
            found[number] = min(1.0, max(0.0, present / total)) if total > 0 else 0.0
