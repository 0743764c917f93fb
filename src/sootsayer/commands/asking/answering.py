"""Answers on their way into the case: what must be known first is asked, then they are written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.asking import codes as told
from sootsayer.commands.asking.entering import (
    codes_entry,
    corrections_for,
    entries_for,
    standing,
    with_lines,
)
from sootsayer.commands.asking.lexicon import point_meant, points_said
from sootsayer.commands.asking.plausible import implausible
from sootsayer.commands.asking.replies import plain, refused, written
from sootsayer.commands.asking.state import (
    CodesDraft,
    Item,
    NeedsPoint,
    Part,
    Question,
    Reply,
    Session,
    Waiting,
)
from sootsayer.commands.asking.understood import default_source
from sootsayer.commands.asking.values import NotUsable, absence_in, read_answer
from sootsayer.commands.heard import says
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.console.ask_question import CODES
from sootsayer.console.words import typed_said
from sootsayer.documents.problems import Refused
from sootsayer.documents.report_problems import problem_lines
from sootsayer.physics.typed_numbers import ungrouped

SLIP, AGAIN = "slip", "again"


def enter(
    session: Session, parts: Sequence[Part], now: datetime, mode: str = "", *, sure: bool = False
) -> Reply:
    """Write the parts, or ask what must be known before. `mode`: how what stands is treated;
    `sure`: what is hardly true has been confirmed."""
    for part in parts:
        if isinstance(part, NeedsPoint):
            return _ask_point(session, part, tuple(parts), mode)
    by_slot = {(item.slot, item.source): item for item in parts if isinstance(item, Item)}
    items = list(by_slot.values())
    stood = standing(items, session)
    if not mode:
        doubtful = next((i for i in items if i.slot in stood and _has_value(stood, i)), None)
        if doubtful is not None:
            return _ask_again(session, doubtful, items, stood)
    if mode != SLIP:
        stood = {}
    try:
        lines = (
            corrections_for(items, stood, session, now)
            if stood
            else entries_for(items, session, now)
        )
        after = with_lines(session, lines, now)
        if not sure:
            doubts = implausible(items, session, after)
            if doubts:
                return _ask_sure(session, items, doubts, mode)
    except Refused as no:
        return plain(session, [shown(line) for line in problem_lines(no.problems)], taken=False)
    return written(session, after, items, stood, lines)


def _has_value(stood: object, item: Item) -> bool:
    assert isinstance(stood, dict)
    return stood[item.slot].said.absence is None


def _ask_point(session: Session, part: NeedsPoint, parts: tuple[Part, ...], mode: str) -> Reply:
    signal = session.model.signals[part.signal]
    typed = typed_said(ungrouped(part.typed))
    points = points_said(signal, session.model)
    text = say(t.WHICH_POINT, label=signal.label, typed=typed, points=points)
    return _wait(session, Waiting("point", text, parts, mode))


def _ask_again(session: Session, item: Item, items: list[Item], stood: object) -> Reply:
    assert isinstance(stood, dict)
    one = stood[item.slot]
    typed = session.said(item.slot, one.said.typed)
    text = say(t.SLIP_OR_AGAIN, slot=item.slot, typed=typed, entry=one.entry.number)
    return _wait(session, Waiting("again", text, tuple(items)))


def _ask_sure(session: Session, items: list[Item], doubts: dict[str, Said], mode: str) -> Reply:
    marked = tuple(
        replace(item, why=str(doubts[item.slot])) if item.slot in doubts else item for item in items
    )
    slot = next(iter(doubts))
    item = next(each for each in items if each.slot == slot)
    typed = session.said(slot, item.typed)
    text = say(t.DOUBT, slot=slot, typed=typed, why=doubts[slot])
    return _wait(session, Waiting("implausible", text, marked, mode))


def _wait(session: Session, waiting: Waiting) -> Reply:
    return plain(replace(session, waiting=waiting), [waiting.text])


def waiting_answered(session: Session, typed: str, now: datetime) -> Reply:
    """The answer to what was asked about an earlier line."""
    waiting = session.waiting
    assert waiting is not None
    free = replace(session, waiting=None)
    if says(typed, h.ENDS):  # nothing of the line that waits has been acknowledged
        return Reply(free, ended=True)
    if says(typed, h.NEVER_MIND):
        return plain(free, [say(t.NEVER_MIND)])
    if typed == "?" or (not typed and waiting.about != "round"):
        return plain(session, [waiting.text])
    return _ANSWERS[waiting.about](free, waiting, typed, now)


def _point_told(free: Session, waiting: Waiting, typed: str, now: datetime) -> Reply:
    index = next(i for i, part in enumerate(waiting.parts) if isinstance(part, NeedsPoint))
    part = waiting.parts[index]
    assert isinstance(part, NeedsPoint)
    signal = free.model.signals[part.signal]
    point = point_meant(typed, signal, free.model)
    if point is None:
        why = NotUsable(say(t.NOT_A_POINT, text=typed[:40]), points_said(signal, free.model))
        return refused(replace(free, waiting=waiting), why)
    slot = f"{signal.id}@{point}"
    source = part.source if part.source_said else default_source(slot, free.model)
    item = read_answer(part.typed, slot, source, free.case, free.setting)
    if isinstance(item, NotUsable):
        return refused(free, item)
    parts = (*waiting.parts[:index], item, *waiting.parts[index + 1 :])
    return enter(free, parts, now, waiting.mode)


def _again_told(free: Session, waiting: Waiting, typed: str, now: datetime) -> Reply:
    slip = says(typed, h.SLIP)
    if slip or says(typed, h.AGAIN):
        return enter(free, waiting.parts, now, SLIP if slip else AGAIN)
    why = NotUsable(waiting.text, say(t.SLIP_OR_AGAIN_NEXT))
    return refused(replace(free, waiting=waiting), why)


def _sure_told(free: Session, waiting: Waiting, typed: str, now: datetime) -> Reply:
    if says(typed, h.YES):
        return enter(free, waiting.parts, now, waiting.mode, sure=True)
    if says(typed, h.NO):
        return plain(free, [say(t.NEVER_MIND)])
    item = next(i for i in waiting.parts if isinstance(i, Item) and i.why and i.absence is None)
    better = read_answer(typed, item.slot, item.source, free.case, free.setting)
    if isinstance(better, NotUsable):
        return refused(replace(free, waiting=waiting), better)
    parts = tuple(
        better if isinstance(each, Item) and each.slot == item.slot else _unmarked(each)
        for each in waiting.parts
    )
    return enter(free, parts, now, waiting.mode)


def _unmarked(part: Part) -> Part:
    return replace(part, why="") if isinstance(part, Item) and part.absence is None else part


def codes_told(session: Session, draft: CodesDraft, now: datetime) -> Reply:
    """Ask what the list still lacks, then write it."""
    ask = told.still_to_ask(draft)
    if ask is not None:
        return _wait(session, Waiting("codes", ask, codes=draft))
    codes = told.as_code_list(draft)
    line = codes_entry(codes, session, now)
    done = replace(session, codes_asked=True)
    try:
        after = with_lines(done, (line,), now)
    except Refused as no:
        return plain(session, [shown(each) for each in problem_lines(no.problems)], taken=False)
    how = say(t.COMPLETE) if codes.complete else say(t.PARTLY)
    listed = ", ".join(codes.codes) or say(t.NONE)
    text = say(t.WRITTEN_CODES, how=how, codes=listed, entry=len(after.case.entries))
    return written(session, after, [], {}, (line,), text, codes=True)


def codes_unread(session: Session, typed: str, now: datetime) -> Reply | None:
    """That the codes cannot be read, or nobody knows them: a list of which nothing was read, with
    the reason in a note. None where the line says nothing of the kind."""
    absent = absence_in(typed)
    if absent is None:
        return None
    codes = told.as_code_list(CodesDraft((), complete=False))
    why = say(t.NOTE_CANNOT, slot=CODES, why=absent[1]) if absent[1] else None
    line = codes_entry(codes, session, now, why)
    done = replace(session, codes_asked=True)
    after = with_lines(done, (line,), now)
    how = say(t.UNREAD)
    text = say(t.WRITTEN_CODES, how=how, codes=say(t.NONE), entry=len(after.case.entries))
    return written(session, after, [], {}, (line,), text, codes=True)


def _codes_more(free: Session, waiting: Waiting, typed: str, now: datetime) -> Reply:
    assert waiting.codes is not None
    more = told.told_more(waiting.codes, typed)
    if isinstance(more, NotUsable):
        return refused(replace(free, waiting=waiting), more)
    return codes_told(free, more, now)


def _round_told(free: Session, waiting: Waiting, typed: str, now: datetime) -> Reply:
    del now
    from sootsayer.commands.asking.rounds import begin_round

    return begin_round(free, typed or waiting.default, waiting)


_ANSWERS = {
    "point": _point_told,
    "again": _again_told,
    "implausible": _sure_told,
    "codes": _codes_more,
    "round": _round_told,
}


def put_off(session: Session, *, whole: bool = False) -> Reply:
    """`later`: it comes back when the rest is done; `whole`: with the rest of its check."""
    question = session.question
    assert question is not None
    slots: tuple[str, ...] = (question.slot,)
    if whole and question.check in session.model.checks:
        slots = session.model.checks[question.check].gives
    later = (*session.later, *slots)
    queue = tuple(slot for slot in session.queue if slot not in slots)
    after = replace(session, later=later, question=None, queue=queue)
    return plain(after, [_later(session, question)])


def _later(session: Session, question: Question) -> Said:
    return say(t.PUT_OFF, label=session.names.of(question.slot))
