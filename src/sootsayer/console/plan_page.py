"""The page of a plan: what we know, why this order, what next."""

from __future__ import annotations

from sootsayer.catalogue import listed, say
from sootsayer.catalogue_numbers import fixed
from sootsayer.console import judge_bits as bits
from sootsayer.console import plan_texts as t
from sootsayer.console.judge_know import drive_lines
from sootsayer.console.names import Names
from sootsayer.console.paper import BLANK, HEADING, QUIET, Line, Page, page
from sootsayer.console.plan_next import next_lines
from sootsayer.console.plan_room import EVERYTHING, MOST_LINES, ROOMS, PlanRoom
from sootsayer.console.plan_shut import rest_bands
from sootsayer.console.plan_sought import FAINT, LIKELY, lawful, lawful_said, unreached
from sootsayer.console.plan_why import why_lines
from sootsayer.console.room import Room
from sootsayer.console.screen import PLAIN_WIDTH, plain_console
from sootsayer.console.words import confidence
from sootsayer.judgement.plan_said import Plan
from sootsayer.judgement.verdict import Verdict


def plan_page(verdict: Verdict, names: Names, *, more: bool = False) -> Page:
    """The page of a verdict that has a plan; `more`: every remedy and every reason. Without it
    the page takes three screens where it can; what it holds never depends on the width."""
    if more:
        return page(_lines(verdict, names, EVERYTHING))
    drawn = page(_lines(verdict, names, ROOMS[-1]))
    for room in ROOMS:
        roomier = page(_lines(verdict, names, room))
        if roomier.fits(plain_console(), PLAIN_WIDTH, MOST_LINES):
            return roomier
    return drawn


def _lines(verdict: Verdict, names: Names, room: PlanRoom) -> list[Line]:
    plan = verdict.plan
    assert plan is not None
    driving = Room(reasons=room.reasons, unknown=room.reasons) if room.more else Room()
    bands = [
        [Line(bits.header_short(verdict, names), style=QUIET), *bits.warnings(verdict)],
        drive_lines(verdict, names, driving),
        _band(t.KNOW, _know(verdict, plan, names)),
        _band(t.WHY, why_lines(verdict, plan, names, room)),
        next_lines(verdict, plan, names, room),
        *rest_bands(verdict, plan, names, room),
        [Line(say(t.MORE, case=verdict.case), style=QUIET)],
    ]
    lines: list[Line] = []
    for band in filter(None, bands):
        lines += [*band, BLANK]
    return lines[:-1]


def _band(title: str, lines: list[Line]) -> list[Line]:
    return [Line(say(title), style=HEADING), *lines] if lines else []


def _know(verdict: Verdict, plan: Plan, names: Names) -> list[Line]:
    telling = [each for each in verdict.faults if each.confidence >= LIKELY]
    texts = [
        say(t.FAULT, label=each.label, confidence=confidence(each.confidence)) for each in telling
    ]
    if plan.nothing > 0.5 and verdict.filter_well.shown:
        texts.append(say(t.NOTHING_WRONG, confidence=confidence(plan.nothing)))
    elif plan.nothing > 0.5:
        texts.append(say(t.NOTHING_UNPROVEN))
    elif plan.nothing >= FAINT:
        texts.append(say(t.SOME_NOTHING, confidence=confidence(plan.nothing)))
    if plan.beyond >= FAINT:
        texts.append(say(t.BEYOND, confidence=confidence(plan.beyond)))
    if plan.unlisted >= FAINT:
        texts.append(say(t.UNLISTED, share=fixed(100 * plan.unlisted)))
    for fault, works in unreached(verdict).items():
        label = names.of(fault)
        told = listed([names.of(work) for work in works])
        bare = say(t.UNREACHED_BARE, label=label)
        texts.append(say(t.UNREACHED, label=label, works=told) if works else bare)
    lines = [Line(text, indent=2) for text in texts]
    return lines + (_declined(verdict, plan) if plan.declined else [])


def _declined(verdict: Verdict, plan: Plan) -> list[Line]:
    """A wish to remove or defeat: no, and what may be done instead, by what it takes."""
    lines = [Line(say(t.DECLINED), indent=2)]
    found = lawful(verdict)
    lines += [Line(lawful_said(each, plan), indent=4) for each in found]
    return lines if found else [*lines, Line(say(t.DECLINED_NOTHING), indent=4)]
