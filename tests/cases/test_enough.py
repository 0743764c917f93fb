"""The packs cover the trade, and enough vehicles are told of to notice a slip in them."""

from __future__ import annotations

from collections import Counter

from tests.cases.demonstrated import CASES, QUIET, files
from tests.laws.making_cases import rulebook

FEWEST_CASES, FEWEST_QUIET = 36, 25
FEWEST = {
    "faults": 38,
    "facts": 130,
    "checks": 60,
    "findings": 120,
    "graded findings": 25,
    "evidence links": 220,
    "causes leading to conditions": 35,
    "actions": 8,
    "interlocks": 25,
    "remedies": 22,
}


def test_the_rulebook_is_large_enough() -> None:
    """Faults of all three kinds, and as much of everything as the trade needs at least."""
    model = rulebook().model
    graded = [finding for finding in model.findings.values() if finding.graded]
    counted = {
        "faults": len(model.faults),
        "facts": len(model.signals),
        "checks": len(model.checks),
        "findings": len(model.findings),
        "graded findings": len(graded),
        "evidence links": sum(len(block.seen_with) for block in model.evidence.values()),
        "causes leading to conditions": sum(len(f.leads_to) for f in model.faults.values()),
        "actions": len(model.actions),
        "interlocks": len(model.interlocks),
        "remedies": len(model.remedies),
    }
    assert {what: n for what, n in counted.items() if n < FEWEST[what]} == {}
    assert len(Counter(fault.kind for fault in model.faults.values())) == 3


def test_enough_vehicles_are_told_of() -> None:
    """Demonstrations, and ordinary vehicles on which nothing may be found."""
    assert len(files(CASES)) >= FEWEST_CASES
    assert len(files(QUIET)) >= FEWEST_QUIET
