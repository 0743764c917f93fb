"""Published values of what a question is worth (sources beside each check), and scikit-learn's
mutual information. "From memory": the tables were not read in the source."""

from __future__ import annotations

from itertools import product
from math import prod
from random import Random

import pytest
from sklearn.metrics import mutual_info_score

from sootsayer.belief.tables import Table
from sootsayer.interview.information import mutual_information
from sootsayer.interview.outcomes import joint_outcomes

NATS = 0.6931471805599453  # of a bit
PARTS = ("M1", "M2", "M3", "A1", "A2")


def gain(cells: Table, levels: list[Table]) -> float:
    return mutual_information(cells, [levels], joint_outcomes(cells, [levels]))


def predicted(working: set[str]) -> dict[str, set[int]]:
    """What the working parts of the polybox say of x, y and z: a..e are 3 2 2 3 3, f was seen
    to be 10 and g 12. x = ac, y = bd, z = ce, f = x + y, g = y + z."""
    said: dict[str, set[int]] = {"x": set(), "y": set(), "z": set()}
    for part, name in (("M1", "x"), ("M2", "y"), ("M3", "z")):
        if part in working:
            said[name].add(6)
    for _ in range(3):
        for part, one, other, total in (("A1", "x", "y", 10), ("A2", "y", "z", 12)):
            if part in working:
                said[one] |= {total - value for value in said[other]}
                said[other] |= {total - value for value in said[one]}
    return said


def consistent() -> tuple[list[float], list[dict[str, set[int]]]]:
    """The sets of broken parts that what was seen allows, by probability, and what each says."""
    weights, said = [], []
    for broken in product((False, True), repeat=len(PARTS)):
        working = {part for part, out in zip(PARTS, broken, strict=True) if not out}
        values = predicted(working)
        if all(len(found) <= 1 for found in values.values()):
            weights.append(prod(0.01 if out else 0.99 for out in broken))
            said.append(values)
    return [w / sum(weights) for w in weights], said


@pytest.mark.parametrize(("probe", "bits"), [("x", 1.040838), ("y", 0.081544), ("z", 0.047402)])
def test_b11_polybox(probe: str, bits: float) -> None:
    """B11. de Kleer & Williams 1987, the polybox with p = .01 for each part: x is the best probe.

    From memory: the limit of the paper's formula for many possible values, in which all values
    that are not predicted are one outcome.
    """
    cells, said = consistent()
    values = sorted({value for each in said for value in each[probe]})
    levels: list[Table] = [[float(each[probe] == {v}) for each in said] for v in values]
    levels.append([float(not each[probe]) for each in said])
    assert gain(cells, levels) == pytest.approx(bits, abs=5e-7)


@pytest.mark.parametrize(
    ("counts", "bits"),
    [
        ([(2, 3), (4, 0), (3, 2)], 0.246749820),
        ([(3, 4), (6, 1)], 0.151835501),
        ([(6, 2), (3, 3)], 0.048127030),
        ([(2, 2), (4, 2), (3, 1)], 0.029222566),
    ],
    ids=["outlook", "humidity", "wind", "temperature"],
)
def test_b12_play_tennis(counts: list[tuple[int, int]], bits: float) -> None:
    """B12. Quinlan's play-tennis (in Mitchell, Machine Learning): yes and no for each value."""
    totals = [sum(column) for column in zip(*counts, strict=True)]
    cells = [total / sum(totals) for total in totals]
    levels = [[n / total for n, total in zip(row, totals, strict=True)] for row in counts]
    assert gain(cells, levels) == pytest.approx(bits, abs=5e-10)


@pytest.mark.parametrize(
    ("positive", "minutes", "bits", "rate"),
    [
        ((0.9, 0.1, 0.1), 10, 0.531004, 0.053100),
        ((0.95, 0.05, 0.5), 30, 0.547383, 0.018246),
        ((0.5, 0.5, 0.5), 5, 0.0, 0.0),
    ],
)
def test_b12_per_minute(
    positive: tuple[float, ...], minutes: float, bits: float, rate: float
) -> None:
    """B12. Worked by hand: the second test tells more and is worth less a minute; the third is
    worth exactly nothing."""
    cells = [0.5, 0.3, 0.2]
    found = gain(cells, [list(positive), [1.0 - p for p in positive]])
    assert found == (0.0 if bits == 0.0 else pytest.approx(bits, abs=5e-7))
    assert found / minutes == pytest.approx(rate, abs=5e-7)


@pytest.mark.parametrize("seed", range(12))
def test_mutual_information_of_scikit_learn(seed: int) -> None:
    """Counts of classes and outcomes, drawn anyhow: the same bits as mutual_info_score (which
    says them in nats)."""
    rng = Random(f"counts {seed}")
    counts = [[rng.randrange(0, 30) for _ in range(rng.choice((2, 3, 5)))] for _ in range(4)]
    width = max(map(len, counts))
    rows = [row + [1] * (width - len(row)) for row in counts]
    cases = [(c, o) for c, row in enumerate(rows) for o, n in enumerate(row) for _ in range(n)]
    whole = len(cases)
    cells = [sum(row) / whole for row in rows]
    levels = [[row[o] / sum(row) for row in rows] for o in range(width)]
    theirs = mutual_info_score([c for c, _ in cases], [o for _, o in cases]) / NATS
    assert gain(cells, levels) == pytest.approx(theirs, abs=1e-10)
