"""Drawing vehicles from the network."""

from __future__ import annotations

import math
from itertools import product
from random import Random

import pytest

from sootsayer.belief.network import Fault, Kind, Lead, Network
from sootsayer.belief.noisy import level_spread
from sootsayer.learning.draw import draw
from tests.belief.random_networks import enumerate_sets, random_network

DRAWS = 4000


def small() -> Network:
    return random_network(Random(7), faults=4, observables=3, channels=1, hiders=2)


def test_same_generator_same_vehicle() -> None:
    """The same state of the generator draws the same vehicle, whatever order things stand in."""
    network = small()
    turned = Network(network.faults[::-1], network.leads[::-1], network.observables[::-1])
    first = [draw(network, Random(n)) for n in range(50)]
    assert first == [draw(turned, Random(n)) for n in range(50)]
    assert len({one.faults for one in first}) > 3


def test_faults_come_as_often_as_the_network_says() -> None:
    """Each set of faults is drawn as often as its prior, within four standard deviations."""
    network, random = small(), Random(11)
    drawn = [draw(network, random).faults for _ in range(DRAWS)]
    for faults, p in enumerate_sets(network, {}).items():
        sd = math.sqrt(p * (1 - p) * DRAWS)
        assert abs(drawn.count(faults) - p * DRAWS) <= 4 * sd + 1e-9


def test_levels_come_as_often_as_the_network_says() -> None:
    """Each level of each observable is drawn as often as evidence on it is probable."""
    network, random = small(), Random(13)
    drawn = [draw(network, random) for _ in range(DRAWS)]
    for one in network.observables:
        for level, faults in product(range(len(one.otherwise)), enumerate_sets(network, {})):
            sharing = [x for x in drawn if x.faults == faults]
            if len(sharing) < 100:
                continue
            p = level_spread(one, faults)[level]
            seen = sum(x.levels[one.id] == level for x in sharing)
            sd = math.sqrt(p * (1 - p) * len(sharing))
            assert abs(seen - p * len(sharing)) <= 4.5 * sd + 1e-9


def test_a_circle_is_refused() -> None:
    """Faults that lead to one another cannot be drawn."""
    faults = (Fault("a", Kind.CAUSE, 0.1), Fault("b", Kind.CONDITION, 0.1))
    with pytest.raises(ValueError, match="circle"):
        draw(Network(faults, (Lead("a", "b", 0.5), Lead("b", "a", 0.5)), ()), Random(1))
