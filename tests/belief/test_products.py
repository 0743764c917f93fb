"""Large tables told as differences of products give what the tables would, digit for digit."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief import elimination, products, whole
from sootsayer.belief.contributions import with_and_without
from sootsayer.belief.inference import infer, posteriors
from sootsayer.belief.network import Evidence, Fault, Kind, Network, Observable, Seen
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
)

SEEDS = st.integers(0, 2**32)


def products_only(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(elimination, "LARGE", 0)
    patch.setattr(elimination, "WHOLE_COSTS", 0)
    patch.setattr(products, "FEW", 2)


@settings(deadline=None, max_examples=80)
@given(seed=SEEDS)
def test_products_are_exact(seed: int) -> None:
    """Everything told as products, confidences, candidates and what they are without a piece of
    evidence stay those of the definition."""
    rng = random.Random(seed)
    network = random_network(rng, faults=rng.randint(3, 8), observables=6, most_links=6)
    evidence = random_evidence(rng, network)
    with pytest.MonkeyPatch.context() as patch:
        products_only(patch)
        beliefs, without = with_and_without(network, evidence)
    sets = enumerate_sets(network, evidence)
    for fault, p in beliefs.posteriors.items():
        assert p == pytest.approx(marginal(sets, fault), abs=1e-12)
    exactly = infer(network, evidence)
    assert [c.faults for c in beliefs.candidates] == [c.faults for c in exactly.candidates]
    assert [c.probability for c in beliefs.candidates] == pytest.approx(
        [c.probability for c in exactly.candidates], abs=1e-12
    )
    assert beliefs.left_out == pytest.approx(exactly.left_out, abs=1e-12)
    for key, found in without.items():
        rest = {name: value for name, value in evidence.items() if name != key}
        assert found == pytest.approx(posteriors(network, rest), abs=1e-10)


def unlikely(findings: int) -> tuple[Network, Evidence]:
    """Many findings, each all but impossible, all seen: what is left is a tiny difference."""
    faults = tuple(Fault(f"f{i}", Kind.CAUSE, 0.01) for i in range(4))
    links = tuple(Seen(fault.id, (0.9985, 0.0015)) for fault in faults)
    seen = tuple(Observable(f"o{i}", (0.9999, 0.0001), links) for i in range(findings))
    return Network(faults, (), seen), {one.id: (0.0, 1.0) for one in seen}


@pytest.mark.parametrize("findings", [3, 20, 60])
def test_nothing_is_lost_by_subtraction(findings: int) -> None:
    """Where floats would have no digit left, whole numbers have them all."""
    network, evidence = unlikely(findings)
    with pytest.MonkeyPatch.context() as patch:
        products_only(patch)
        found = posteriors(network, evidence)
    sets = enumerate_sets(network, evidence)
    for fault, p in found.items():
        assert p == pytest.approx(marginal(sets, fault), rel=1e-12)


def test_bits_are_added_where_they_run_out() -> None:
    """Where too few are tried first, more are taken."""
    network, evidence = unlikely(60)
    tried: list[int] = []
    with pytest.MonkeyPatch.context() as patch:
        products_only(patch)
        patch.setattr(whole, "BITS", 96)
        real = whole.lay

        def noted(told: products.Products, many: int) -> whole.Laid:
            tried.append(many)
            return real(told, many)

        patch.setattr(whole, "lay", noted)
        posteriors(network, evidence)
    assert tried[0] == 96
    assert tried[-1] > 96
