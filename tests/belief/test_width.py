"""The worst case, for lint."""

from __future__ import annotations

import random

from sootsayer.belief.network import Fault, Kind, Lead, Network, Observable, Seen
from sootsayer.belief.problem import number
from sootsayer.belief.settling import leaves
from sootsayer.belief.width import most_leaves, widest
from tests.belief.random_networks import random_network

LOW = (0.9, 0.1)
HIGH = (0.2, 0.8)


def seen_by(key: str, *faults: str) -> Observable:
    return Observable(key, LOW, tuple(Seen(fault, HIGH) for fault in faults))


def test_widest_names_the_knot() -> None:
    """The faults of the largest table are named, then what ties them, and nothing else."""
    faults = tuple(Fault(name, Kind.CAUSE, 0.1) for name in "abcdef")
    network = Network(faults, (), (seen_by("x", "a", "b", "c"), seen_by("y", "d", "e")))
    assert widest(network) == (3, ("a", "b", "c", "x"))
    assert widest(Network((), (), ())) == (0, ())
    assert widest(Network(faults, (), ()))[0] == 1


def test_causes_of_a_condition_tie_it() -> None:
    """A condition with two causes spans three faults, and names itself as a fault of the knot."""
    faults = (Fault("a", Kind.CAUSE, 0.1), Fault("b", Kind.CAUSE, 0.1))
    condition = Fault("c", Kind.CONDITION, 0.1)
    leads = (Lead("a", "c", 0.5), Lead("b", "c", 0.5))
    assert widest(Network((*faults, condition), leads, ())) == (3, ("a", "b", "c"))


def test_the_first_way_that_is_narrow_enough_counts() -> None:
    """With less that is enough other ways are tried, and may make narrower tables."""
    rng = random.Random(7)
    narrower = 0
    for _ in range(40):
        network = random_network(rng, faults=10, observables=6, most_links=9)
        first, _ = widest(network, enough=99)
        assert widest(network, enough=first)[0] == first
        narrower += widest(network, enough=0)[0] < first
    assert narrower > 3


def test_most_leaves_is_what_a_case_with_everything_seen_runs() -> None:
    """The count for lint equals the leaves of the tree, whatever hides what in what order."""
    rng = random.Random(5)
    seen = set()
    for _ in range(150):
        network = random_network(rng, faults=9, channels=rng.randint(0, 3), hiders=3)
        top = {one.id: (0.0,) * (len(one.otherwise) - 1) + (1.0,) for one in network.observables}
        runs = sum(1 for _ in leaves(number(network, top, together=False)))
        assert most_leaves(network) == runs
        seen.add(runs)
    assert len(seen) > 5
