"""Why a question is asked, and what each answer to it would change, in sentences."""

from __future__ import annotations

from datetime import datetime

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import fixed, number, unit_said
from sootsayer.commands.asking.state import Question, Session
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_summary import would_be_said
from sootsayer.console.paper import QUIET, Line
from sootsayer.judgement.answers import AnswerSaid, answers_to, levels_of_check
from sootsayer.judgement.looking import Looked, look
from sootsayer.rulebook.model import CODES

_MOST_ANSWERS = 9  # more are no help at a counter
_MOST_LEVELS = 8


def effect_lines(session: Session, question: Question, now: datetime) -> list[Line]:
    """Why it asks, then a line for each answer that the rules tell apart, and where the answer
    speaks only together with others, for what they say together."""
    lines = _because(session, question)
    if question.check not in session.model.checks:
        return lines
    setting = session.setting
    seen = look(session.case, setting.rulebook, now=now, shop=setting.shop)
    answers = answers_to(seen, question.check, only=question.slot)[:_MOST_ANSWERS]
    told = [(_answer_said(session, each), _change(session, each)) for each in answers]
    if all(change is None for _, change in told):
        together = _level_lines(session, seen, question)
        if together:
            return lines + together
    if told:
        lines.append(Line(say(t.WOULD_CHANGE), indent=2))
        lines += [Line(_would(answer, change), indent=4) for answer, change in told]
    return lines


def _because(session: Session, question: Question) -> list[Line]:
    """What waits for the check, and what it would tell."""
    verdict, names = session.verdict, session.names
    reasons: list[Said] = []
    waiting = [lock for lock in verdict.drive_on.unknown if question.check in lock.would_clear]
    if waiting:
        reasons.append(say(t.BECAUSE_DRIVING, says=listed([shown(w.says) for w in waiting])))
    scored = next((c for c in session.asks.next_checks if c.id == question.check), None)
    if scored is not None and scored.tells:
        tells = listed([names.of(family) for family in scored.tells])
        gain = fixed(scored.gain_bits, 2)
        reasons.append(say(t.BECAUSE_TELLS, tells=tells, gain=gain))
        if scored.then:
            then = listed([names.of(check) for check in scored.then])
            reasons.append(say(t.BECAUSE_WITH, checks=then))
    return [Line(reason, indent=2, style=QUIET) for reason in reasons]


def _answer_said(session: Session, answer: AnswerSaid) -> Said:
    if answer.slot == CODES:
        return shown(answer.value) if answer.value else say(t.NONE)
    unit = session.model.signals[answer.slot.partition("@")[0]].unit
    ends = {"unit": unit_said(unit) if unit else ""}
    if answer.low is not None and answer.high is not None:
        return say(t.BETWEEN, start=number(answer.low), end=number(answer.high), **ends)
    if answer.low is not None:
        return say(t.ABOVE, start=number(answer.low), **ends)
    if answer.high is not None:
        return say(t.BELOW, end=number(answer.high), **ends)
    if isinstance(answer.value, float):
        return say(t.ANY_NUMBER)
    return session.names.value(answer.slot, answer.value)


def _would(answer: Said, change: Said | None) -> Said:
    return say(t.WOULD, answer=answer, change=say(t.NO_CHANGE) if change is None else change)


def _change(session: Session, answer: AnswerSaid) -> Said | None:
    return would_be_said(session.verdict, answer.leaders, answer.permissions, session.names)


def _level_lines(session: Session, seen: Looked, question: Question) -> list[Line]:
    """What it would say together with what must follow, level by level."""
    levels = levels_of_check(seen, question.check)[:_MOST_LEVELS]
    if not levels:
        return []
    lines = [Line(say(t.WOULD_TOGETHER), indent=2)]
    for each in levels:
        family = session.names.of(each.family)
        answer = say(
            t.FAMILY_LEVEL, family=family, level=session.names.level(each.family, each.level)
        )
        change = would_be_said(session.verdict, each.leaders, (), session.names)
        lines.append(Line(_would(answer, change), indent=4))
    return lines
