"""A case too wide: bounds that hold, and a verdict that says so."""

from __future__ import annotations

import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief import elimination
from sootsayer.belief import settling as settled
from sootsayer.belief.approximate import likelihood_range
from sootsayer.belief.inference import infer, posteriors
from sootsayer.belief.network import Fault, Kind, Lead, Network, Observable, Seen
from sootsayer.belief.noisy import level_spread
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
    subsets,
)

SEEDS = st.integers(0, 2**32)


@settings(deadline=None, max_examples=80)
@given(seed=SEEDS, widest=st.integers(1, 3), most_leaves=st.integers(1, 4))
def test_law_9_confidence_says_that_it_is_not_exact(
    seed: int, widest: int, most_leaves: int
) -> None:
    """Beyond the limits every true posterior lies in [low, high], and so does the estimate."""
    rng = random.Random(seed)
    network = random_network(rng, faults=rng.randint(2, 7), observables=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "WIDEST", widest)
        patch.setattr(settled, "MOST_LEAVES", most_leaves)
        beliefs = infer(network, evidence)
        assert posteriors(network, evidence) == beliefs.posteriors
    sets = enumerate_sets(network, evidence)
    for fault, p in beliefs.posteriors.items():
        true = marginal(sets, fault)
        if beliefs.exact:
            assert p == pytest.approx(true, abs=1e-12)
        else:
            assert beliefs.low is not None
            assert beliefs.high is not None
            assert 0.0 <= beliefs.low[fault] <= true <= beliefs.high[fault] <= 1.0
            assert beliefs.low[fault] <= p <= beliefs.high[fault]


@settings(deadline=None, max_examples=80)
@given(seed=SEEDS)
def test_a_likelihood_never_leaves_its_range(seed: int) -> None:
    """Whatever the other faults are, the likelihood lies in the range given for one of them."""
    rng = random.Random(seed)
    network = random_network(rng, faults=6, observables=3)
    names = {fault.id for fault in network.faults}
    for one in network.observables:
        likelihood = tuple(rng.choice([0.0, 1.0, rng.random()]) for _ in one.otherwise)
        for fault in names:
            for state in (False, True):
                low, high = likelihood_range(one, likelihood, fault, state, names)
                for present in subsets(names):
                    if (fault in present) is state:
                        shares = level_spread(one, present)
                        value = sum(x * y for x, y in zip(likelihood, shares, strict=True))
                        assert low - 1e-12 <= value <= high + 1e-12


def tied_network(faults: int) -> Network:
    """Every two faults share a finding: however it is split, one table over all of them."""
    names = [f"f{i:02}" for i in range(faults)]
    pairs = tuple(
        Observable(f"{a}-{b}", (0.9, 0.1), (Seen(a, (0.5, 0.5)), Seen(b, (0.5, 0.5))))
        for a, b in combinations(names, 2)
    )
    return Network(tuple(Fault(name, Kind.CAUSE, 0.02) for name in names), (), pairs)


def all_seen(network: Network) -> dict[str, tuple[float, ...]]:
    return {one.id: (0.0, 1.0) for one in network.observables}


def test_faults_all_tied_to_one_another_are_bounded() -> None:
    """The bound of a really too wide network holds, and says more than nothing known."""
    network = tied_network(23)
    beliefs = infer(network, all_seen(network))
    assert not beliefs.exact
    assert beliefs.low is not None
    assert beliefs.high is not None
    assert 0.0 <= beliefs.low["f00"] < beliefs.posteriors["f00"] < beliefs.high["f00"] <= 1.0
    assert beliefs.high["f00"] - beliefs.low["f00"] < 1.0


def test_a_finding_of_thirty_faults_is_exact() -> None:
    """A finding seen with ever so many faults is asked of a few at a time, and is no knot."""
    names = [f"f{i:02}" for i in range(30)]
    links = tuple(Seen(name, (0.5, 0.3, 0.2)) for name in names)
    leak, likelihood = (0.9, 0.06, 0.04), (0.1, 0.3, 0.6)
    faults = tuple(Fault(name, Kind.CAUSE, 0.02) for name in names)
    beliefs = infer(Network(faults, (), (Observable("all", leak, links),)), {"all": likelihood})
    assert beliefs.exact

    def up_to(c: float, present: float) -> float:
        """The mean of c to the number of faults present, one of them at hand."""
        return present * (0.98 + 0.02 * c) ** 29

    c = (0.5 / 0.9, 0.8 / 0.96, 1.0)
    share = (0.9, 0.96, 1.0)
    drops = (0.1 - 0.3, 0.3 - 0.6, 0.6)
    seen = [
        sum(
            d * s * up_to(k, k if present else 1.0) for d, s, k in zip(drops, share, c, strict=True)
        )
        for present in (False, True)
    ]
    true = 0.02 * seen[1] / (0.02 * seen[1] + 0.98 * seen[0])
    assert beliefs.posteriors["f07"] == pytest.approx(true, abs=1e-12)


def test_a_condition_of_very_many_causes_is_exact() -> None:
    """A condition may have ever so many causes; they are no knot."""
    causes = tuple(Fault(f"c{i:02}", Kind.CAUSE, 0.05) for i in range(24))
    full = Fault("full", Kind.CONDITION, 0.02)
    leads = tuple(Lead(cause.id, "full", 0.3) for cause in causes)
    shown = Observable("shown", (0.9, 0.1), (Seen("full", (0.1, 0.9)),))
    network = Network((*causes, full), leads, (shown,))
    beliefs = infer(network, {"shown": (0.0, 1.0)})
    prior = 1 - 0.98 * (1 - 0.05 * 0.3) ** 24
    true = prior * 0.9 / (prior * 0.9 + (1 - prior) * 0.1)
    assert beliefs.exact
    assert beliefs.posteriors["full"] == pytest.approx(true, abs=1e-12)


def test_one_fault_too_many_is_too_wide() -> None:
    """A table over as many faults as the limit is exact; over one more it is not."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "WIDEST", 3)
        assert infer(tied_network(3), all_seen(tied_network(3))).exact
        assert not infer(tied_network(4), all_seen(tied_network(4))).exact
