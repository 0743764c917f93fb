"""The answer to why as plain data for JSON; `docs/reference/why.md` describes it."""

from __future__ import annotations

from sootsayer.judgement.plan_json import remedy
from sootsayer.judgement.verdict_json import (
    channel,
    family,
    fault,
    grounds,
    interlock,
    limit,
    override,
    permission,
    plain_value,
    rule,
)
from sootsayer.judgement.why_answer import (
    WhyAnswer,
    WhyCheck,
    WhyFault,
    WhyJoint,
    WhyLink,
    WhyRemedy,
    WhyStep,
    WhyTest,
    WhyUnknown,
)
from sootsayer.judgement.would_change import WouldChange

FORMAT = 1
Plain = dict[str, object]


def as_json(answer: WhyAnswer) -> Plain:
    """The answer as dictionaries, lists, text, numbers and booleans.

    Of `fault`, `channel`, `family`, `interlock`, `permission`, `limit`, `check` and `remedy` only
    the one that the thing is has a value, the others are null.
    """
    return {
        "format": FORMAT,
        "thing": answer.thing,
        "kind": answer.kind.value,
        "label": answer.label,
        "case": answer.case,
        "as_of_entry": answer.as_of_entry,
        "value": plain_value(answer.value),
        "unit": answer.unit,
        "missing": answer.missing.value if answer.missing else None,
        "rule": rule(answer.rule) if answer.rule else None,
        "basis": answer.basis,
        "applies": answer.applies,
        "applies_steps": [_step(step) for step in answer.applies_steps],
        "steps": [_step(step) for step in answer.steps],
        "grounds": grounds(answer.grounds),
        "borderline": answer.borderline,
        "set_aside": answer.set_aside,
        "would_be": answer.would_be,
        "unknown": [_unknown(item) for item in answer.unknown],
        "related": [_link(link) for link in answer.related],
        "fault": _fault(answer.fault) if answer.fault else None,
        "channel": channel(answer.channel) if answer.channel else None,
        "family": family(answer.family) if answer.family else None,
        "interlock": interlock(answer.interlock) if answer.interlock else None,
        "permission": permission(answer.permission) if answer.permission else None,
        "limit": limit(answer.limit) if answer.limit else None,
        "check": _check(answer.check) if answer.check else None,
        "remedy": _remedy(answer.remedy) if answer.remedy else None,
        "overrides": [override(each) for each in answer.overrides],
        "would_change": _would_change(answer.would_change) if answer.would_change else None,
    }


def _step(step: WhyStep) -> Plain:
    return _joint(step) if isinstance(step, WhyJoint) else _test(step)


def _joint(step: WhyJoint) -> Plain:
    return {"joint": step.op, "count": step.count, "outcome": step.outcome, "depth": step.depth}


def _test(step: WhyTest) -> Plain:
    return {
        "slot": step.slot,
        "label": step.label,
        "op": step.op,
        "seen": plain_value(step.seen),
        "unit": step.unit,
        "against": [
            {"value": o.value, "limits": list(o.limits), "slots": list(o.slots)}
            for o in step.against
        ],
        "words": list(step.words),
        "outcome": step.outcome,
        "missing": step.missing.value if step.missing else None,
        "depth": step.depth,
    }


def _unknown(item: WhyUnknown) -> Plain:
    return {
        "slot": item.slot,
        "label": item.label,
        "missing": item.missing.value,
        "checks": [_check(check) for check in item.checks],
    }


def _check(check: WhyCheck) -> Plain:
    return {
        "id": check.id,
        "does": check.does,
        "where": check.where,
        "minutes": check.minutes,
        "caution": check.caution,
    }


def _would_change(change: WouldChange) -> Plain:
    return {
        "check": change.check,
        "then": list(change.then),
        "minutes": change.minutes,
        "kinds": list(change.kinds),
        "actions": list(change.actions),
    }


def _link(link: WhyLink) -> Plain:
    return {
        "relation": link.relation.value,
        "kind": link.kind.value,
        "id": link.id,
        "label": link.label,
        "value": plain_value(link.value),
        "unit": link.unit,
    }


def _remedy(why: WhyRemedy) -> Plain:
    return {
        **remedy(why.said),
        "confidences": dict(why.cures),
        "permissions": [permission(each) for each in why.permissions],
        "clears": [_check(check) for check in why.clears],
        "currency": why.currency or None,
    }


def _fault(why: WhyFault) -> Plain:
    return {
        **fault(why.said),
        "prior": why.prior,
        "prior_now": why.prior_now,
        "shifts": [
            {
                "steps": [_step(step) for step in shift.steps],
                "times": shift.times,
                "outcome": shift.outcome,
            }
            for shift in why.shifts
        ],
        "rank": why.rank,
        "none": why.none,
    }
