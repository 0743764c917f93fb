"""What an answer is worth, in bits."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.network import Observable, Seen
from sootsayer.belief.tables import Table
from sootsayer.interview.information import (
    binary_entropy,
    entropy,
    expected_drop,
    mutual_information,
)
from sootsayer.interview.leading_table import LeadingTable
from sootsayer.interview.outcomes import joint_outcomes
from tests.interview.making import bundle, independent, scorer, shown, spread_by_sets

CHANCES = st.floats(0.01, 0.99)
TABLES = st.lists(st.floats(0.01, 1.0), min_size=8, max_size=8).map(
    lambda weights: LeadingTable(("a", "b", "c"), [w / sum(weights) for w in weights], {})
)


@st.composite
def observables(draw: st.DrawFn, key: str = "x") -> Observable:
    """A binary finding with a link to some faults and perhaps a hider."""
    leak = draw(st.floats(0.02, 0.5))
    links = draw(st.lists(st.sampled_from("abc"), unique=True, max_size=3))
    hider = draw(st.sampled_from(["", "a", "b"]))
    seen = {f: draw(st.floats(leak, 0.98)) for f in sorted(links) if f != hider}
    return shown(key, leak, seen, {hider: draw(CHANCES)} if hider else {})


def test_entropy_of_known_distributions() -> None:
    """A fair coin is one bit, a certain thing none, four even ones two."""
    assert entropy([0.5, 0.5]) == 1.0
    assert entropy([1.0, 0.0]) == 0.0
    assert entropy([0.25] * 4) == 2.0
    assert binary_entropy(0.5) == 1.0
    assert binary_entropy(0.0) == binary_entropy(1.0) == 0.0


@settings(deadline=None, max_examples=80)
@given(TABLES, observables("x"), observables("y"))
def test_gain_is_never_negative_and_grows_with_more_findings(
    table: LeadingTable, one: Observable, two: Observable
) -> None:
    """No check tells less than nothing, and two findings never tell less than one of them."""
    alone = scorer(table).gain(bundle(one))
    both = scorer(table).gain(bundle(one, two))
    assert alone >= 0.0
    assert both >= alone - 1e-9
    assert both <= alone + scorer(table).gain(bundle(two)) + entropy(table.table)


@settings(deadline=None, max_examples=60)
@given(TABLES, observables("x"), observables("y"))
def test_order_of_findings_changes_nothing(
    table: LeadingTable, one: Observable, two: Observable
) -> None:
    """What a check yields is a set: in either order it is worth the same."""
    assert scorer(table).gain(bundle(one, two)) == scorer(table).gain(bundle(two, one))
    assert scorer(table).drop(bundle(one, two)) == scorer(table).drop(bundle(two, one))


@settings(deadline=None, max_examples=60)
@given(TABLES, CHANCES)
def test_what_tells_nothing_scores_exactly_nothing(table: LeadingTable, leak: float) -> None:
    """A finding that is seen equally often with and without every fault is worth exactly 0."""
    same = shown("x", leak, dict.fromkeys("abc", leak))
    hidden = shown("y", leak, {}, {"a": leak})
    for seen in (same, hidden, shown("z", leak)):
        assert scorer(table).gain(bundle(seen)) == 0.0
        assert scorer(table).drop(bundle(seen)) == 0.0


@settings(deadline=None, max_examples=60)
@given(TABLES, observables())
def test_gain_is_the_drop_of_entropy_of_the_sets(table: LeadingTable, seen: Observable) -> None:
    """Mutual information is the entropy of the sets less what is left of it on average."""
    levels = [
        [level[cell] for cell in range(8)]
        for level in zip(*spread_by_sets(seen, table), strict=True)
    ]
    left = 0.0
    for level in levels:
        weights = [p * share for p, share in zip(table.table, level, strict=True)]
        whole = math.fsum(weights)
        left += whole * entropy([w / whole for w in weights])
    gain = scorer(table).gain(bundle(seen))
    assert gain == pytest.approx(entropy(table.table) - left, abs=1e-9)


@settings(deadline=None, max_examples=60)
@given(TABLES, observables())
def test_drop_is_that_of_every_fault_by_itself(table: LeadingTable, seen: Observable) -> None:
    """The second score is the sum over faults of how far each one's own entropy falls."""
    spreads = spread_by_sets(seen, table)
    total = 0.0
    for number in range(3):
        there = [cell for cell in range(8) if cell >> number & 1]
        total += binary_entropy(sum(table.table[c] for c in there))
        for level in range(2):
            whole = sum(table.table[c] * spreads[c][level] for c in range(8))
            share = sum(table.table[c] * spreads[c][level] for c in there) / whole
            total -= whole * binary_entropy(share)
    assert scorer(table).drop(bundle(seen)) == pytest.approx(total, abs=1e-9)


def test_an_impossible_outcome_is_left_out() -> None:
    """An outcome that cannot be seen adds nothing and divides by nothing."""
    cells = [0.5, 0.5]
    levels: list[Table] = [[1.0, 0.5], [0.0, 0.5], [0.0, 0.0]]
    outcomes = joint_outcomes(cells, [levels])
    assert mutual_information(cells, [levels], outcomes) == pytest.approx(0.311278, abs=1e-6)
    assert expected_drop([[0.0, 0.5]], cells, levels, [1.0]) == pytest.approx(0.311278, abs=1e-6)


def test_a_better_member_is_worth_what_it_tells_more() -> None:
    """Where the family spoke already, a second member as good as the first tells nothing, a
    sharper one something, and a blunter one nothing."""
    before = shown("x", 0.2, {"a": 0.6})
    table = independent({"a": 0.3, "b": 0.2}, {})
    said = {"x": (before, (0.0, 1.0))}
    sharper, blunter = shown("x", 0.05, {"a": 0.95}), shown("x", 0.3, {"a": 0.4})
    assert scorer(table, said).gain(bundle(before, instead_of="old")) == 0.0
    assert scorer(table, said).gain(bundle(blunter, instead_of="old")) == 0.0
    assert scorer(table, said).gain(bundle(sharper, instead_of="old")) > 0.1


def test_graded_findings_tell_by_all_their_levels() -> None:
    """A graded finding is worth more than the same cut at one of its edges."""
    graded = Observable("x", (0.8, 0.15, 0.05), (Seen("a", (0.1, 0.3, 0.6)),))
    cut = Observable("x", (0.8, 0.2), (Seen("a", (0.1, 0.9)),))
    table = independent({"a": 0.4})
    assert scorer(table).gain(bundle(graded)) > scorer(table).gain(bundle(cut)) > 0.0
