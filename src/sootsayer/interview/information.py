"""What an answer is worth before it is given, in bits.

The mutual information of what a check yields and of what is wrong (de Kleer & Williams 1987
choose a measurement by the same expected drop of entropy).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from operator import mul

from sootsayer.belief.tables import Table

# What is left of a sum that should be nothing; gains below it are nothing.
NOTHING = 1e-12


def entropy(shares: Iterable[float]) -> float:
    """The entropy of a distribution, in bits."""
    return -math.fsum(p * math.log2(p) for p in shares if p > 0.0)


def binary_entropy(p: float) -> float:
    """The entropy of yes or no, in bits."""
    if p <= 0.0 or p >= 1.0:
        return 0.0
    return -p * math.log2(p) - (1.0 - p) * math.log2(1.0 - p)


def mutual_information(
    cells: Table, findings: Sequence[Sequence[Table]], outcomes: Sequence[Table]
) -> float:
    """Bits that the joint outcome of the findings tells of the cell; never below 0.

    `cells`: probabilities that add to 1; `findings`: for each, a table a level with the
    level's probability in each cell; `outcomes`: as `joint_outcomes` makes them of both.
    """
    noise = math.fsum(_noise(cells, levels) for levels in findings)
    gain = entropy(map(sum, outcomes)) - noise
    return gain if gain > NOTHING else 0.0


def _noise(cells: Table, levels: Sequence[Table]) -> float:
    """The entropy of a finding that is left when the cell is known."""
    log2 = math.log2
    return -math.fsum(
        math.fsum(map(mul, cells, [p * log2(p) if p > 0.0 else 0.0 for p in level]))
        for level in levels
    )


def expected_drop(
    with_each: Sequence[Table],
    cells: Table,
    likelihoods: Sequence[Table],
    weights: Sequence[float],
) -> float:
    """How far the entropies of single faults fall on average, added up, in bits; never below 0.

    `with_each`: for each fault the weights over the cells where it is present; `likelihoods`:
    for each joint outcome its probability in each cell; `weights`: what each fault counts.
    """
    counted = [pair for pair in zip(weights, with_each, strict=True) if pair[0]]
    after = []
    for likelihood in likelihoods:
        whole = math.fsum(map(mul, cells, likelihood))
        if whole > 0.0:
            left = (
                w * binary_entropy(math.fsum(map(mul, p, likelihood)) / whole) for w, p in counted
            )
            after.append(whole * math.fsum(left))
    before = math.fsum(weight * binary_entropy(math.fsum(p)) for weight, p in counted)
    drop = before - math.fsum(after)
    return drop if drop > NOTHING else 0.0
