"""What work leaves behind, whatever the pressure says: ash and other conditions, cause, oil."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.judgement import compare_rules as rules
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.workings import Workings

WORTH_SAYING = 0.3
"""Confidence from which a fault is named as perhaps still there."""
ASH = "ash-full"


@dataclass(frozen=True, slots=True)
class Remaining:
    """A fault that the verdict still holds for possible."""

    id: str
    label: str
    confidence: float


@dataclass(frozen=True, slots=True)
class Remains:
    """`ash` is the confidence of a filter full of it (None: the rulebook has no such fault);
    `no_cause` that no cause is present; `oil_read`: the oil level was read in the later round."""

    conditions: tuple[Remaining, ...]
    causes: tuple[Remaining, ...]
    ash: float | None
    no_cause: float
    oil_read: bool


def what_remains(work: Workings, verdict: Verdict, to_round: str) -> Remains:
    """From the verdict on the case as it is now."""
    by_kind: dict[str, tuple[Remaining, ...]] = {
        kind: tuple(
            Remaining(fault.id, fault.label, fault.confidence)
            for fault in verdict.faults
            if fault.kind == kind and fault.confidence >= WORTH_SAYING
        )
        for kind in ("condition", "cause")
    }
    ash = next((fault.confidence for fault in verdict.faults if fault.id == ASH), None)
    return Remains(
        by_kind["condition"],
        by_kind["cause"],
        ash,
        verdict.none["cause"],
        _oil_read(work, to_round),
    )


def _oil_read(work: Workings, to_round: str) -> bool:
    return any(
        said.slot == rules.OIL and said.absence is None
        for entry in work.case.entries
        if entry.round == to_round and entry.number <= work.sheet.as_of
        for said in entry.said
    )
