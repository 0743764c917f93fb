"""Which work of a plan is worth speaking of: what cures something that is likely enough."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sootsayer.advice.work_state import WorkState
from sootsayer.catalogue import Said, say
from sootsayer.console import plan_texts as t
from sootsayer.console.plan_numbers import price

if TYPE_CHECKING:
    from sootsayer.judgement.plan_said import LookSaid, Plan, RemedySaid
from sootsayer.judgement.verdict import Verdict

LIKELY = 0.2
"""A fault is spoken of from this confidence on."""
FAINT = 0.05
"""That work also cures a fault below this is said only with --more."""
NO_REPAIR = 0.95
"""Where something is still wrong so surely, beginning with this work repairs nothing for good."""
HARDLY = 0.8
"""The same of the whole order: then it is no plan, only work on a part."""
_TELLING = 0.05
_MORE_TELLING = 0.02
_LAWFUL = 4


def sure_of(verdict: Verdict) -> dict[str, float]:
    return {fault.id: fault.confidence for fault in verdict.faults}


def likely(said: RemedySaid, verdict: Verdict) -> bool:
    """Whether it cures something that is likely enough to be spoken of."""
    sure = sure_of(verdict)
    return any(sure.get(fault, 0.0) >= LIKELY for fault in said.cures)


def told_cures(said: RemedySaid, verdict: Verdict, *, more: bool) -> dict[str, float]:
    """What it cures, the likeliest first; of faint faults only the likeliest, and only alone."""
    sure = sure_of(verdict)
    order = sorted(said.cures, key=lambda fault: (-sure.get(fault, 0.0), fault))
    if not more:
        order = [fault for fault in order if sure.get(fault, 0.0) >= FAINT] or order[:1]
    return {fault: said.cures[fault] for fault in order}


def repairs(plan: Plan) -> bool:
    """Whether the permitted work, done in its order, has a fair chance to be a lasting repair."""
    first = next((each for each in plan.remedies if each.remedy in plan.order[:1]), None)
    return first is not None and first.expected is not None and first.expected.left < HARDLY


def telling_looks(plan: Plan, *, more: bool) -> tuple[LookSaid, ...]:
    """Checks before the work that save a fair share of what it takes, or repair more."""
    first = next((each for each in plan.remedies if each.remedy in plan.order[:1]), None)
    if more or first is None or first.expected is None:
        return plan.looks
    ends = first.expected.cost or first.expected.minutes
    least = _TELLING * (ends.lowest + (ends.highest or ends.lowest)) / 2.0
    return tuple(e for e in plan.looks if e.saves >= least or e.more >= _MORE_TELLING)


def unreached(verdict: Verdict) -> dict[str, tuple[str, ...]]:
    """Each likely fault that no open work cures, with the forbidden work that would."""
    plan = verdict.plan
    assert plan is not None
    found = {}
    for fault in verdict.faults:
        curing = [each for each in plan.remedies if each.cures.get(fault.id, 0.0) > 0.0]
        if fault.confidence >= LIKELY and all(e.state is WorkState.FORBIDDEN for e in curing):
            found[fault.id] = tuple(each.remedy for each in curing)
    return found


def part_done(verdict: Verdict) -> tuple[RemedySaid, ...]:
    """Permitted work on something likely that repairs a part only, while the rest waits: the
    instruments first, since other work waits for what they read."""
    plan = verdict.plan
    assert plan is not None
    if repairs(plan):
        return ()
    measuring = {fault.id for fault in verdict.faults if fault.kind == "measurement"}
    found = [
        each
        for each in plan.remedies
        if each.state is WorkState.PERMITTED and each.expected is not None and likely(each, verdict)
    ]
    return tuple(sorted(found, key=lambda each: not measuring & each.cures.keys()))


def lawful(verdict: Verdict) -> tuple[RemedySaid, ...]:
    """What may be done instead of removing or defeating: permitted work first, in its order."""
    plan = verdict.plan
    assert plan is not None
    open_ = [e for e in plan.remedies if e.state is not WorkState.FORBIDDEN and likely(e, verdict)]
    first = [each for each in open_ if each.state is WorkState.PERMITTED]
    rest = [each for each in open_ if each.state is not WorkState.PERMITTED]
    return (*first, *rest)[:_LAWFUL]


def lawful_said(said: RemedySaid, plan: Plan) -> Said:
    permitted = said.state is WorkState.PERMITTED
    template = t.DECLINED_WORK if permitted else t.DECLINED_ONCE
    return say(template, label=said.label, price=price(said, plan))
