"""With and without each piece of evidence."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.contributions import with_and_without, without_each
from sootsayer.belief.inference import infer, posteriors
from sootsayer.belief.network import Fault, Kind, Network, Observable, Seen
from sootsayer.belief.weighing import BARE, weight, word, word_said
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
)


def test_without_each_is_exact() -> None:
    """Leaving evidence out gives what the definition gives without it, for every piece."""
    rng = random.Random(3)
    network = random_network(rng, faults=6)
    evidence = random_evidence(rng, network)
    found = without_each(network, evidence)
    assert list(found) == sorted(evidence)
    for left_out, without in found.items():
        rest = {key: value for key, value in evidence.items() if key != left_out}
        sets = enumerate_sets(network, rest)
        for fault, p in without.items():
            assert p == pytest.approx(marginal(sets, fault), abs=1e-12)


def test_weight_is_the_odds_ratio_either_way() -> None:
    """Evidence for and evidence against of the same strength have the same weight."""
    assert weight(0.8, 0.5) == pytest.approx(4.0)
    assert weight(0.5, 0.8) == pytest.approx(4.0)
    assert weight(0.3, 0.3) == weight(0.0, 0.0) == weight(1.0, 1.0) == 1.0
    assert weight(1.0, 0.3) == weight(0.0, 0.3) == math.inf


def test_no_weight_from_what_is_no_probability() -> None:
    """Numbers outside 0 to 1 are refused, and so is the word for a weight below 1."""
    with pytest.raises(ValueError, match="no weight"):
        weight(1.2, 0.5)
    with pytest.raises(ValueError, match="1 or more"):
        word(0.9)
    assert word(1.0) == BARE


@settings(deadline=None, max_examples=80)
@given(seed=st.integers(0, 2**32))
def test_without_each_equals_running_again(seed: int) -> None:
    """Every posterior without a piece of evidence is that of a run without it, to 1e-12."""
    network, evidence = _some_case(seed)
    for left_out, found in without_each(network, evidence).items():
        rest = {key: value for key, value in evidence.items() if key != left_out}
        again = posteriors(network, rest)
        assert list(found) == list(again)
        for fault, p in found.items():
            assert p == pytest.approx(again[fault], abs=1e-12)


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 2**32))
def test_order_never_changes_a_bit_of_it(seed: int) -> None:
    """The same network and evidence in another order, or asked twice, give the same bits."""
    network, evidence = _some_case(seed)
    rng = random.Random(seed + 1)
    other = Network(
        tuple(rng.sample(network.faults, len(network.faults))),
        tuple(rng.sample(network.leads, len(network.leads))),
        tuple(rng.sample(network.observables, len(network.observables))),
    )
    mixed = {key: evidence[key] for key in rng.sample(sorted(evidence), len(evidence))}
    first = without_each(network, evidence)
    assert without_each(other, mixed) == first == without_each(network, evidence)
    assert list(without_each(other, mixed)) == sorted(evidence)


@pytest.mark.parametrize("seed", range(8))
def test_both_at_once_are_the_same_to_the_bit(seed: int) -> None:
    """What is worked out together equals what is worked out apart."""
    network, evidence = _some_case(seed)
    beliefs, without = with_and_without(network, evidence)
    assert beliefs == infer(network, evidence)
    assert without == without_each(network, evidence)


def test_leaving_out_of_very_unlikely_evidence() -> None:
    """Sixty readings that each say all but never, and still each is left out exactly."""
    rare = (1 - 1e-12, 1e-12)
    both = (Seen("a", (1 - 2e-12, 2e-12)), Seen("b", (1 - 2.1e-12, 2.1e-12)))
    hiders = (Seen("m", (1 - 1.5e-12, 1.5e-12)),)
    made = tuple(
        Observable(f"o{i:02}", rare, both[: 1 + i % 2], hiders if i % 3 else ()) for i in range(60)
    )
    faults = tuple(
        Fault(name, kind, 1e-3)
        for name, kind in (("a", Kind.CAUSE), ("b", Kind.CAUSE), ("m", Kind.MEASUREMENT))
    )
    network = Network(faults, (), made)
    evidence = {one.id: (0.0, 1.0) for one in made}
    for left_out, found in without_each(network, evidence).items():
        rest = {key: value for key, value in evidence.items() if key != left_out}
        assert found == pytest.approx(posteriors(network, rest), abs=1e-12)


def test_what_cannot_be_divided_out_is_run_again() -> None:
    """Evidence that settles a fault, alone or among others, leaves no trace when left out."""
    faults = (Fault("a", Kind.CAUSE, 0.3), Fault("b", Kind.CAUSE, 0.2))
    never, level = (1.0, 0.0), (0.5, 0.5)
    network = Network(
        faults,
        (),
        (
            Observable("only-a", never, (Seen("a", level),)),
            Observable("a-or-b", never, (Seen("a", level), Seen("b", level))),
            Observable("open", (0.9, 0.1), (Seen("a", level), Seen("b", level))),
        ),
    )
    for kept in (("only-a", "open"), ("a-or-b", "open"), ("only-a", "a-or-b", "open")):
        evidence = dict.fromkeys(kept, (0.0, 1.0))
        for left_out, found in without_each(network, evidence).items():
            rest = {key: value for key, value in evidence.items() if key != left_out}
            assert found == pytest.approx(posteriors(network, rest), abs=1e-15)


def _some_case(seed: int) -> tuple[Network, dict[str, tuple[float, ...]]]:
    rng = random.Random(seed)
    network = random_network(
        rng,
        faults=rng.randint(1, 14),
        observables=rng.randint(0, 14),
        most_links=rng.randint(1, 5),
        channels=rng.randint(0, 3),
        hiders=rng.randint(1, 7),
    )
    return network, random_evidence(rng, network, share=rng.uniform(0.2, 1.0))


def test_word_said_is_the_word_itself_in_english() -> None:
    """What a record holds is said as it is; a word of no scale of ours is made visible only."""
    for number in (1.0, 10.0, 100.0, 1000.0):
        assert word_said(word(number)) == word(number)
    assert word_said("{x}\x1b") == "{x}\\x1b"
