"""The joint table asked for a few of its faults at a time."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.interview.leading_table import LeadingTable

FAULTS = ("a", "b", "c", "d")
TABLES = st.lists(st.floats(0.01, 1.0), min_size=16, max_size=16).map(
    lambda weights: LeadingTable(FAULTS, [w / sum(weights) for w in weights], {})
)


def summed(table: LeadingTable, mask: int, keep: int = 0, drop: int = 0) -> list[float]:
    """The same straight from the sets: those that hold all of `keep` and none of `drop`."""
    bits = [i for i in range(4) if mask >> i & 1]
    found = [0.0] * (1 << len(bits))
    for cell, p in enumerate(table.table):
        if cell & keep == keep and not cell & drop:
            found[sum(1 << k for k, i in enumerate(bits) if cell >> i & 1)] += p
    return found


@settings(deadline=None, max_examples=60)
@given(TABLES, st.lists(st.integers(0, 15), min_size=1, max_size=4))
def test_any_few_faults_are_summed_over_the_others(table: LeadingTable, masks: list[int]) -> None:
    """Whatever was asked before, the table over a few faults is the sum over all others."""
    for mask in masks:
        assert table.over(mask) == pytest.approx(summed(table, mask))


@settings(deadline=None, max_examples=60)
@given(TABLES, st.integers(0, 15), st.integers(0, 3))
def test_with_one_fault_present(table: LeadingTable, mask: int, number: int) -> None:
    """The weights with one fault present are those of the sets that hold it, in the mask or not."""
    assert table.with_fault(number, mask) == pytest.approx(summed(table, mask, keep=1 << number))


@settings(deadline=None, max_examples=60)
@given(TABLES, st.integers(0, 15), st.integers(0, 15))
def test_with_none_of_some_present(table: LeadingTable, mask: int, gone: int) -> None:
    """The weights with none of some faults are those of the sets without them."""
    assert table.without_all(gone, mask) == pytest.approx(summed(table, mask, drop=gone))


@settings(deadline=None, max_examples=20)
@given(TABLES)
def test_a_factor_multiplies_and_the_whole_is_one(table: LeadingTable) -> None:
    """A table times a factor adds to 1 again, in the same proportions."""
    factor = [1.0 + cell for cell in range(16)]
    times = table.times(factor)
    assert sum(times.table) == pytest.approx(1.0)
    assert times.table[3] / times.table[0] == pytest.approx(4 * table.table[3] / table.table[0])
