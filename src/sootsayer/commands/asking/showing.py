"""Everything that is shown on request; nothing here changes the case."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from sootsayer.casework.facts import fact_sheet
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import brief
from sootsayer.commands.asking.lexicon import slots_of
from sootsayer.commands.asking.proposing import answered, open_checks
from sootsayer.commands.asking.replies import refused
from sootsayer.commands.asking.state import Question, Reply, Session
from sootsayer.commands.asking.values import NotUsable
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_drawings import drawing_for
from sootsayer.console.ask_question import CODES, check_lines, codes_lines, slot_lines
from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.judge_page import judge_page
from sootsayer.console.paper import HEADING, QUIET, Line
from sootsayer.console.vocabulary import absence_said, round_said
from sootsayer.console.why_page import why_page
from sootsayer.console.words import source_said
from sootsayer.judgement.why import why
from sootsayer.judgement.why_answer import UnknownThing


def full_view(session: Session) -> Reply:
    """The short page of the verdict, as `judge` draws it."""
    return Reply(session, judge_page(session.verdict, session.names).lines)


def more_view(session: Session) -> Reply:
    return Reply(session, judge_more_page(session.verdict, session.names).lines)


def why_shown(
    session: Session, thing: str, now: datetime, unknown: Callable[[str], NotUsable]
) -> Reply:
    """The reasons of one thing, as `why` draws them."""
    setting = session.setting
    try:
        answer = why(session.case, setting.rulebook, thing, now=now, shop=setting.shop)
    except UnknownThing:
        return refused(session, unknown(thing))
    return Reply(session, why_page(answer, session.names).lines)


def all_help(session: Session) -> Reply:
    lines: list[Line] = []
    for typed, means in t.HELP:
        word = say(t.HELP_WORD[typed]) if typed in t.HELP_WORD else say(typed)
        lines.append(Line(say(t.HELP_LINE, typed=word), style=HEADING))
        lines.append(Line(say(t.HELP_MEANS, means=say(means)), indent=4))
    return Reply(session, tuple(lines))


def question_help(session: Session, question: Question, now: datetime) -> Reply:
    """What to do with its caution, how the signal is read, a picture, why it asks, and what each
    answer would change."""
    if question.slot == CODES:
        return Reply(session, tuple(codes_lines()))
    model = session.model
    check = model.checks.get(question.check)
    lines = check_lines(check) if check is not None else []
    lines += slot_lines(question.slot, model)
    name, _, point = question.slot.partition("@")
    if point in model.points:
        known = model.points[point]
        text = say(t.POINT, point=known.label, conditions=known.conditions.rstrip("."))
        lines.append(Line(text, indent=2))
    if model.signals[name].how:
        lines.append(Line(say("{how}", how=model.signals[name].how), indent=2))
    lines += [Line(say("{row}", row=row), indent=4) for row in drawing_for(question.slot)]
    from sootsayer.commands.asking.effects import effect_lines

    lines += effect_lines(session, question, now)
    return Reply(session, tuple(lines))


def answers_shown(session: Session) -> Reply:
    sheet = fact_sheet(session.case, session.model, in_round=session.round)
    lines = [Line(say(t.ANSWERS, round=round_said(session.round)), style=HEADING)]
    for slot, facts in sheet.by_source.items():
        for fact in facts:
            typed = session.said(slot, fact.typed)
            if fact.absence is not None:
                typed = absence_said(fact.absence.value)
            slots = {"slot": slot, "typed": typed, "entry": fact.entry}
            text = say(t.ANSWER, **slots, source=source_said(fact.source.value))
            lines.append(Line(text, indent=2))
    if len(lines) == 1:
        lines = [Line(say(t.NO_ANSWERS))]
    return Reply(session, tuple(lines))


def open_shown(session: Session) -> Reply:
    lines = [Line(say(t.OPEN), style=HEADING)]
    for id_ in open_checks(session):
        check = session.model.checks[id_]
        right = say(t.OPEN_RIGHT, minutes=brief(check.minutes))
        lines.append(Line(say(t.OPEN_ONE, does=check.does), indent=2, right=right))
        if check.caution:
            lines.append(Line(say(t.CAUTION, caution=check.caution), indent=4, style=QUIET))
    if len(lines) == 1:
        lines = [Line(say(t.NOTHING_OPEN))]
    return Reply(session, tuple(lines))


def facts_shown(session: Session, word: str = "") -> Reply:
    """Every name that a fact can be entered by; with a word, those that hold it."""
    done, wanted = answered(session), word.casefold()
    lines = [Line(say(t.FACTS), style=HEADING)]
    for signal in session.model.signals.values():
        if signal.id in session.model.quantities:
            continue
        slots = slots_of(signal)
        if wanted not in signal.label.casefold() and not any(wanted in slot for slot in slots):
            continue
        named = ", ".join(f"{slot}*" if slot in done else slot for slot in slots)
        lines.append(Line(say(t.FACT, slots=named, label=signal.label), indent=2))
    if len(lines) == 1:
        lines = [Line(say(t.NO_FACTS, word=word))]
    return Reply(session, tuple(lines))
