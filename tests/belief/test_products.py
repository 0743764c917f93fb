"""Products of tables over one scope, whichever are multiplied together first."""

from __future__ import annotations

import math
from random import Random

import pytest

from sootsayer.belief.products import NARROW, Placed, product


def random_parts(r: Random, size: int, count: int, largest: float = 1.0) -> list[Placed]:
    parts = []
    for _ in range(count):
        mask = sum(1 << i for i in range(size) if r.random() < 0.3)
        table = [r.random() * largest for _ in range(1 << mask.bit_count())]
        parts.append((mask, table))
    return parts


def in_turn(parts: list[Placed], size: int) -> list[float]:
    """Each cell by itself, by the definition of a product of tables."""
    found = []
    for cell in range(1 << size):
        value = 1.0
        for mask, table in parts:
            places = [i for i in range(size) if mask >> i & 1]
            value *= table[sum(1 << j for j, i in enumerate(places) if cell >> i & 1)]
        found.append(value)
    return found


@pytest.mark.parametrize("size", [0, 1, 3, NARROW - 1, NARROW, NARROW + 2])
@pytest.mark.parametrize("count", [0, 1, 2, 3, 9, 20])
def test_a_product_is_the_product_of_every_cell(size: int, count: int) -> None:
    """Narrow scopes and wide ones, where some are multiplied together first."""
    parts = random_parts(Random(f"{size} {count}"), size, count)
    table, power = product(parts, size)
    assert len(table) == 1 << size
    for value, wanted in zip(table, in_turn(parts, size), strict=True):
        assert math.ldexp(value, power) == pytest.approx(wanted, rel=1e-13)


@pytest.mark.parametrize("size", [3, NARROW + 1])
def test_very_small_numbers_are_not_lost(size: int) -> None:
    """Of forty tables of numbers about 1e-50 the product is far below what a float holds."""
    parts = random_parts(Random("small"), size, 40, 1e-50)
    table, power = product(parts, size)
    logs = [sum(math.log2(v) for v in each) for each in zip(*_spread(parts, size), strict=True)]
    for value, wanted in zip(table, logs, strict=True):
        assert math.log2(value) + power == pytest.approx(wanted, abs=1e-9)


def _spread(parts: list[Placed], size: int) -> list[list[float]]:
    return [in_turn([part], size) for part in parts]
