"""Exact posteriors, candidates and `none`, against the definition and against themselves."""

from __future__ import annotations

import dataclasses
import math
import random
import subprocess
import sys
from typing import TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.inference import LISTED, infer, posteriors
from sootsayer.belief.leading import LEADING
from sootsayer.belief.network import Beliefs, Evidence, Fault, Kind, Network, Observable, Seen
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
    seen_spread,
    spread,
)

T = TypeVar("T")

SEEDS = st.integers(0, 2**32)
LOW = (0.9, 0.1)


def some_case(seed: int, most_faults: int = 8) -> tuple[Network, dict[str, tuple[float, ...]]]:
    rng = random.Random(seed)
    network = random_network(
        rng,
        faults=rng.randint(1, most_faults),
        observables=rng.randint(0, 9),
        channels=rng.randint(0, 3),
        hiders=rng.randint(1, 3),
    )
    return network, random_evidence(rng, network, share=rng.uniform(0.2, 1.0))


def check(network: Network, evidence: Evidence, beliefs: Beliefs) -> None:
    """Everything in `beliefs` against the sum over all sets of faults."""
    sets = enumerate_sets(network, evidence)
    assert set(beliefs.posteriors) == {fault.id for fault in network.faults}
    for fault, p in beliefs.posteriors.items():
        assert p == pytest.approx(marginal(sets, fault), abs=1e-12)
    for kind in Kind:
        kin = {fault.id for fault in network.faults if fault.kind is kind}
        clear = math.fsum(p for present, p in sets.items() if not present & kin)
        assert beliefs.none[kind] == pytest.approx(clear, abs=1e-12)
    ranked = sorted(beliefs.posteriors, key=lambda name: (-beliefs.posteriors[name], name))
    leading = frozenset(ranked[:LEADING])
    over_leading: dict[frozenset[str], float] = {}
    for present, p in sets.items():
        over_leading[present & leading] = over_leading.get(present & leading, 0.0) + p
    most = sorted(over_leading.values(), reverse=True)[:LISTED]
    listed = [candidate.probability for candidate in beliefs.candidates]
    assert listed == pytest.approx(most, abs=1e-12)
    for candidate in beliefs.candidates:
        assert candidate.faults == tuple(sorted(candidate.faults))
        p = over_leading[frozenset(candidate.faults)]
        assert candidate.probability == pytest.approx(p, abs=1e-12)
    assert beliefs.left_out == pytest.approx(1.0 - math.fsum(most), abs=1e-12)
    assert beliefs.exact
    assert beliefs.low is None
    assert beliefs.high is None


@settings(deadline=None, max_examples=120)
@given(seed=SEEDS)
def test_law_9_confidence_is_the_definitions(seed: int) -> None:
    """Every number said to be exact equals the sum over all sets of faults, to 1e-12."""
    network, evidence = some_case(seed)
    check(network, evidence, infer(network, evidence))


@pytest.mark.parametrize("seed", range(3))
def test_faults_beyond_the_dozen_are_summed_out(seed: int) -> None:
    """With more faults than a candidate is made of, the others are summed out exactly."""
    rng = random.Random(seed)
    network = random_network(rng, faults=14, observables=9, most_links=3)
    evidence = random_evidence(rng, network)
    check(network, evidence, infer(network, evidence))


@settings(deadline=None, max_examples=60)
@given(seed=SEEDS)
def test_order_never_changes_a_bit(seed: int) -> None:
    """Faults, leads, observables, links and evidence in another order give the same bits."""
    network, evidence = some_case(seed, 14)
    rng = random.Random(seed + 1)

    def mixed(things: tuple[T, ...]) -> tuple[T, ...]:
        return tuple(rng.sample(things, len(things)))

    other = Network(
        mixed(network.faults),
        mixed(network.leads),
        tuple(dataclasses.replace(o, seen=mixed(o.seen)) for o in mixed(network.observables)),
    )
    other_evidence = {key: evidence[key] for key in mixed(tuple(evidence))}
    first, second = infer(network, evidence), infer(other, other_evidence)
    assert first == second
    assert list(first.posteriors) == list(second.posteriors)


@settings(deadline=None, max_examples=60)
@given(seed=SEEDS)
def test_law_7_what_is_hidden_keeps_its_prior_weight(seed: int) -> None:
    """Given the nearest hider, evidence it hides changes nothing among the other faults; with
    all evidence hidden, their odds are the prior's."""
    rng = random.Random(seed)
    names = ["a", "b", "c", "liar"]
    kinds = [Kind.CAUSE, Kind.CONDITION, Kind.MEASUREMENT, Kind.MEASUREMENT]
    faults = tuple(
        Fault(name, kind, rng.uniform(0.05, 0.6)) for name, kind in zip(names, kinds, strict=True)
    )

    def observable(key: str, hidden: bool) -> Observable:
        otherwise = spread(rng, rng.choice([2, 4]))
        seen = [Seen(name, seen_spread(rng, otherwise)) for name in rng.sample("ab", 2)]
        hiders = [Seen("liar", spread(rng, len(otherwise)))]
        hiders += [Seen("c", spread(rng, len(otherwise)))]
        return Observable(key, otherwise, tuple(seen), tuple(hiders) if hidden else ())

    network = Network(
        faults, (), (observable("h1", True), observable("h2", True), observable("open", False))
    )
    everything = random_evidence(rng, network, share=1.0)
    in_the_open = {"open": everything["open"]}
    all_hidden = {key: everything[key] for key in ("h1", "h2")}
    assert _given("liar", network, everything) == pytest.approx(
        _given("liar", network, in_the_open), abs=1e-12
    )
    assert _given("liar", network, all_hidden) == pytest.approx(
        _given("liar", network, {}), abs=1e-12
    )


def _given(hider: str, network: Network, evidence: Evidence) -> dict[tuple[str, ...], float]:
    found = infer(network, evidence).candidates
    assert len(found) == 2 ** len(network.faults)
    with_it = {one.faults: one.probability for one in found if hider in one.faults}
    total = math.fsum(with_it.values())
    return {present: p / total for present, p in with_it.items()}


@settings(deadline=None, max_examples=100)
@given(seed=SEEDS)
def test_one_more_supporting_observation_never_lowers_a_single_fault(seed: int) -> None:
    """Against a single fault, evidence that leans to the higher levels only ever raises it."""
    rng = random.Random(seed)
    made = []
    for i in range(rng.randint(1, 6)):
        otherwise = spread(rng, rng.choice([2, 3, 5]))
        made.append(Observable(f"o{i}", otherwise, (Seen("f", seen_spread(rng, otherwise)),)))
    network = Network((Fault("f", Kind.CAUSE, rng.uniform(0.01, 0.9)),), (), tuple(made))
    evidence = random_evidence(rng, network, share=0.6)
    evidence.pop("o0", None)
    before = posteriors(network, evidence)["f"]
    evidence["o0"] = tuple(sorted(rng.random() for _ in made[0].otherwise))
    after = posteriors(network, evidence)["f"]
    assert after >= before - 1e-14


def test_explaining_away() -> None:
    """A second explanation found lowers the first, with several faults: no error."""
    faults = (Fault("a", Kind.CAUSE, 0.1), Fault("b", Kind.CAUSE, 0.1))
    both = Observable("x", LOW, (Seen("a", (0.1, 0.9)), Seen("b", (0.1, 0.9))))
    network = Network(faults, (), (both, Observable("y", LOW, (Seen("b", (0.1, 0.9)),))))
    alone = posteriors(network, {"x": (0.0, 1.0)})
    explained = posteriors(network, {"x": (0.0, 1.0), "y": (0.0, 1.0)})
    assert explained["a"] < alone["a"]


def test_nothing_known_gives_the_priors() -> None:
    """Without evidence a fault has its prior, and a kind without faults is surely clear."""
    network = Network((Fault("a", Kind.CAUSE, 0.3),), (), ())
    beliefs = infer(network, {})
    assert beliefs.posteriors == {"a": 0.3}
    assert beliefs.none[Kind.CONDITION] == beliefs.none[Kind.MEASUREMENT] == 1.0
    assert beliefs.none[Kind.CAUSE] == 0.7
    assert [(one.faults, one.probability) for one in beliefs.candidates] == [
        ((), 0.7),
        (("a",), 0.3),
    ]
    assert beliefs.left_out == 0.0


def test_a_network_without_faults_has_one_candidate() -> None:
    """No fault is a candidate like any other, also when it is the only one."""
    beliefs = infer(Network((), (), (Observable("x", LOW),)), {"x": (0.0, 1.0)})
    assert [(one.faults, one.probability) for one in beliefs.candidates] == [((), 1.0)]
    assert beliefs.posteriors == {}


def test_ties_go_by_id() -> None:
    """Equally probable candidates stand in the order of their ids."""
    faults = tuple(Fault(name, Kind.CAUSE, 0.5) for name in ("b", "a", "c"))
    found = [one.faults for one in infer(Network(faults, (), ()), {}).candidates]
    assert found == sorted(found)


def test_evidence_that_says_the_same_of_every_level_says_nothing() -> None:
    """A likelihood equal at all levels changes no bit."""
    network, evidence = some_case(11)
    free = next(one for one in network.observables if one.id not in evidence)
    more = {**evidence, free.id: (0.25,) * len(free.otherwise)}
    assert infer(network, more) == infer(network, evidence)


@pytest.mark.parametrize(
    ("evidence", "words"),
    [
        ({"nowhere": (0.0, 1.0)}, "not in the network"),
        ({"x": (0.0, 0.0, 1.0)}, "levels"),
        ({"x": (-1.0, 1.0)}, "not one"),
        ({"x": (math.nan, 1.0)}, "not one"),
        ({"x": (0.0, 0.0)}, "impossible"),
    ],
)
def test_evidence_that_does_not_fit_is_refused(evidence: Evidence, words: str) -> None:
    """Unknown ids, wrong levels and likelihoods that are none are refused."""
    network = Network((Fault("a", Kind.CAUSE, 0.3),), (), (Observable("x", LOW),))
    with pytest.raises(ValueError, match=words):
        infer(network, evidence)


def test_evidence_the_network_forbids_is_refused() -> None:
    """A level that is never seen cannot be evidence (lint keeps such zeros out)."""
    network = Network((Fault("a", Kind.CAUSE, 0.3),), (), (Observable("x", (1.0, 0.0)),))
    with pytest.raises(ValueError, match="cannot be"):
        infer(network, {"x": (0.0, 1.0)})


def test_very_unlikely_evidence_does_not_underflow() -> None:
    """Evidence far below the smallest double still gives the right odds."""
    rare = (1 - 1e-12, 1e-12)
    links = (Seen("a", (0.5, 0.5)), Seen("b", (1 - 2e-12, 2e-12)))
    hiders = (Seen("m", (1 - 4e-12, 4e-12)),)
    made = [Observable(f"o{i}", rare, (Seen("b", (1 - 2e-12, 2e-12)),), hiders) for i in range(60)]
    made.append(Observable("z", rare, links))
    faults = tuple(
        Fault(name, kind, 1e-3)
        for name, kind in (("a", Kind.CAUSE), ("b", Kind.CAUSE), ("m", Kind.MEASUREMENT))
    )
    beliefs = infer(Network(faults, (), tuple(made)), {one.id: (0.0, 1.0) for one in made})
    # 60 readings, each twice as likely under the liar as under b, whose prior is the same.
    assert beliefs.posteriors["m"] == pytest.approx(1.0, abs=1e-9)
    assert beliefs.posteriors["a"] > 0.999
    assert math.isfinite(beliefs.left_out)


def test_readings_in_conflict_do_not_underflow() -> None:
    """Many tables over the same faults, each all but forbidding them, still give the odds."""
    rare = (1 - 1e-12, 1e-12)
    links = (Seen("a", (1 - 2e-12, 2e-12)), Seen("b", (1 - 2.1e-12, 2.1e-12)))
    made = tuple(Observable(f"o{i}", rare, links) for i in range(60))
    faults = (Fault("a", Kind.CAUSE, 0.5), Fault("b", Kind.CAUSE, 0.5))
    beliefs = infer(Network(faults, (), made), {one.id: (0.0, 1.0) for one in made})
    # Neither 1, one of them 2 or 2.1, both 3.1 in 1e12; each sixty times.
    total = 1 + 2.0**60 + 2.1**60 + 3.1**60
    assert beliefs.posteriors["a"] == pytest.approx((2.0**60 + 3.1**60) / total, rel=1e-2)
    assert beliefs.candidates[0].faults == ("a", "b")
    assert 1 - beliefs.candidates[0].probability < 1e-9


def test_importing_belief_is_light() -> None:
    """Belief imports no numpy and nothing of another room."""
    code = (
        "import sys, sootsayer.belief.contributions, sootsayer.belief.soft, sootsayer.belief.width;"
        "rooms = {m.split('.')[1] for m in sys.modules if m.startswith('sootsayer.')};"
        "assert rooms == {'belief'}, rooms;"
        "assert not {'numpy', 'yaml', 'rich', 'random'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
