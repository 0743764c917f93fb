"""Large tables told as stars say what the definition says, or are not believed."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief import elimination
from sootsayer.belief.contributions import with_and_without
from sootsayer.belief.elimination import solved_of, starred_of
from sootsayer.belief.inference import infer, posteriors, solve
from sootsayer.belief.network import Evidence, Fault, Kind, Network, Observable, Seen
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
@given(seed=SEEDS, large=st.sampled_from([2, 3, 5]))
def test_a_star_is_exact(seed: int, large: int) -> None:
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
        patch.setattr(elimination, "LARGE", 3)
        seen = []
        for seed in range(20):
            rng = random.Random(seed)
            network = random_network(rng, faults=8, observables=6, most_links=6)
            seen += stars_in(network, random_evidence(rng, network))
    hubs = [ray for solved in seen for ray in solved.split.parts if getattr(ray, "hub", ())]
    assert hubs
    assert max(len(ray.hub) for ray in hubs) > 1  # type: ignore[union-attr]
    assert any(ray.factor.child >= 0 for ray in hubs)


def rare_network(rng: random.Random, leak: float) -> tuple[Network, Evidence]:
    """Findings hardly ever seen otherwise, most of them seen: where stars lose digits."""
    faults = [Fault(f"f{i}", Kind.CAUSE, rng.uniform(0.01, 0.2)) for i in range(7)]
    made = []
    for i in range(rng.randint(2, 9)):
        rare = leak * rng.uniform(0.3, 1.0)
        linked = sorted(rng.sample(range(7), rng.randint(3, 7)))
        seen = [rng.uniform(2.0 * rare, min(0.9, 50.0 * rare)) for _ in linked]
        links = tuple(Seen(f"f{j}", (1.0 - p, p)) for j, p in zip(linked, seen, strict=True))
        made.append(Observable(f"o{i}", (1.0 - rare, rare), links, ()))
    evidence = {o.id: (0.0, 1.0) if rng.random() < 0.8 else (1.0, 0.0) for o in made}
    return Network(tuple(faults), (), tuple(made)), evidence


def worst_error(network: Network, evidence: Evidence) -> float:
    """The largest error of a posterior, as a share of the smaller of it and its complement."""
    sets = enumerate_sets(network, evidence)
    true = {fault.id: marginal(sets, fault.id) for fault in network.faults}
    found = posteriors(network, evidence)
    return max(abs(found[f] - p) / min(p, 1.0 - p) for f, p in true.items())


def test_a_star_that_lost_digits_is_not_believed() -> None:
    """Held to the definition nothing is lost, whether a star was believed or not; both happen,
    and to believe every star would lose most digits."""
    believed, careless, worst = [], 0.0, 0.0
    for leak in (0.1, 0.01, 0.001, 0.0001):
        for seed in range(15):
            network, evidence = rare_network(random.Random(f"{leak} {seed}"), leak)
            with pytest.MonkeyPatch.context() as patch:
                patch.setattr(elimination, "LARGE", 3)
                problem = solve(network, evidence).problem
                believed += [
                    starred_of(problem, piece) is not None
                    for leaf in solve_leaves(problem, hanging(problem))
                    for piece in leaf.split
                    if piece.factors
                ]
                worst = max(worst, worst_error(network, evidence))
                patch.setattr(elimination, "_alike", lambda *_: True)
                patch.setattr(elimination, "TOTAL_ALIKE", math.inf)
                careless = max(careless, worst_error(network, evidence))
    assert 10 < sum(believed) < len(believed) - 10
    assert worst < 1e-10
    assert careless > 1e-4


def test_what_is_not_believed_is_a_chain() -> None:
    rng = random.Random(5)
    network = random_network(rng, faults=8, observables=6, most_links=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "LARGE", 3)
        patch.setattr(elimination, "_alike", lambda *_: False)
        assert not any(getattr(each.split, "hubs", ()) for each in stars_in(network, evidence))
        problem = solve(network, evidence).problem
        for leaf in solve_leaves(problem, hanging(problem)):
            for piece in leaf.split:
                if piece.factors and starred_of(problem, piece) is None:
                    assert solved_of(problem, piece) is elimination.chained_of(problem, piece)
        assert infer(network, evidence).posteriors == posteriors(network, evidence)
