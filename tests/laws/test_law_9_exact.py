"""Law 9. Confidence is exact, or says that it is not."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from itertools import product
from math import prod

import pytest

from sootsayer.belief import elimination
from sootsayer.belief.inference import infer
from sootsayer.belief.network import Evidence, Kind, Network
from sootsayer.belief.noisy import level_spread
from sootsayer.casework.model import Case
from sootsayer.console.judge_page import judge_page
from sootsayer.console.names import names_of
from sootsayer.console.screen import drawn
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration
from tests.laws.making_cases import rulebook
from tests.laws.outline import network, outline

MOST_FAULTS = 10  # sets are counted one by one: 2 to the power of this


def counted(network: Network, evidence: Evidence) -> dict[frozenset[str], float]:
    """The weight of every set of faults: the definition itself, nothing clever."""
    names = [fault.id for fault in network.faults]
    weights = {}
    for there in product((False, True), repeat=len(names)):
        chosen = frozenset(n for n, is_there in zip(names, there, strict=True) if is_there)
        weights[chosen] = _prior(network, chosen) * _likelihood(network, evidence, chosen)
    return weights


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


def confidence_is_exact(case: Case, at: datetime) -> None:
    """Of the leading faults of the case, everything believed is what counting every set gives."""
    whole, evidence = network(outline(case, at))
    beliefs = infer(whole, evidence)
    leading = sorted(beliefs.posteriors, key=lambda f: (-beliefs.posteriors[f], f))[:MOST_FAULTS]
    part = narrowed(whole, leading)
    weights = counted(part, evidence)
    total = sum(weights.values())
    found = infer(part, evidence)
    assert found.exact
    for fault in part.faults:
        share = sum(w for present, w in weights.items() if fault.id in present) / total
        assert found.posteriors[fault.id] == pytest.approx(share, abs=1e-12), fault.id
    for kind in Kind:
        of_kind = {fault.id for fault in part.faults if fault.kind is kind}
        share = sum(w for present, w in weights.items() if not present & of_kind) / total
        assert found.none[kind] == pytest.approx(share, abs=1e-12), kind
    for candidate in found.candidates:
        weight = weights.pop(frozenset(candidate.faults))
        assert candidate.probability == pytest.approx(weight / total, abs=1e-12)
    assert min(c.probability for c in found.candidates) >= max(weights.values()) / total - 1e-12
    listed = sum(c.probability for c in found.candidates)
    assert found.left_out == pytest.approx(1 - listed, abs=1e-9)


def inexactness_is_said(book: Rulebook, case: Case, at: datetime, widest: int) -> Verdict:
    """With tables of at most `widest` faults: a verdict is exact, or says so with true bounds."""
    exact = infer(*network(outline(case, at, book))).posteriors
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "WIDEST", widest)
        verdict = judge(case, book, now=at)
    for fault in verdict.faults:
        if verdict.exact:
            assert fault.low == fault.confidence == fault.high
            assert fault.confidence == pytest.approx(exact[fault.id], abs=1e-6)
        else:
            assert fault.low - 1e-6 <= exact[fault.id] <= fault.high + 1e-6
            assert fault.low <= fault.confidence <= fault.high
    text = drawn(judge_page(verdict, names_of(book.model, case)))
    assert ("too wide to reckon exactly" in text) is not verdict.exact
    return verdict


@pytest.mark.parametrize("name", A_FEW)
def test_confidence_equals_counting_every_set(name: str) -> None:
    """Of the leading faults of a demonstration case, elimination gives what counting gives."""
    confidence_is_exact(demonstration(name), closing_moment(demonstration(name)))


@pytest.mark.parametrize("widest", [3, 20])
def test_inexact_confidence_says_so(widest: int) -> None:
    """A case too wide says that it is, on the page too, and bounds each true confidence."""
    case = demonstration("leaking-front-hose")
    verdict = inexactness_is_said(rulebook(), case, closing_moment(case), widest)
    assert verdict.exact is (widest == 20)
    if not verdict.exact:
        assert any(fault.low < fault.high for fault in verdict.faults)


def test_what_is_not_listed_is_counted_too() -> None:
    """Listed sets and the mass left out of a whole verdict add to one."""
    case = demonstration("sensor-offset")
    verdict = judge(case, rulebook(), now=closing_moment(case))
    assert verdict.exact
    listed = sum(c.probability for c in verdict.candidates)
    assert listed + verdict.left_out == pytest.approx(1, abs=2e-5)
