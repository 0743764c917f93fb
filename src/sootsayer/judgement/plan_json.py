"""The plan of a verdict as plain data for JSON."""

from __future__ import annotations

from sootsayer.judgement.plan_said import (
    Expected,
    HowSaid,
    Plan,
    Range,
    ReasonSaid,
    RemedySaid,
    ReturnSaid,
)
from sootsayer.judgement.verdict import Verdict

FORMAT = 1
Plain = dict[str, object]


def as_json(verdict: Verdict) -> Plain:
    """What `sootsayer plan --json` prints: the plan, and what it is a plan of."""
    plan = verdict.plan
    assert plan is not None
    return {
        "format": FORMAT,
        "program": verdict.program,
        "case": verdict.case,
        "as_of": {
            "entry": verdict.as_of_entry,
            "time": verdict.as_of_time.isoformat(timespec="seconds"),
            "round": verdict.round,
        },
        "rulebook": {"logic": verdict.rulebook_logic, "words": verdict.rulebook_words},
        "shop": verdict.shop,
        "plan": remedies(plan),
        "planning": planning(plan),
    }


def remedies(plan: Plan) -> list[Plain]:
    """The verdict's `plan`: every remedy, in its order."""
    return [remedy(each) for each in plan.remedies]


def planning(plan: Plan) -> Plain:
    """The verdict's `planning`: how the order came about, and what would change it."""
    return {
        "method": plan.method.value,
        "by": plan.by,
        "currency": plan.currency or None,
        "unpriced": [name or "labour rate" for name in plan.unpriced],
        "order": list(plan.order),
        "once_clear": list(plan.once_clear),
        "once_clear_method": plan.once_clear_method.value,
        "looks": [
            {
                "check": each.check,
                "minutes": each.minutes,
                "saves": each.saves,
                "more": each.more,
                "first": [*each.first],
            }
            for each in plan.looks
        ],
        "openings": [
            {
                "remedy": each.remedy,
                "checks": list(each.checks),
                "minutes": each.minutes,
                "saves": each.saves,
                "more": each.more,
            }
            for each in plan.openings
        ],
        "nothing": plan.nothing,
        "beyond": plan.beyond,
        "unlisted": plan.unlisted,
        "holds": plan.holds,
        "declined": plan.declined,
    }


def remedy(said: RemedySaid) -> Plain:
    return {
        "remedy": said.remedy,
        "label": said.label,
        "state": said.state.value,
        "reasons": [reason(each) for each in said.reasons],
        "minutes": between(said.minutes),
        "days": between(said.days),
        "cost": between(said.cost),
        "shops_price": said.shops_price,
        "cures": dict(said.cures),
        "alone": said.alone,
        "expected": expected(said.expected),
        "hides": list(said.hides),
        "mend_first": list(said.mend_first),
        "leaves": dict(said.leaves),
        "returns": returning(said.returns),
        "then": list(said.then),
        "verify": list(said.verify),
        "how": None if said.how is None else how(said.how),
    }


def reason(said: ReasonSaid) -> Plain:
    return {
        "action": said.action,
        "interlock": said.interlock,
        "says": said.says,
        "state": said.state.value,
        "reason": said.reason.value,
        "would_clear": list(said.would_clear),
    }


def between(ends: Range | None) -> Plain | None:
    return None if ends is None else {"from": ends.lowest, "to": ends.highest}


def expected(said: Expected | None) -> Plain | None:
    if said is None:
        return None
    return {"cost": between(said.cost), "minutes": between(said.minutes), "left": said.left}


def returning(said: ReturnSaid | None) -> Plain | None:
    if said is None:
        return None
    return {
        "of": said.of,
        "filling": said.filling.value,
        "km": between(said.km),
        "days": between(said.days),
        "own": said.own,
    }


def how(said: HowSaid) -> Plain:
    return {
        "does": said.does,
        "cautions": [
            {"action": each.action or None, "does": each.does, "caution": each.caution}
            for each in said.cautions
        ],
        "steps": [{"does": each.does, "caution": each.caution or None} for each in said.steps],
        "stop_when": list(said.stop_when),
        "consumes": list(said.consumes),
        "oil_afterwards": said.oil_afterwards or None,
        "resets": list(said.resets),
        "voids": list(said.voids),
        "recheck": [{"after_km": each.km, "after_days": each.days} for each in said.rechecks],
        "tell_the_customer": said.tell_the_customer or None,
    }
