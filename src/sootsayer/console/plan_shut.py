"""Work of a plan that is not done first: permitted too, not yet clear, forbidden. Never how."""

from __future__ import annotations

from sootsayer.advice.plan_choice import Method
from sootsayer.advice.work_state import WorkState
from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.console import plan_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import HEADING, QUIET, STRONG, Line
from sootsayer.console.plan_numbers import expected
from sootsayer.console.plan_room import PlanRoom
from sootsayer.console.plan_sought import NO_REPAIR, likely, part_done, repairs
from sootsayer.console.plan_work import concerns, takes
from sootsayer.console.words import confidence
from sootsayer.judgement.plan_said import Plan, ReasonSaid, RemedySaid
from sootsayer.judgement.verdict import Permitted, Reason, Verdict


def rest_bands(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[list[Line]]:
    """What is permitted but not first, not yet clear and forbidden, of what would help here."""
    speaking = [each for each in plan.remedies if likely(each, verdict)]
    useful = [e for e in plan.remedies if e.expected is not None or e in speaking]
    useful = useful if room.more else speaking
    planned = plan.order if repairs(plan) else ()
    told = {*planned, *(each.remedy for each in part_done(verdict))}
    of_state = {
        state: [e for e in useful if e.state is state and e.remedy not in told]
        for state in WorkState
    }
    shown_ = {state: each[: room.others] for state, each in of_state.items()}
    waiting, forbidden = shown_[WorkState.NOT_YET_CLEAR], shown_[WorkState.FORBIDDEN]
    others = [x for e in shown_[WorkState.PERMITTED] for x in _other(e, verdict, names, room)]
    waits = [line for each in waiting for line in _shut(each, plan, room)]
    bands = [
        _band(t.OTHERS, others),
        _band(t.NOT_YET, [*_guessed(plan, waiting), *waits]),
        _band(t.FORBIDDEN, [line for e in forbidden for line in _shut(e, plan, room)]),
    ]
    unused = [e for e in plan.remedies if e not in useful and e.remedy not in told]
    left = sum(map(len, of_state.values())) - sum(map(len, shown_.values()))
    return [*bands, *_last(unused, left, room)]


def _last(unused: list[RemedySaid], left: int, room: PlanRoom) -> list[list[Line]]:
    """All the rest: named with --more, else counted."""
    if room.more:
        named = [Line(say(t.WORK_STATE, label=e.label, remedy=e.remedy), indent=2) for e in unused]
        return [_band(t.USELESS, named)]
    counted = [say_count(*t.MORE_USEFUL, count=left)] if left else []
    counted += [say_count(*t.MORE_WORK, count=len(unused))] if unused else []
    return [[Line(text, style=QUIET) for text in counted]]


def _band(title: str, lines: list[Line]) -> list[Line]:
    return [Line(say(title), style=HEADING), *lines] if lines else []


def _guessed(plan: Plan, waiting: list[RemedySaid]) -> list[Line]:
    """The word heuristic, where what is said of work that waits is one."""
    told = any(each.expected is not None for each in waiting)
    if told and plan.once_clear_method is Method.HEURISTIC:
        return [Line(say(t.HEURISTIC_ONCE), indent=2)]
    return []


def _other(said: RemedySaid, verdict: Verdict, names: Names, room: PlanRoom) -> list[Line]:
    lines = [Line(say(t.WORK_STATE, label=said.label, remedy=said.remedy), indent=2, style=STRONG)]
    lines += [Line(text, indent=4) for text in takes(said, verdict, names, more=room.more)]
    return lines + [Line(text, indent=4) for text in concerns(said, verdict, names)]


def _shut(said: RemedySaid, plan: Plan, room: PlanRoom) -> list[Line]:
    """Work that may not be done now: why, never how."""
    lines = [Line(say(t.WORK_STATE, label=said.label, remedy=said.remedy), indent=2, style=STRONG)]
    telling = said.reasons
    if said.state is WorkState.FORBIDDEN and not room.more:
        telling = tuple(each for each in telling if each.state is Permitted.BLOCKED)
    lines += [Line(text, indent=4) for text in _reasons(telling, room)]
    if said.expected is not None and said.expected.left < NO_REPAIR:
        left = confidence(said.expected.left)
        text = say(t.EXPECTED_ONCE, expected=expected(said.expected, plan), left=left)
        lines.append(Line(text, indent=4))
    return lines


def _reasons(reasons: tuple[ReasonSaid, ...], room: PlanRoom) -> list[Said]:
    """What forbids it, and what it waits for by why that is not clear, in their order."""
    blocked = [shown(each.says) for each in reasons if each.state is Permitted.BLOCKED]
    told = [say(t.BECAUSE, reasons=_cut(blocked, room))] if blocked else []
    for why in Reason:
        says = [
            shown(each.says)
            for each in reasons
            if each.state is not Permitted.BLOCKED and each.reason is why
        ]
        if says:
            told.append(say(t.WAITS[why.value], says=_cut(says, room)))
    return told


def _cut(parts: list[Said], room: PlanRoom) -> Said:
    if len(parts) <= room.reasons:
        return listed(parts)
    return say(t.LIST_CUT, parts=listed(parts[: room.reasons]), count=len(parts) - room.reasons)
