"""Why the work of a plan stands in its order, and what would change it."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import brief
from sootsayer.console import plan_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import Line
from sootsayer.console.plan_numbers import gain
from sootsayer.console.plan_room import PlanRoom
from sootsayer.console.plan_sought import FAINT, likely, repairs
from sootsayer.judgement.plan_said import LookSaid, OpeningSaid, Plan
from sootsayer.judgement.verdict import Verdict

_CHECKS = 3


def why_lines(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """By what it is ranked, what is not known of it, and what would be worth having."""
    if not plan.remedies:
        return [Line(say(t.NO_REMEDY), indent=2)]
    told = room.more or plan.nothing <= 0.5
    texts = []
    if repairs(plan) and told:
        texts.append(say(t.METHOD[plan.method.value], takes=say(t.TAKES[plan.by])))
    if plan.unpriced and (plan.order or plan.once_clear) and told:
        rate = [say(t.LABOUR_RATE)] if "" in plan.unpriced else []
        named = [*rate, *(names.of(name) for name in plan.unpriced if name)]
        texts += [say(t.BY_TIME, names=_cut(named, room)), say(t.NEW_SHOP)]
    if not plan.holds and told:
        texts.append(say(t.NO_HOLD, measures=say(t.MEASURES[plan.by])))
    lines = [Line(text, indent=2) for text in texts]
    return lines + (_openings(verdict, plan, names, room) if repairs(plan) and told else [])


def look_lines(look: LookSaid, plan: Plan, names: Names) -> list[Line]:
    """A check that may change the order, with its caution."""
    text = say(
        t.LOOK,
        does=look.does.rstrip("."),
        minutes=brief(look.minutes),
        gain=gain(look.saves, look.more, plan),
        first=listed([names.of(each) for each in look.first]),
    )
    caution = [Line(say(t.CAUTION, caution=look.caution), indent=4)] if look.caution else []
    return [Line(text, indent=2), *caution]


def _openings(verdict: Verdict, plan: Plan, names: Names, room: PlanRoom) -> list[Line]:
    """What would be worth having if it were clear; what gains most first."""
    by_id = {each.remedy: each for each in plan.remedies}
    telling = [each for each in plan.openings if _tells(each)]
    if not room.more:
        telling = [each for each in telling if likely(by_id[each.remedy], verdict)]
    return [Line(_opening(each, plan, names, room), indent=2) for each in telling[: room.openings]]


def _tells(opening: OpeningSaid) -> bool:
    """Whether it saves something, or repairs markedly more; all of them are in the JSON."""
    saves, more = opening.saves, opening.more
    return saves is not None and more is not None and (saves > 0.5 or more >= FAINT)


def _opening(opening: OpeningSaid, plan: Plan, names: Names, room: PlanRoom) -> Said:
    assert opening.saves is not None
    assert opening.more is not None
    return say(
        t.OPENING,
        label=names.of(opening.remedy),
        gain=gain(opening.saves, opening.more, plan),
        checks=named_checks(opening.checks, room),
        minutes=brief(opening.minutes),
    )


def named_checks(checks: tuple[str, ...], room: PlanRoom) -> Said:
    """Checks by their ids only: their words and cautions stand where they are told."""
    if not checks:
        return say(t.OPENING_NO_CHECK)
    return _cut([shown(each) for each in checks], room)


def _cut(parts: list[Said], room: PlanRoom) -> Said:
    if room.more or len(parts) <= _CHECKS:
        return listed(parts)
    return say(t.LIST_CUT, parts=listed(parts[:_CHECKS]), count=len(parts) - _CHECKS)
