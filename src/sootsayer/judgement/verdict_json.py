"""A verdict as plain data for JSON, in the order in which a reader wants it.

The form is `rules/schema/verdict.schema.json`, described in `docs/reference/verdict.md`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from sootsayer.engine.conditions import NotFitted, Value
from sootsayer.judgement.verdict import (
    ChannelSaid,
    Contribution,
    FamilySaid,
    FaultSaid,
    FindingSaid,
    Ground,
    InterlockSaid,
    LimitUsed,
    NextCheckSaid,
    OverrideSaid,
    PermissionSaid,
    RuleAt,
    Verdict,
)

FORMAT = 1
Plain = dict[str, object]


def as_json(verdict: Verdict) -> Plain:
    """The verdict as dictionaries, lists, text, numbers and booleans."""
    return {
        "format": FORMAT,
        "program": verdict.program,
        "case": verdict.case,
        "as_of": {
            "entry": verdict.as_of_entry,
            "time": moment(verdict.as_of_time),
            "round": verdict.round,
        },
        "rulebook": {"logic": verdict.rulebook_logic, "words": verdict.rulebook_words},
        "shop": verdict.shop,
        "drive_on": {
            "state": verdict.drive_on.state.value,
            "reasons": [interlock(i) for i in verdict.drive_on.reasons],
            "unknown": [interlock(i) for i in verdict.drive_on.unknown],
        },
        "none": dict(verdict.none),
        "filter_well": {
            "shown": verdict.filter_well.shown,
            "because": list(verdict.filter_well.because),
        },
        "channels": [channel(c) for c in verdict.channels],
        "findings": [finding(f) for f in verdict.findings],
        "families": [family(f) for f in verdict.families],
        "limits": [limit(used) for used in verdict.limits],
        "faults": [fault(f) for f in verdict.faults],
        "candidates": [
            {"faults": list(c.faults), "probability": c.probability} for c in verdict.candidates
        ],
        "left_out": verdict.left_out,
        "exact": verdict.exact,
        "permissions": [permission(p) for p in verdict.permissions],
        "next_checks": None
        if verdict.next_checks is None
        else [next_check(c) for c in verdict.next_checks],
        "plan": verdict.plan,
        "refused": list(verdict.refused),
        "overrides": [override(o) for o in verdict.overrides],
        "contradictions": [
            {"slot": c.slot, "label": c.label, "counts": ground(c.counts), "other": ground(c.other)}
            for c in verdict.contradictions
        ],
        "torn": verdict.torn,
    }


def moment(at: datetime) -> str:
    """As in case files: ISO 8601 with the offset, to the second."""
    return at.isoformat(timespec="seconds")


def plain_value(value: Value) -> object:
    return value.value if isinstance(value, NotFitted) else value


def rule(at: RuleAt) -> Plain:
    return {"file": at.file, "line": at.line, "revision": at.revision}


def ground(g: Ground) -> Plain:
    return {
        "slot": g.slot,
        "label": g.label,
        "value": plain_value(g.value),
        "unit": g.unit,
        "source": g.source,
        "round": g.round,
        "entry": g.entry,
        "line": g.line,
        "typed": g.typed,
    }


def grounds(found: Sequence[Ground]) -> list[Plain]:
    return [ground(g) for g in found]


def channel(c: ChannelSaid) -> Plain:
    return {
        "id": c.id,
        "label": c.label,
        "state": c.state.value,
        "failed": list(c.failed),
        "awaits": list(c.awaits),
        "zero": c.zero,
    }


def family(f: FamilySaid) -> Plain:
    return {"id": f.id, "speaker": f.speaker, "disagreeing": list(f.disagreeing)}


def finding(f: FindingSaid) -> Plain:
    return {
        "id": f.id,
        "says": f.says,
        "level": f.level,
        "graded": f.graded,
        "borderline": f.borderline,
        "weights": list(f.weights),
        "set_aside": f.set_aside,
        "would_be": f.would_be,
        "grounds": grounds(f.grounds),
        "awaits": list(f.awaits),
        "rule": rule(f.rule),
    }


def limit(used: LimitUsed) -> Plain:
    return {
        "id": used.id,
        "label": used.label,
        "value": used.value,
        "unit": used.unit,
        "from": used.origin,
    }


def contribution(c: Contribution) -> Plain:
    return {
        "family": c.family,
        "finding": c.finding,
        "says": c.says,
        "level": c.level,
        "with": c.with_it,
        "without": c.without_it,
        "weight": c.weight,
        "word": c.word,
        "grounds": grounds(c.grounds),
        "link": rule(c.link),
    }


def override(o: OverrideSaid) -> Plain:
    return {
        "of": o.of,
        "at": list(o.path),
        "was": o.was,
        "now": o.now,
        "why": o.why,
        "rule": rule(o.rule),
    }


def fault(f: FaultSaid) -> Plain:
    return {
        "id": f.id,
        "label": f.label,
        "kind": f.kind,
        "confidence": f.confidence,
        "low": f.low,
        "high": f.high,
        "for": [contribution(c) for c in f.for_],
        "against": [contribution(c) for c in f.against],
        "set_aside": list(f.set_aside),
        "missing": list(f.missing),
        "rule": rule(f.rule),
    }


def interlock(i: InterlockSaid) -> Plain:
    return {
        "id": i.id,
        "says": i.says,
        "when_not": i.when_not,
        "state": i.state.value,
        "reason": i.reason.value,
        "grounds": grounds(i.grounds),
        "awaits": list(i.awaits),
        "would_clear": list(i.would_clear),
        "rule": rule(i.rule),
    }


def next_check(c: NextCheckSaid) -> Plain:
    return {
        "id": c.id,
        "does": c.does,
        "where": c.where,
        "minutes": c.minutes,
        "caution": c.caution,
        "gain_bits": c.gain_bits,
        "in_all_minutes": c.in_all_minutes,
        "then": list(c.then),
        "tells": list(c.tells),
    }


def permission(p: PermissionSaid) -> Plain:
    return {
        "action": p.action,
        "does": p.does,
        "state": p.state.value,
        "interlocks": [interlock(i) for i in p.interlocks],
        "named": [interlock(i) for i in p.named],
        "hurts": list(p.hurts),
        "caution": p.caution,
    }
