"""The shipped rulebook's network, hiders and all, against pgmpy's exact VariableElimination.

pgmpy (Ankan & Textor 2024, JMLR 25(265), "pgmpy: a Python toolkit for Bayesian networks"). The
conditional tables are built here from the definition, in the cumulative form of noisy-MAX
(Díez 1993): P(level <= k) is that of the leak times, for each fault present, what its own
spread is of the leak's. Nothing of `sootsayer.belief` but its data is used for that.

pgmpy joins whole tables, so each set of evidence is a handful of readings; readings that are
not in it are left out of the pgmpy network, as nothing depends on them (barren nodes).
"""

from __future__ import annotations

import itertools
import logging
import math
import random
import warnings
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Fault, Network, Observable
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.network import whole_network

warnings.filterwarnings("ignore")
SETS = 60
COMPARED = 15  # of the sets, each on so many faults: pgmpy takes its time
ASKED = 12
PARTS = 3
CAUSES = 7  # of a condition, the strongest: pgmpy writes out 2 ** causes columns
READINGS = (1, 5)  # fewest and most in a set of evidence
WIDEST = 11  # most faults and hiders of one reading that pgmpy is asked to join
Likelihoods = Mapping[str, tuple[float, ...]]


def column(observable: Observable, present: Mapping[str, bool]) -> list[float]:
    """P(level) with these faults present, from the definition."""
    for hider in observable.hidden_by:
        if present[hider.fault]:
            return list(hider.spread)
    at_most = []
    for k in range(len(observable.otherwise)):
        leak = math.fsum(observable.otherwise[: k + 1])
        share = leak
        for link in observable.seen:
            if present[link.fault] and k < len(observable.otherwise) - 1:
                share *= math.fsum(link.spread[: k + 1]) / leak
        at_most.append(share)
    at_most[-1] = 1.0
    return [here - before for here, before in zip(at_most, [0.0, *at_most], strict=False)]


def fault_columns(fault: Fault, strengths: Mapping[str, float]) -> list[list[float]]:
    """P(absent), P(present) for each state of its causes: noisy-OR with the prior as leak."""
    columns = []
    for states in itertools.product((False, True), repeat=len(strengths)):
        spared = 1.0 - fault.prior
        for strength, on in zip(strengths.values(), states, strict=True):
            spared *= 1.0 - strength if on else 1.0
        columns.append([spared, 1.0 - spared])
    return columns


class Reference:
    """The faults and the readings of one set of evidence, as a pgmpy network."""

    def __init__(self, network: Network, evidence: Likelihoods) -> None:
        from pgmpy.factors.discrete import TabularCPD
        from pgmpy.inference import VariableElimination
        from pgmpy.models import DiscreteBayesianNetwork

        self._table = TabularCPD
        self._model = DiscreteBayesianNetwork()
        self._tables: list[Any] = []
        self._seen: dict[str, int] = {}
        for fault in network.faults:
            strengths = {x.cause: x.strength for x in network.leads if x.condition == fault.id}
            self._add(fault.id, list(strengths), fault_columns(fault, strengths))
        for one in network.observables:
            if one.id in evidence:
                self._observe(one, evidence[one.id])
        self._model.add_cpds(*self._tables)
        assert self._model.check_model()
        self._inference = VariableElimination(self._model)

    def probability(self, fault: str) -> float:
        """The posterior of one fault."""
        found = self._inference.query(
            [fault], evidence=self._seen, elimination_order="MinFill", show_progress=False
        )
        return float(found.values[1] / found.values.sum())

    def _add(self, key: str, parents: list[str], columns: list[list[float]]) -> None:
        self._model.add_node(key)
        self._model.add_edges_from((parent, key) for parent in parents)
        rows = [list(row) for row in zip(*columns, strict=True)]
        cards = {"evidence": parents, "evidence_card": [2] * len(parents)} if parents else {}
        self._tables.append(self._table(key, len(rows), rows, **cards))

    def _observe(self, one: Observable, likelihood: tuple[float, ...]) -> None:
        """Hard evidence on the reading itself; soft evidence on a child of it (Pearl 1988)."""
        key = f"reading: {one.id}"
        parents = [x.fault for x in (*one.seen, *one.hidden_by)]
        states = itertools.product((False, True), repeat=len(parents))
        self._add(key, parents, [column(one, dict(zip(parents, on, strict=True))) for on in states])
        if sorted(likelihood)[-2:] == [0.0, 1.0]:
            self._seen[key] = likelihood.index(1.0)
            return
        soft = f"soft: {one.id}"
        self._model.add_edge(key, soft)
        rows = [[1.0 - p for p in likelihood], list(likelihood)]
        self._tables.append(self._table(soft, 2, rows, [key], [len(likelihood)]))
        self._seen[soft] = 1


def random_readings(rng: random.Random, network: Network) -> dict[str, tuple[float, ...]]:
    """A few hard and soft readings; every other set holds a hidden family."""
    narrow = [x for x in network.observables if len(x.seen) + len(x.hidden_by) <= WIDEST]
    hidden = [x for x in narrow if x.hidden_by]
    chosen = {x.id: x for x in rng.sample(narrow, rng.randint(*READINGS))}
    if rng.random() < 0.5:
        one = rng.choice(hidden)
        chosen[one.id] = one
    evidence = {}
    for key in sorted(chosen):
        levels = len(chosen[key].otherwise)
        if rng.random() < 0.35:
            evidence[key] = tuple(rng.uniform(0.01, 1.0) for _ in range(levels))
        else:
            level = rng.randrange(levels)
            evidence[key] = tuple(float(k == level) for k in range(levels))
    return evidence


def written_out() -> Network:
    """The whole network of the packs that are shipped, but for the weaker causes of a condition
    that has many: that far pgmpy can write it out. Both sides get the same."""
    whole = whole_network(load_rulebook([shipped_rules()]).model)
    ranked = sorted(whole.leads, key=lambda lead: (lead.condition, -lead.strength, lead.cause))
    kept = [
        lead
        for _, group in itertools.groupby(ranked, key=lambda lead: lead.condition)
        for lead in list(group)[:CAUSES]
    ]
    return replace(whole, leads=tuple(kept))


@pytest.fixture(scope="module")
def network() -> Network:
    return written_out()


@pytest.fixture(autouse=True)
def _quiet() -> Any:
    logging.disable(logging.CRITICAL)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield
    logging.disable(logging.NOTSET)


@pytest.mark.parametrize("part", range(PARTS))
def test_shipped_posteriors_equal_pgmpys(network: Network, part: int) -> None:
    """With random sets of evidence the faults' posteriors are pgmpy's, to 1e-9."""
    for seed in range(part, COMPARED, PARTS):
        rng = random.Random(f"shipped {seed}")
        evidence = random_readings(rng, network)
        ours = posteriors(network, evidence)
        theirs = Reference(network, evidence)
        for fault in rng.sample(network.faults, ASKED):
            expected = theirs.probability(fault.id)
            assert ours[fault.id] == pytest.approx(expected, abs=1e-9), (seed, fault.id)


def test_the_sets_hold_what_they_promise(network: Network) -> None:
    """Among the 60 sets there are hard, soft and hidden readings, in plenty."""
    sets = [random_readings(random.Random(f"shipped {seed}"), network) for seed in range(SETS)]
    hidden = {x.id for x in network.observables if x.hidden_by}
    kinds = [sorted(values)[-2:] == [0.0, 1.0] for each in sets for values in each.values()]
    assert sum(kinds) > 50
    assert len(kinds) - sum(kinds) > 30
    assert sum(bool(hidden & each.keys()) for each in sets) > 20
    assert len({key for each in sets for key in each}) > 60


def test_the_comparison_can_fail(network: Network) -> None:
    """A network without its hiders is told from the shipped one by far more than 1e-9."""
    bare = Network(
        network.faults,
        network.leads,
        tuple(Observable(x.id, x.otherwise, x.seen) for x in network.observables),
    )
    hidden = [x for x in network.observables if x.hidden_by]
    one = min(hidden, key=lambda x: len(x.seen) + len(x.hidden_by))
    lowest = (1.0, *(0.0 for _ in one.otherwise[1:]))
    theirs, ours = Reference(network, {one.id: lowest}), posteriors(bare, {one.id: lowest})
    assert max(abs(ours[f.id] - theirs.probability(f.id)) for f in network.faults) > 1e-3
