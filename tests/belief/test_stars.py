"""Large tables told as stars say what the chains say, or are not believed."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief import elimination
from sootsayer.belief.contributions import with_and_without
from sootsayer.belief.elimination import starred_of, swift_of
from sootsayer.belief.inference import infer, posteriors, solve
from sootsayer.belief.network import Evidence, Kind, Network
from sootsayer.belief.solving import hanging, solve_leaves
from sootsayer.belief.tree import Solved
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
)

SEEDS = st.integers(0, 2**32)


def stars_in(network: Network, evidence: Evidence) -> list[Solved]:
    """The pieces that were solved as stars."""
    problem = solve(network, evidence).problem
    found = []
    for leaf in solve_leaves(problem, hanging(problem)):
        found += [starred_of(problem, piece) for piece in leaf.split if piece.factors]
    return [each for each in found if each is not None]


@settings(deadline=None, max_examples=100)
@given(seed=SEEDS, large=st.sampled_from([(2,), (3,), (4, 6)]))
def test_a_star_is_exact(seed: int, large: tuple[int, ...]) -> None:
    """With every table of so many faults a star, all that is said stays that of the definition."""
    rng = random.Random(seed)
    network = random_network(rng, faults=rng.randint(3, 8), observables=6, most_links=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "LARGE", large)
        beliefs, without = with_and_without(network, evidence)
    sets = enumerate_sets(network, evidence)
    for fault, p in beliefs.posteriors.items():
        assert p == pytest.approx(marginal(sets, fault), abs=1e-12)
    for kind in Kind:
        mine = {each.id for each in network.faults if each.kind is kind}
        none = sum(p for faults, p in sets.items() if not mine & set(faults)) / sum(sets.values())
        assert beliefs.none[kind] == pytest.approx(none, abs=1e-10)
    for key, found in without.items():
        rest = {name: value for name, value in evidence.items() if name != key}
        assert found == pytest.approx(posteriors(network, rest), abs=1e-9)


def test_stars_are_used() -> None:
    """Random networks have tables that are told as stars, of graded evidence and of conditions
    too, and these are believed."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "LARGE", (3,))
        seen = []
        for seed in range(20):
            rng = random.Random(seed)
            network = random_network(rng, faults=8, observables=6, most_links=6)
            seen += stars_in(network, random_evidence(rng, network))
    hubs = [ray for solved in seen for ray in solved.split.parts if getattr(ray, "hub", ())]
    assert hubs
    assert max(len(ray.hub) for ray in hubs) > 1  # type: ignore[union-attr]
    assert any(ray.factor.child >= 0 for ray in hubs)


def test_a_star_that_lost_digits_is_not_believed() -> None:
    """Where a star does not agree with the chain, the chain is taken and nothing is worse."""
    rng = random.Random(5)
    network = random_network(rng, faults=8, observables=6, most_links=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "LARGE", (3,))
        assert stars_in(network, evidence)
        patch.setattr(elimination, "_alike", lambda *_: False)
        assert not stars_in(network, evidence)
        problem = solve(network, evidence).problem
        for leaf in solve_leaves(problem, hanging(problem)):
            for piece in leaf.split:
                if piece.factors:
                    assert swift_of(problem, piece) is elimination.solved_of(problem, piece)
        assert infer(network, evidence).posteriors == posteriors(network, evidence)
