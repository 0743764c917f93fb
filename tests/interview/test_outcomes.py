"""How often each level is seen with each set of faults, beside the plain definition."""

from __future__ import annotations

from random import Random

import pytest

from sootsayer.belief.network import Observable, Seen
from sootsayer.interview.outcomes import faults_behind, joint_outcomes, level_tables
from tests.belief.random_networks import random_network
from tests.interview.making import independent, shown, spread_by_sets


@pytest.mark.parametrize("seed", range(8))
def test_levels_are_those_of_the_definition(seed: int) -> None:
    """Links, leaks, levels and hiders, inside the table and outside, for every set of faults."""
    made = random_network(Random(seed))
    faults = sorted(made.faults, key=lambda f: f.id)[:7]
    inside = {f.id: f.prior for f in faults[:4]}
    outside = {f.id: f.prior for f in faults[4:]}
    table = independent(inside, outside)
    everywhere = (1 << len(table.faults)) - 1
    known = set(inside) | set(outside)
    for full in made.observables:
        seen = Observable(
            full.id,
            full.otherwise,
            tuple(s for s in full.seen if s.fault in known),
            tuple(s for s in full.hidden_by if s.fault in known),
        )
        levels = level_tables(seen, table, everywhere)
        for cell, spread in enumerate(spread_by_sets(seen, table)):
            assert [level[cell] for level in levels] == pytest.approx(spread, abs=1e-12)


def test_only_the_faults_that_bear_on_it_need_cells() -> None:
    """Over the faults behind a finding alone, each cell has the spread of the whole table."""
    seen = shown("smoke", 0.1, {"a": 0.6, "c": 0.8}, {"d": 0.3})
    table = independent({"a": 0.2, "b": 0.3, "c": 0.4, "d": 0.1})
    mask = table.mask(faults_behind(seen))
    assert mask == 0b1101
    small = level_tables(seen, table, mask)
    whole = level_tables(seen, table, 0b1111)
    assert small[1][0b011] == whole[1][0b0101]
    assert small[1][0b100] == whole[1][0b1010] == 0.3


def test_joint_outcomes_add_up_to_the_cells() -> None:
    """The weights of all joint outcomes add to those of the cells, lowest levels first."""
    cells = [0.25, 0.75]
    one, two = [[0.9, 0.4], [0.1, 0.6]], [[0.5, 0.2], [0.3, 0.3], [0.2, 0.5]]
    outcomes = joint_outcomes(cells, [one, two])
    assert len(outcomes) == 6
    assert outcomes[0] == pytest.approx([0.25 * 0.9 * 0.5, 0.75 * 0.4 * 0.2])
    assert [sum(column) for column in zip(*outcomes, strict=True)] == pytest.approx(cells)


def test_the_nearest_hider_wins() -> None:
    """Of two hiders that are both present the first one's spread stands."""
    near, far = Seen("near", (0.7, 0.3)), Seen("far", (0.1, 0.9))
    table = independent({"far": 0.5, "near": 0.5})
    levels = level_tables(Observable("x", (0.5, 0.5), (), (near, far)), table, 0b11)
    assert [level[0b11] for level in levels] == [0.7, 0.3]
    assert [level[0b01] for level in levels] == [0.1, 0.9]
