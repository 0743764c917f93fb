"""The page of a plan: what we know, why this order, what next."""

from __future__ import annotations

from sootsayer.advice.plan_choice import Method
from sootsayer.advice.work_state import WorkState
from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import plan_texts as t
from sootsayer.console.judge_know import drive_lines
from sootsayer.console.names import Names
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.plan_numbers import expected, gain, price
from sootsayer.console.plan_work import concerns, takes, work_lines
from sootsayer.console.room import Room
from sootsayer.console.words import confidence
from sootsayer.judgement.plan_said import LookSaid, OpeningSaid, Plan, ReasonSaid, RemedySaid
from sootsayer.judgement.verdict import Permitted, Verdict

_WORTH_SAYING = 0.05
_LIKELY = 0.2
_REASONS = 3
_OPENINGS = 3


def plan_page(verdict: Verdict, names: Names, *, more: bool = False) -> Page:
    """The page of a verdict that has a plan; `more`: every remedy and every reason."""
    plan = verdict.plan
    assert plan is not None
    bands = [
        [Line(bits.header_short(verdict, names), style=QUIET), *bits.warnings(verdict)],
        drive_lines(verdict, names, Room()),
        _band(t.KNOW, _know(verdict, plan)),
        _band(t.WHY, _why(verdict, plan, names)),
        _next(verdict, plan, names),
        *_rest(verdict, plan, names, more),
        [Line(say(t.MORE, case=verdict.case), style=QUIET)],
    ]
    lines: list[Line] = []
    for band in filter(None, bands):
        lines += [*band, BLANK]
    return page(lines[:-1])


def _band(title: str, lines: list[Line]) -> list[Line]:
    return [Line(say(title), style=HEADING), *lines] if lines else []


def _know(verdict: Verdict, plan: Plan) -> list[Line]:
    likely = [each for each in verdict.faults if each.confidence >= _LIKELY]
    texts = [
        say(t.FAULT, label=each.label, confidence=confidence(each.confidence)) for each in likely
    ]
    if plan.nothing > 0.5 and verdict.filter_well.shown:
        texts.append(say(t.NOTHING_WRONG, confidence=confidence(plan.nothing)))
    elif plan.nothing > 0.5:
        texts.append(say(t.NOTHING_UNPROVEN))
    elif plan.nothing >= _WORTH_SAYING:
        texts.append(say(t.SOME_NOTHING, confidence=confidence(plan.nothing)))
    if plan.beyond >= _WORTH_SAYING:
        texts.append(say(t.BEYOND, confidence=confidence(plan.beyond)))
    if plan.unlisted >= _WORTH_SAYING:
        texts.append(say(t.UNLISTED, share=f"{100 * plan.unlisted:.0f}"))
    lines = [Line(text, indent=2) for text in texts]
    return lines + (_declined(plan) if plan.declined else [])


def _declined(plan: Plan) -> list[Line]:
    """A wish to remove or defeat: no, and what may be done instead, by what it takes."""
    lawful = [each for each in _permitted(plan) if each.expected is not None]
    lines = [Line(say(t.DECLINED), indent=2)]
    for each in lawful:
        text = say(t.DECLINED_WORK, label=each.label, price=price(each, plan))
        lines.append(Line(text, indent=4))
    return lines if lawful else [*lines, Line(say(t.DECLINED_NOTHING), indent=4)]


def _permitted(plan: Plan) -> list[RemedySaid]:
    return [each for each in plan.remedies if each.state is WorkState.PERMITTED]


def _why(verdict: Verdict, plan: Plan, names: Names) -> list[Line]:
    if not plan.remedies:
        return [Line(say(t.NO_REMEDY), indent=2)]
    texts = []
    if plan.order:
        texts.append(say(t.METHOD[plan.method.value], takes=t.TAKES[plan.by]))
    if plan.unpriced and (plan.order or plan.once_clear):
        rate = [say(t.LABOUR_RATE)] if "" in plan.unpriced else []
        named = [*rate, *(names.of(name) for name in plan.unpriced if name)]
        texts += [say(t.BY_TIME, names=listed(named)), say(t.NEW_SHOP)]
    if not plan.holds:
        texts.append(say(t.NO_HOLD, measures=t.MEASURES[plan.by]))
    lines = [Line(text, indent=2) for text in texts]
    return lines + (_openings(verdict, plan, names) if plan.order else [])


def _openings(verdict: Verdict, plan: Plan, names: Names) -> list[Line]:
    """What would be worth having if it were clear; what gains most first."""
    telling = [each for each in plan.openings if _tells(each)][:_OPENINGS]
    return [Line(_opening(each, verdict, plan, names), indent=2) for each in telling]


def _look(look: LookSaid, plan: Plan, names: Names) -> list[Line]:
    text = say(
        t.LOOK,
        does=look.does.rstrip("."),
        minutes=f"{look.minutes:g}",
        gain=gain(look.saves, look.more, plan),
        first=listed([names.of(each) for each in look.first]),
    )
    caution = [Line(say(t.CAUTION, caution=look.caution), indent=4)] if look.caution else []
    return [Line(text, indent=2), *caution]


def _tells(opening: OpeningSaid) -> bool:
    """Whether it saves something, or repairs markedly more; all of them are in the JSON."""
    saves, more = opening.saves, opening.more
    return saves is None or more is None or saves > 0.5 or more >= _WORTH_SAYING


def _opening(opening: OpeningSaid, verdict: Verdict, plan: Plan, names: Names) -> Said:
    """The checks are only named: their words and cautions stand where they are told."""
    named = [say(t.CHECK_NAMED, check=each, case=verdict.case) for each in opening.checks[:1]]
    named += [shown(each) for each in opening.checks[1:]]
    checks = listed(named) if named else say(t.OPENING_NO_CHECK)
    label = names.of(opening.remedy)
    if opening.saves is None or opening.more is None:
        return say(t.OPENING_ONLY, label=label, checks=checks)
    return say(
        t.OPENING,
        label=label,
        gain=gain(opening.saves, opening.more, plan),
        checks=checks,
        minutes=f"{opening.minutes:g}",
    )


def _next(verdict: Verdict, plan: Plan, names: Names) -> list[Line]:
    by_id = {each.remedy: each for each in plan.remedies}
    if not plan.order:
        openings = _openings(verdict, plan, names)
        return [Line(say(t.NEXT_NOTHING), style=HEADING), *openings] if plan.remedies else []
    heading = say(t.NEXT_IF) if plan.nothing > 0.5 else say(t.NEXT)
    lines = [Line(heading, style=HEADING), Line(say(t.TECHNICIAN), indent=2)]
    for look in plan.looks:
        lines += _look(look, plan, names)
    for number, name in enumerate(plan.order, start=1):
        lines += work_lines(by_id[name], number, verdict, names)
    return lines


def _rest(verdict: Verdict, plan: Plan, names: Names, more: bool) -> list[list[Line]]:
    """What is permitted but not first, not yet clear and forbidden, of what would help here."""
    likely = [each for each in plan.remedies if _likely(each, verdict)]
    useful = [e for e in plan.remedies if e.expected is not None or e in likely] if more else likely
    unused = [e for e in plan.remedies if e not in useful and e.remedy not in plan.order]
    permitted = [e for e in useful if e.state is WorkState.PERMITTED and e.remedy not in plan.order]
    waiting = [each for each in useful if each.state is WorkState.NOT_YET_CLEAR]
    forbidden = [each for each in useful if each.state is WorkState.FORBIDDEN]
    waits = [line for each in waiting for line in _shut(each, plan, more)]
    bands = [
        _band(t.OTHERS, [line for e in permitted for line in _other(e, verdict, plan, names)]),
        _band(t.NOT_YET, [*_guessed(plan, waiting), *waits]),
        _band(t.FORBIDDEN, [line for e in forbidden for line in _shut(e, plan, more)]),
    ]
    if more:
        named = [Line(say(t.WORK_STATE, label=e.label, remedy=e.remedy), indent=2) for e in unused]
        bands.append(_band(t.USELESS, named))
    elif unused:
        bands.append([Line(say(t.MORE_WORK, count=len(unused)), style=QUIET)])
    return bands


def _guessed(plan: Plan, waiting: list[RemedySaid]) -> list[Line]:
    """The word heuristic, where what is said of work that waits is one."""
    told = any(each.expected is not None for each in waiting)
    if told and plan.once_clear_method is Method.HEURISTIC:
        return [Line(say(t.HEURISTIC_ONCE), indent=2)]
    return []


def _likely(said: RemedySaid, verdict: Verdict) -> bool:
    """Whether it cures something that is likely enough to be spoken of."""
    sure = {fault.id: fault.confidence for fault in verdict.faults}
    return any(sure.get(fault, 0.0) >= _LIKELY for fault in said.cures)


def _other(said: RemedySaid, verdict: Verdict, plan: Plan, names: Names) -> list[Line]:
    lines = [Line(say(t.WORK_STATE, label=said.label, remedy=said.remedy), indent=2, style=STRONG)]
    lines += [Line(text, indent=4) for text in takes(said, plan, names)]
    return lines + [Line(text, indent=4) for text in concerns(said, verdict, names)]


def _shut(said: RemedySaid, plan: Plan, more: bool) -> list[Line]:
    """Work that may not be done now: why, never how."""
    lines = [Line(say(t.WORK_STATE, label=said.label, remedy=said.remedy), indent=2, style=STRONG)]
    template = t.BECAUSE if said.state is WorkState.FORBIDDEN else t.WAITS
    telling = said.reasons
    if said.state is WorkState.FORBIDDEN and not more:
        telling = tuple(each for each in telling if each.state is Permitted.BLOCKED)
    reasons = [_reason(each) for each in telling]
    if reasons:
        lines.append(Line(say(template, reasons=_cut(reasons, more)), indent=4))
    if said.expected is not None:
        left = confidence(said.expected.left)
        text = say(t.EXPECTED_ONCE, expected=expected(said.expected, plan), left=left)
        lines.append(Line(text, indent=4))
    return lines


def _reason(reason: ReasonSaid) -> Said:
    key = "when-not" if reason.state is Permitted.BLOCKED else reason.reason.value
    return say(t.REASON[key], says=reason.says)


def _cut(parts: list[Said], more: bool) -> Said:
    if more or len(parts) <= _REASONS:
        return listed(parts)
    return say(t.LIST_CUT, parts=listed(parts[:_REASONS]), count=len(parts) - _REASONS)
