"""The check of the rules as JSON (docs/reference/rules-check.md)."""

from __future__ import annotations

from sootsayer.console.rule_sentences import sentence
from sootsayer.documents.mended import mended
from sootsayer.engine.conditions import NotFitted, Value
from sootsayer.judgement.checked import Checked
from sootsayer.judgement.coverage import Shown
from sootsayer.rulebook.review.remark import Decision, Remark


def checked_json(checked: Checked) -> dict[str, object]:
    """Everything, in a fixed order."""
    counted = checked.counted
    rulebook = checked.rulebook
    return {
        "format": 1,
        "rulebook": None
        if rulebook is None
        else {"logic": rulebook.digests.logic, "words": rulebook.digests.words},
        "counted": {
            "packs": counted.packs, "findings": counted.findings, "faults": counted.faults,
            "links": counted.links, "proofs": counted.proofs,
        },
        "unread": checked.unread,
        "remarks": [_remark(each) for each in checked.remarks],
        "decisions": [_decision(each) for each in checked.decisions],
        "coverage": [_shown(each) for each in checked.shown],
    }  # fmt: skip


def _remark(remark: Remark) -> dict[str, object]:
    problem = remark.problem
    return {
        "concern": remark.concern.value,
        "weight": remark.weight.value,
        "thing": remark.thing,
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
        "what": problem.what,
        "instead": problem.instead,
        "quoted": problem.line,
        "mended": mended(problem),
        "case": _case(remark.case),
    }


def _decision(decision: Decision) -> dict[str, object]:
    return {
        "concern": decision.concern.value,
        "thing": decision.thing,
        "claim": decision.claim,
        "decided": decision.decided.value,
        "case": _case(decision.case),
    }


def _shown(shown: Shown) -> dict[str, object]:
    return {
        "rule": shown.slot,
        "test": None if shown.part is None else sentence(shown.part),
        "outcome": shown.outcome,
        "proofs": shown.proofs,
        "cases": shown.cases,
    }


def _case(case: dict[str, Value]) -> dict[str, object]:
    return {s: "not fitted" if isinstance(v, NotFitted) else v for s, v in case.items()}
