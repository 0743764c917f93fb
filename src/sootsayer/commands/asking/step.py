"""One typed line: the session as it was, and as it is once what it says is written.

Pure: the moment is passed in, nothing is read or written. The same lines at the same moments
lead to the same session, whoever types them: a terminal, a file of answers, a test.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from sootsayer.catalogue import Said, say, say_count
from sootsayer.catalogue_numbers import brief, fixed
from sootsayer.commands.asking.answering import (
    AGAIN,
    SLIP,
    codes_unread,
    enter,
    put_off,
    waiting_answered,
)
from sootsayer.commands.asking.commands import command
from sootsayer.commands.asking.lexicon import near_misses
from sootsayer.commands.asking.proposing import Proposed, minutes_left, minutes_spent, proposed
from sootsayer.commands.asking.replies import is_new_danger, refused
from sootsayer.commands.asking.state import Question, Reply, Session
from sootsayer.commands.asking.understood import default_source, leading_words, understood
from sootsayer.commands.asking.values import NotUsable, is_later, read_answer, usual_unit
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_question import CODES, check_lines, codes_lines, prompt_for, slot_lines
from sootsayer.console.ask_summary import drive_because
from sootsayer.console.judge_bits import DRIVE_ON
from sootsayer.console.paper import QUIET, STRONG, Line
from sootsayer.console.words import drive_said
from sootsayer.documents.characters import FORBIDDEN
from sootsayer.judgement.verdict import Permitted
from sootsayer.physics.typed_numbers import ungrouped
from sootsayer.rulebook.model import SignalKind


def opened(session: Session) -> Reply:
    """What is shown first: the case, how far it is, and the first question."""
    case = session.case
    entries = say(t.NO_ENTRIES)
    if case.entries:
        one, many = t.ENTRIES
        entries = say_count(one, many, count=len(case.entries))
    vehicle = case.vehicle.label or say("vehicle")
    head = say(t.OPENED, case=case.id, vehicle=vehicle, entries=entries)
    says = [Line(head, style=STRONG), progress_line(session)]
    if case.torn is not None:
        says.append(Line(say(t.TORN)))
    says.append(Line(say(t.HINT), style=QUIET))
    return _went_on(Reply(session, tuple(says)))


def progress_line(session: Session) -> Line:
    spent, left = minutes_spent(session), minutes_left(session)
    if not left:
        return Line(say(t.PROGRESS_DONE, spent=brief(spent)), style=QUIET)
    return Line(say(t.PROGRESS, spent=brief(spent), left=brief(left)), style=QUIET)


def step(session: Session, text: str, now: datetime) -> Reply:
    """What a typed line leads to. Raises nothing for any text."""
    typed = _meant(session, " ".join(FORBIDDEN.sub(" ", text).split()))
    session = replace(session, either=()) if session.either else session
    if session.waiting is not None:
        reply = waiting_answered(session, typed, now)
    elif not typed:
        reply = _nothing_typed(session)
    else:
        reply = _typed(session, typed, now)
    return reply if reply.ended else _went_on(reply)


def _nothing_typed(session: Session) -> Reply:
    """Enter alone leaves what stands as it is, and shows an open question once more."""
    question = session.question
    if question is not None and question.named:
        return Reply(replace(session, question=None))
    says = () if question is None else (Line(say(t.NOTHING_TYPED), style=QUIET),)
    return Reply(replace(session, shown_check="", question=None), says)


def _typed(session: Session, typed: str, now: datetime) -> Reply:
    told = command(session, typed, now)
    if told is not None:
        return told
    question = session.question
    if is_later(typed):
        return refused(session, _nothing_asked()) if question is None else put_off(session)
    if question is not None and question.slot == CODES:
        unread = codes_unread(session, typed, now)
        if unread is not None:
            return unread
    direct: NotUsable | None = None
    if question is not None and question.slot != CODES:
        answer = _direct(session, question, typed)
        if not isinstance(answer, NotUsable):
            mode = SLIP if question.changes else AGAIN if question.afresh else ""
            return enter(session, [answer], now, mode)
        direct = answer
    parts = understood(typed, session)
    if parts is None:
        return _not_understood(session, direct, typed)
    good = [part for part in parts if not isinstance(part, NotUsable)]
    if len(good) < len(parts):
        wrong = next(part for part in parts if isinstance(part, NotUsable))
        return refused(_waits_for_number(session, wrong, typed), wrong)
    return enter(session, good, now)


def _waits_for_number(session: Session, wrong: NotUsable, typed: str) -> Session:
    """`1,500` in a line of facts: the line is kept, and waits to be told which of the two it is."""
    if not wrong.either:
        return session
    many, few = wrong.either
    whole = few.partition(".")[0]
    number = re.compile(rf"(?<![0-9.,@]){whole},{many[len(whole) :]}(?![0-9.,])")
    ways = ((way, number.sub(way, typed, count=1)) for way in wrong.either)
    return replace(session, either=tuple((way, line) for way, line in ways if line != typed))


def _meant(session: Session, typed: str) -> str:
    """The line that waits, where what was typed is the one of the two ways to read its number."""
    bare = ungrouped(typed).replace(",", ".")
    return next((line for way, line in session.either if way == bare), typed)


def _direct(session: Session, question: Question, typed: str):  # type: ignore[no-untyped-def]
    from sootsayer.commands.asking.entering import any_standing

    source = default_source(question.slot, session.model, question.check)
    if question.changes:
        stood = any_standing(question.slot, session)
        source = stood.root.source if stood is not None else source
    return read_answer(typed, question.slot, source, session.case, session.setting)


def _nothing_asked() -> NotUsable:
    return NotUsable(say(t.NOTHING_ASKED), say(t.NOTHING_ASKED_NEXT))


def _not_understood(session: Session, direct: NotUsable | None, typed: str) -> Reply:
    """Why it does not answer the question, and which fact it might have named."""
    near = near_misses(leading_words(typed), session.model) if " " in typed else []
    if direct is None:
        near = near or near_misses(typed, session.model)
        instead = say(t.DID_YOU_MEAN, near=" / ".join(near)) if near else say(t.NO_FACT_NEXT)
        return refused(session, NotUsable(say(t.NO_FACT, text=typed[:40]), instead))
    reply = refused(session, direct)
    if not near:
        return reply
    more = Line(say(t.OR_FACT, near=" / ".join(near)), indent=2, mark="-> ")
    return replace(reply, says=(*reply.says, more))


def _went_on(reply: Reply) -> Reply:
    """The reply with what comes next: a stop for a danger, or the next question."""
    session = reply.session
    if session.waiting is not None:
        return reply
    danger = _danger(session)
    if danger is not None:
        return replace(reply, session=danger[0], says=(*reply.says, *danger[1]))
    if session.held or not reply.taken:
        return reply
    if session.question is not None:
        return _asking(reply, session, session.question)
    next_one = proposed(session)
    if next_one.question is None:
        held = replace(session, held="enough", question=None)
        return replace(reply, session=held, says=(*reply.says, *_enough(session, next_one)))
    return _asking(reply, session, next_one.question)


def _danger(session: Session) -> tuple[Session, tuple[Line, ...]] | None:
    """The stop for a state of driving that was not told yet."""
    if not is_new_danger(session):
        return None
    state = session.verdict.drive_on.state
    because = drive_because(session.verdict, session.names)
    text = say(t.DANGER, answer=drive_said(state), because=because)
    lines = [Line(text, style=STRONG)]
    caution = next((p.caution for p in session.verdict.permissions if p.action == "drive-on"), "")
    if caution:
        lines.append(Line(say(t.CAUTION, caution=caution), indent=2, style=STRONG))
    lines.append(Line(say(t.DANGER_NEXT), mark="-> "))
    dangers = (*session.dangers, state.value)
    return replace(session, held="danger", dangers=dangers, question=None), tuple(lines)


def _enough(session: Session, left: Proposed) -> tuple[Line, ...]:
    """That asking ends here, what would still be gained, and how to go on or for work."""
    lines = [Line(say(t.ALL_ASKED), style=STRONG)]
    if left.best:
        check = session.model.checks[left.best]
        slots = {"does": check.does, "minutes": brief(check.minutes), "gain": fixed(left.gain, 3)}
        lines = [Line(say(t.ENOUGH, **slots), style=STRONG)]
    waiting = [
        each.action
        for each in session.verdict.permissions
        if each.state is Permitted.NOT_YET_CLEAR and each.action != DRIVE_ON
    ]
    if waiting:
        lines.append(Line(say(t.WORK_WAITS, actions=", ".join(waiting), first=waiting[0])))
    lines.append(Line(say(t.ENOUGH_NEXT if left.best else t.ALL_ASKED_NEXT), mark="-> "))
    return tuple(lines)


def _asking(reply: Reply, session: Session, question: Question) -> Reply:
    """The question drawn where it is not on the screen already."""
    if question == session.question and not reply.says and not question.named:
        return reply
    says = list(reply.says)
    check = session.model.checks.get(question.check)
    if question.slot == CODES:
        says += codes_lines()
    elif question != session.question or question.check != session.shown_check:
        if check is not None and question.check != session.shown_check:
            says += [] if question.named else _group_line(session, question.check)
            says += check_lines(check)
        says += slot_lines(question.slot, session.model)
    after = replace(session, question=question, shown_check=question.check)
    return replace(reply, session=after, says=tuple(says))


def _group_line(session: Session, check: str) -> list[Line]:
    """The words that lead into a group of opening questions, with its first."""
    for group in session.model.opening:
        if check in group.checks and session.shown_check not in group.checks:
            return [Line(say(t.GROUP, says=group.says), style=STRONG)]
    return []


def prompt(session: Session) -> Said:
    """What stands before the answer."""
    if session.waiting is not None:
        return say(t.PROMPT_WAITING)
    question = session.question
    if question is None:
        return say(t.PROMPT_FREE)
    if question.slot == CODES:
        return prompt_for(CODES, "", session.model)
    if question.changes:
        from sootsayer.commands.asking.entering import any_standing

        stood = any_standing(question.slot, session)
        if stood is not None:
            typed = session.said(question.slot, stood.said.typed)
            return say(t.PROMPT_CHANGE, slot=question.slot, typed=typed)
    signal = session.model.signals[question.slot.partition("@")[0]]
    numeric = signal.kind is SignalKind.NUMBER
    unit = usual_unit(signal, session.case, session.setting) if numeric else ""
    return prompt_for(question.slot, unit, session.model)
