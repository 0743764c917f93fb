"""Law 9. Confidence is exact, or says that it is not."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from math import prod

import pytest

from sootsayer.belief.inference import infer
from sootsayer.belief.network import Evidence, Network
from sootsayer.belief.noisy import level_spread
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.judge import judge
from sootsayer.judgement.workings import work_out
from tests.laws.demonstrations import NAMES, closing_moment, demonstration
from tests.laws.making_cases import rulebook

MOST_FAULTS = 13  # sets are counted one by one: 2 to the power of this


def counted(network: Network, evidence: Evidence) -> dict[str, float]:
    """Posteriors by counting every set of faults: the definition itself, nothing clever."""
    names = [fault.id for fault in network.faults]
    total, mass = 0.0, dict.fromkeys(names, 0.0)
    for present in product((False, True), repeat=len(names)):
        chosen = frozenset(n for n, there in zip(names, present, strict=True) if there)
        weight = _prior(network, chosen) * _likelihood(network, evidence, chosen)
        total += weight
        for name in chosen:
            mass[name] += weight
    return {name: mass[name] / total for name in names}


def _prior(network: Network, chosen: frozenset[str]) -> float:
    weight = 1.0
    for fault in network.faults:
        absent = (1 - fault.prior) * prod(
            1 - lead.strength
            for lead in network.leads
            if lead.condition == fault.id and lead.cause in chosen
        )
        weight *= 1 - absent if fault.id in chosen else absent
    return weight


def _likelihood(network: Network, evidence: Evidence, chosen: frozenset[str]) -> float:
    weight = 1.0
    for seen in network.observables:
        if seen.id in evidence:
            spread = level_spread(seen, chosen)
            weight *= sum(w * p for w, p in zip(evidence[seen.id], spread, strict=True))
    return weight


def narrowed(network: Network, keep: list[str]) -> Network:
    """The network of these faults alone."""
    kept = set(keep)
    return Network(
        tuple(f for f in network.faults if f.id in kept),
        tuple(lead for lead in network.leads if {lead.cause, lead.condition} <= kept),
        tuple(
            replace(
                o,
                seen=tuple(s for s in o.seen if s.fault in kept),
                hidden_by=tuple(s for s in o.hidden_by if s.fault in kept),
            )
            for o in network.observables
        ),
    )


@pytest.mark.parametrize("name", NAMES)
def test_confidence_equals_counting_every_set(name: str) -> None:
    """Of the leading faults of a demonstration case, elimination gives what counting gives."""
    case = demonstration(name)
    work = work_out(case, rulebook(), closing_moment(case), None)
    whole, evidence = network_of(work, families(work.model, findings(work)))
    beliefs = infer(whole, evidence)
    leading = sorted(beliefs.posteriors, key=lambda f: (-beliefs.posteriors[f], f))[:MOST_FAULTS]
    network = narrowed(whole, leading)
    exact = counted(network, evidence)
    found = infer(network, evidence)
    assert found.exact
    assert found.posteriors == pytest.approx(exact, abs=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_not_listed_is_counted_too(name: str) -> None:
    """Listed sets and the mass left out add to one."""
    case = demonstration(name)
    verdict = judge(case, rulebook(), now=closing_moment(case))
    assert verdict.exact
    listed = sum(c.probability for c in verdict.candidates)
    assert listed + verdict.left_out == pytest.approx(1, abs=2e-5)
    assert all(f.low == f.confidence == f.high for f in verdict.faults)
