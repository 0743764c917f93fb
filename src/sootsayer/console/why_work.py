"""The page of why for a remedy: what it is done by and cures, what stands in its way, what clears
that. How it is done stands in the plan alone."""

from __future__ import annotations

from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import brief, fixed
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import Line
from sootsayer.console.plan_numbers import between
from sootsayer.console.readings import reason
from sootsayer.console.words import confidence
from sootsayer.judgement.verdict import InterlockSaid, Permitted
from sootsayer.judgement.why_answer import WhyRemedy


def work_known(work: WhyRemedy, case: str, names: Names) -> list[Line]:
    """What it cures, what it takes, and each action that it is done by with its caution."""
    cures = sorted(work.cures.items(), key=lambda it: (-it[1], it[0]))
    lines = [
        Line(
            say(
                t.WORK_CURES,
                label=names.of(fault),
                share=fixed(100 * work.said.cures[fault]),
                confidence=confidence(sure),
            ),
            indent=2,
        )
        for fault, sure in cures
    ]
    lines.append(Line(_takes(work), indent=2))
    for each in work.permissions:
        lines.append(Line(say(t.WORK_BY, does=each.does, action=each.action), indent=2))
        if each.caution:
            lines.append(Line(say(t.CAUTION, caution=each.caution), indent=4))
    if work.said.how is not None:
        lines.append(Line(say(t.WORK_HOW, case=case), indent=2))
    return lines


def _takes(work: WhyRemedy) -> Said:
    minutes = between(work.said.minutes, "min")
    if work.said.cost is None:
        return say(t.WORK_TIME, minutes=minutes)
    return say(t.WORK_PRICE, minutes=minutes, price=between(work.said.cost, work.currency))


def work_why(work: WhyRemedy, names: Names) -> list[Line]:
    """Every interlock that is not clear, with its reason; what forbids it first."""
    open_ones: dict[str, InterlockSaid] = {}
    for permission in work.permissions:
        for lock in permission.interlocks:
            if lock.state is not Permitted.CLEAR:
                open_ones.setdefault(lock.id, lock)
        for lock in permission.named:
            if lock.state is Permitted.BLOCKED:
                open_ones.setdefault(lock.id, lock)
    if not open_ones:
        return [Line(say(t.WORK_FREE), indent=2)]
    order = sorted(open_ones.values(), key=lambda lock: lock.state is not Permitted.BLOCKED)
    return [Line(reason(lock, names.limits, names, whole=True), indent=2) for lock in order]


def work_next(work: WhyRemedy) -> list[Line]:
    """The checks that would clear it, each with its caution."""
    if not work.clears:
        return []
    lines = [Line(say(t.WORK_CLEARS), indent=2)]
    for check in work.clears:
        slots = {"does": check.does, "check": check.id, "minutes": brief(check.minutes)}
        lines.append(Line(say(t.UNKNOWN_CHECK, **slots), indent=4))
        if check.caution:
            lines.append(Line(shown(say(t.CAUTION, caution=check.caution)), indent=6))
    return lines
