"""What next, by a plan: the work in its order, or what it waits for."""

from __future__ import annotations

from sootsayer.catalogue import listed, say, shown
from sootsayer.catalogue_numbers import brief
from sootsayer.console import plan_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import HEADING, Line
from sootsayer.console.plan_room import PlanRoom
from sootsayer.console.plan_sought import likely, part_done, repairs, telling_looks
from sootsayer.console.plan_why import look_lines, named_checks
from sootsayer.console.plan_work import work_lines
from sootsayer.judgement.plan_said import OpeningSaid, Plan
from sootsayer.judgement.verdict import Verdict

_NAMED = 3


def next_lines(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """The band; none where the rulebook has no remedy that applies."""
    if not plan.remedies:
        return []
    if not repairs(plan) and (plan.nothing <= 0.5 or not plan.order):
        return _not_yet(verdict, plan, names, room)
    if plan.nothing > 0.5 and not room.more:
        return _only_if(plan, names)
    heading = say(t.NEXT_IF) if plan.nothing > 0.5 else say(t.NEXT)
    lines = [Line(heading, style=HEADING), Line(say(t.TECHNICIAN), indent=2)]
    for look in telling_looks(plan, more=room.more)[: room.looks]:
        lines += look_lines(look, plan, names)
    return lines + _order(verdict, plan, names, room)


def _order(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """Each piece of work in its place: whole what is for something likely, the rest by name."""
    by_id = {each.remedy: each for each in plan.remedies}
    covered = {fault for name in plan.order for fault in by_id[name].hides}  # mended before that
    speaking = [
        name
        for name in plan.order
        if room.more or likely(by_id[name], verdict) or covered & by_id[name].cures.keys()
    ]
    whole = (speaking or plan.order)[: room.whole]
    last = max(plan.order.index(name) for name in whole)
    lines = []
    for number, name in enumerate(plan.order[: last + 1], start=1):
        if name in plan.order[: number - 1]:
            lines.append(Line(say(t.WORK_AGAIN, number=number, label=by_id[name].label), indent=2))
        elif name in whole:
            lines += work_lines(by_id[name], number, verdict, names, more=room.more)
        else:
            text = say(t.WORK_NAMED, number=number, label=by_id[name].label)
            lines.append(Line(text, indent=2))
    after = [
        say(t.AGAIN, label=by_id[name].label)
        if name in plan.order[:place]
        else shown(by_id[name].label)
        for place, name in enumerate(plan.order)
        if place > last
    ]
    return lines + ([Line(say(t.AFTER, labels=listed(after)), indent=2)] if after else [])


def _only_if(plan: Plan, names: Names) -> list[Line]:
    """Where most likely nothing is wrong, work is named and none is told."""
    labels = listed([names.of(each) for each in plan.order[:_NAMED]])
    lines = [Line(say(t.NEXT_NO_NEED), style=HEADING)]
    lines.append(Line(say(t.ONLY_IF, labels=labels), indent=2))
    return lines


def _not_yet(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """Nothing that is permitted repairs it: what mends a part already, and what to settle."""
    parts = part_done(verdict)
    lines = [Line(say(t.NEXT_PART if parts else t.NEXT_NOTHING), style=HEADING)]
    lines += [Line(say(t.TECHNICIAN), indent=2)] if parts else []
    for number, each in enumerate(parts[: room.whole], start=1):
        lines += work_lines(each, number, verdict, names, more=room.more)
    left = [shown(each.label) for each in parts[room.whole :]]
    lines += [Line(say(t.PARTS_TOO, labels=listed(left)), indent=2)] if left else []
    return lines + _settling(verdict, plan, names, room)


def _settling(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """The checks that the best of the waiting work waits for, told whole; those of others named."""
    by_id = {each.remedy: each for each in plan.remedies}
    telling = [each for each in plan.openings if likely(by_id[each.remedy], verdict)]
    lines = _checks(telling[0], verdict, names, room) if telling else []
    for each in telling[1 : 1 + room.openings]:
        checks = named_checks(each.checks, room)
        text = say(t.OPENING_ONLY, label=names.of(each.remedy), checks=checks)
        lines.append(Line(text, indent=2))
    return lines


def _checks(opening: OpeningSaid, verdict: Verdict, names: Names, room: PlanRoom) -> list[Line]:
    label = names.of(opening.remedy)
    if not opening.checks:
        text = say(t.OPENING_ONLY, label=label, checks=say(t.OPENING_NO_CHECK))
        return [Line(text, indent=2)]
    minutes = brief(opening.minutes)
    lines = [Line(say(t.SETTLE, label=label, minutes=minutes), indent=2)]
    told = opening.checks[: room.checks]
    for each in told:
        check = names.check(each)
        if check is not None:
            text = say(t.CHECK, does=check.does.rstrip("."), minutes=brief(check.minutes))
            lines.append(Line(text, indent=4))
            if check.caution:
                lines.append(Line(say(t.CAUTION, caution=check.caution), indent=6))
    left = opening.checks[len(told) :]
    if left:
        slots = {"case": verdict.case, "check": left[0]}
        text = say(t.THEN_CHECKS, checks=named_checks(left, room), **slots)
        lines.append(Line(text, indent=4))
    return lines
