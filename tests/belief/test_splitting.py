"""Large tables told as a chain of small ones give what the large ones would."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief import elimination, splitting
from sootsayer.belief.contributions import with_and_without
from sootsayer.belief.inference import infer, posteriors
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
)

SEEDS = st.integers(0, 2**32)
SPLIT = st.sampled_from([(1, False), (1, True), (2, True), (3, False)])


@settings(deadline=None, max_examples=80)
@given(seed=SEEDS, way=SPLIT)
def test_a_chain_is_exact(seed: int, way: tuple[int, bool]) -> None:
    """Every table of three faults or more split, confidences, candidates and what they are
    without a piece of evidence stay those of the definition."""
    rng = random.Random(seed)
    network = random_network(rng, faults=rng.randint(3, 8), observables=6, most_links=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "_starred", lambda *_: None)
        patch.setattr(splitting, "LARGE", 3)
        patch.setattr(splitting, "WAYS", (way,))
        beliefs, without = with_and_without(network, evidence)
    sets = enumerate_sets(network, evidence)
    for fault, p in beliefs.posteriors.items():
        assert p == pytest.approx(marginal(sets, fault), abs=1e-12)
    whole = infer(network, evidence)
    assert [c.faults for c in beliefs.candidates] == [c.faults for c in whole.candidates]
    assert [c.probability for c in beliefs.candidates] == pytest.approx(
        [c.probability for c in whole.candidates], abs=1e-12
    )
    for key, found in without.items():
        rest = {name: value for name, value in evidence.items() if name != key}
        assert found == pytest.approx(posteriors(network, rest), abs=1e-10)


def test_something_is_split() -> None:
    """The chain is really made of more than one part, with soft evidence of several levels too."""
    parts = 0
    for seed in range(40):
        rng = random.Random(seed)
        network = random_network(rng, faults=8, observables=6, most_links=6)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(elimination, "_starred", lambda *_: None)
            patch.setattr(splitting, "LARGE", 3)
            patch.setattr(splitting, "WAYS", ((1, False),))
            seen: list[splitting.Part] = []
            real = splitting.table_of
            patch.setattr(
                "sootsayer.belief.tree.table_of",
                lambda problem, part, order, seen=seen, real=real: (
                    seen.append(part) or real(problem, part, order)
                ),
            )
            posteriors(network, random_evidence(rng, network))
        parts = max(parts, max((len(part.after) for part in seen), default=0))
    assert parts >= 2
