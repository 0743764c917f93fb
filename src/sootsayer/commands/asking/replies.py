"""Replies: what cannot be used, plain sentences, and what was written with what it led to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sootsayer.casework.corrections import Statement
from sootsayer.casework.model import Absence
from sootsayer.catalogue import Said, say
from sootsayer.commands.asking.state import Item, Reply, Session
from sootsayer.commands.asking.values import NotUsable
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_question import CODES
from sootsayer.console.ask_summary import changed_lines, summary_lines
from sootsayer.console.paper import Line
from sootsayer.console.vocabulary import absence_said
from sootsayer.judgement.verdict import DriveOn

_REMEMBERED = 50


_DANGERS = (DriveOn.NOT_TO_BE_STARTED, DriveOn.NOT_TO_BE_DRIVEN)


def is_new_danger(session: Session) -> bool:
    """Whether driving is forbidden in a way that was not told in this session yet."""
    state = session.verdict.drive_on.state
    return state in _DANGERS and state.value not in session.dangers


def plain(session: Session, texts: Sequence[Said], *, taken: bool = True) -> Reply:
    """Sentences, and nothing written."""
    return Reply(session, tuple(Line(text) for text in texts), taken=taken)


def refused(session: Session, why: NotUsable) -> Reply:
    """What cannot be used is said, with what can; the question stays."""
    lines = (Line(why.what), Line(why.instead, indent=2, mark="-> "))
    return Reply(session, lines, taken=False)


def written(
    before: Session,
    after: Session,
    items: Sequence[Item],
    stood: dict[str, Statement],
    lines: tuple[str, ...],
    said: Said | None = None,
    codes: bool = False,
) -> Reply:
    """What stands in the case now, and what it changed. `stood`: what was corrected; `said`: the
    sentence where it is no fact that was written; `codes`: where it is the list of codes."""
    texts = [_item_said(item, stood, after) for item in items]
    says = [Line(text) for text in ([said] if said is not None else texts)]
    if stood:
        says += changed_lines(before.verdict, after.verdict, after.names)
    elif before.verdict is not after.verdict:
        drive = not is_new_danger(after)
        says += summary_lines(before.verdict, after.verdict, after.names, drive=drive)
    slots = tuple(item.slot for item in items)
    last = (*(each for each in before.last if each not in slots), *slots)[-_REMEMBERED:]
    done_with = (*slots, CODES) if codes else slots
    queue = tuple(slot for slot in before.queue if slot not in done_with)
    question = after.question
    if question is not None and question.slot in done_with:
        question = None
    done = replace(after, last=last, queue=queue, question=question, waiting=None)
    return Reply(done, tuple(says), lines)


def _item_said(item: Item, stood: dict[str, Statement], after: Session) -> Said:
    """The acknowledgement of one answer: what was written, and as which entry."""
    entry = _entry_of(item, after)
    if item.slot in stood:
        was = stood[item.slot]
        stood_as = after.said(item.slot, was.said.typed)
        slots = {"slot": item.slot, "was": stood_as, "entry": entry, "root": was.root.number}
        if item.absence is Absence.NOT_ASKED:
            return say(t.TAKEN_BACK, **slots)
        return say(t.CORRECTED, **slots, typed=answer_said(item, after))
    if item.absence is not None:
        slots = {"slot": item.slot, "absence": absence_said(item.absence.value), "entry": entry}
        if item.why:
            return say(t.WRITTEN_ABSENT_WHY, **slots, why=item.why)
        return say(t.WRITTEN_ABSENT, **slots)
    slots = {"slot": item.slot, "typed": answer_said(item, after), "entry": entry}
    if item.back is not None:
        return say(t.WRITTEN_BACK, **slots, back=item.back)
    return say(t.WRITTEN, **slots)


def answer_said(item: Item, session: Session) -> Said:
    """What was answered, as the language in force writes it."""
    if item.absence is not None:
        return absence_said(item.absence.value)
    return session.said(item.slot, item.typed)


def _entry_of(item: Item, after: Session) -> int:
    """The number of the newest entry that says it."""
    for entry in reversed(after.case.entries):
        if any(said.slot == item.slot for said in entry.said):
            return entry.number
    return len(after.case.entries)
