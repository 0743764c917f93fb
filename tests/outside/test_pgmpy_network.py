"""The network against pgmpy's exact VariableElimination, every feature in it.

The conditional tables are built here from the definition: each linked fault shows a level of
its own, the leak another, and the highest is seen; a hider replaces it; a soft reading is a
child of its observable.
"""

from __future__ import annotations

import itertools
import logging
import math
import random
import warnings
from typing import Any

import pytest

from sootsayer.belief.inference import infer
from sootsayer.belief.network import Evidence, Kind, Network, Observable
from tests.belief.random_networks import random_evidence, random_network

warnings.filterwarnings("ignore")
NETWORKS = 240
PARTS = 4


def own_levels(otherwise: tuple[float, ...], seen: tuple[float, ...]) -> list[float]:
    """The spread of the level that a fault shows by itself: what, joined with the leak by the
    higher of the two, gives `seen`."""
    shares = []
    before = 0.0
    for k in range(len(seen)):
        up_to = 1.0 if k == len(seen) - 1 else sum(seen[: k + 1]) / sum(otherwise[: k + 1])
        shares.append(up_to - before)
        before = up_to
    return shares


def the_higher(one: list[float], other: list[float]) -> list[float]:
    """The spread of the higher of two independent levels."""
    out = [0.0] * len(one)
    for (i, p), (j, q) in itertools.product(enumerate(one), enumerate(other)):
        out[max(i, j)] += p * q
    return out


def column(observable: Observable, state: dict[str, int]) -> list[float]:
    for hider in observable.hidden_by:
        if state[hider.fault]:
            return list(hider.spread)
    shares = list(observable.otherwise)
    for link in observable.seen:
        if state[link.fault]:
            shares = the_higher(shares, own_levels(observable.otherwise, link.spread))
    return shares


def reference(network: Network, evidence: Evidence) -> dict[frozenset[str], float]:
    """The joint posterior of all faults, by pgmpy."""
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

    model = DiscreteBayesianNetwork()
    tables: list[Any] = []
    seen: dict[str, int] = {}

    def add(key: str, parents: list[str], columns: list[list[float]]) -> None:
        model.add_node(key)
        model.add_edges_from((parent, key) for parent in parents)
        cards = {"evidence": parents, "evidence_card": [2] * len(parents)} if parents else {}
        rows = [list(row) for row in zip(*columns, strict=True)]
        tables.append(TabularCPD(key, len(rows), rows, **cards))

    for fault in network.faults:
        strength = {x.cause: x.strength for x in network.leads if x.condition == fault.id}
        columns = []
        for states in itertools.product((0, 1), repeat=len(strength)):
            present = zip(strength.values(), states, strict=True)
            spared = math.prod(1 - s for s, on in present if on) * (1 - fault.prior)
            columns.append([spared, 1 - spared])
        add(fault.id, list(strength), columns)
    for one in network.observables:
        if one.id not in evidence:
            continue
        parents = [x.fault for x in (*one.seen, *one.hidden_by)]
        combinations = itertools.product((0, 1), repeat=len(parents))
        add(
            one.id,
            parents,
            [column(one, dict(zip(parents, on, strict=True))) for on in combinations],
        )
        likelihood = evidence[one.id]
        if sorted(likelihood)[-2:] == [0.0, 1.0]:
            seen[one.id] = likelihood.index(1.0)
        else:
            reading = f"reading of {one.id}"
            model.add_edge(one.id, reading)
            rows = [[1 - p for p in likelihood], list(likelihood)]
            tables.append(TabularCPD(reading, 2, rows, [one.id], [len(likelihood)]))
            seen[reading] = 1
    model.add_cpds(*tables)
    names = [fault.id for fault in network.faults]
    joint = VariableElimination(model).query(names, evidence=seen, show_progress=False)
    values = joint.values / joint.values.sum()
    return {
        frozenset(itertools.compress(joint.variables, on)): float(values[on])
        for on in itertools.product((0, 1), repeat=len(names))
    }


@pytest.fixture(autouse=True)
def _quiet() -> Any:
    logging.disable(logging.CRITICAL)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield
    logging.disable(logging.NOTSET)


@pytest.mark.parametrize("part", range(PARTS))
def test_law_9_confidence_equals_pgmpys(part: int) -> None:
    """Posteriors, `none`, candidates and what is left out agree with pgmpy to 1e-9."""
    for seed in range(part, NETWORKS, PARTS):
        rng = random.Random(seed)
        network = random_network(
            rng,
            faults=rng.randint(2, 10),
            observables=rng.randint(2, 9),
            most_links=3,
            channels=rng.randint(0, 2),
            hiders=rng.randint(1, 3),
        )
        evidence = random_evidence(rng, network)
        beliefs = infer(network, evidence)
        sets = reference(network, evidence)
        assert beliefs.exact
        for fault, p in beliefs.posteriors.items():
            expected = sum(q for present, q in sets.items() if fault in present)
            assert p == pytest.approx(expected, abs=1e-9), seed
        for kind in Kind:
            kin = {fault.id for fault in network.faults if fault.kind is kind}
            expected = sum(q for present, q in sets.items() if not present & kin)
            assert beliefs.none[kind] == pytest.approx(expected, abs=1e-9), seed
        for one in beliefs.candidates:
            assert one.probability == pytest.approx(sets[frozenset(one.faults)], abs=1e-9), seed
        most = sorted(sets.values(), reverse=True)[:20]
        assert beliefs.left_out == pytest.approx(1 - sum(most), abs=1e-9), seed
