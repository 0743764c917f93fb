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
from sootsayer.console.ask_summary import changed_lines, summary_lines
from sootsayer.console.paper import Line

_REMEMBERED = 50


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
) -> Reply:
    """What stands in the case now, and what it changed. `stood`: what was corrected; `said`: the
    sentence where it is no fact that was written."""
    texts = [_item_said(item, stood, after) for item in items]
    says = [Line(text) for text in ([said] if said is not None else texts)]
    if stood:
        says += changed_lines(before.verdict, after.verdict, after.names)
    elif before.verdict is not after.verdict:
        says += summary_lines(before.verdict, after.verdict, after.names)
    slots = tuple(item.slot for item in items)
    last = (*(each for each in before.last if each not in slots), *slots)[-_REMEMBERED:]
    queue = tuple(slot for slot in before.queue if slot not in slots)
    question = after.question
    if question is not None and question.slot in slots:
        question = None
    done = replace(after, last=last, queue=queue, question=question, waiting=None)
    return Reply(done, tuple(says), lines)


def _item_said(item: Item, stood: dict[str, Statement], after: Session) -> Said:
    """The acknowledgement of one answer: what was written, and as which entry."""
    entry = _entry_of(item, after)
    if item.slot in stood:
        was = stood[item.slot]
        slots = {"slot": item.slot, "was": was.said.typed, "entry": entry, "root": was.root.number}
        if item.absence is Absence.NOT_ASKED:
            return say(t.TAKEN_BACK, **slots)
        typed = item.typed if item.absence is None else item.absence.value
        return say(t.CORRECTED, **slots, typed=typed)
    if item.absence is not None:
        slots = {"slot": item.slot, "absence": item.absence.value, "entry": entry}
        if item.why:
            return say(t.WRITTEN_ABSENT_WHY, **slots, why=item.why)
        return say(t.WRITTEN_ABSENT, **slots)
    slots = {"slot": item.slot, "typed": item.typed, "entry": entry}
    if item.back is not None:
        return say(t.WRITTEN_BACK, **slots, back=item.back)
    return say(t.WRITTEN, **slots)


def _entry_of(item: Item, after: Session) -> int:
    """The number of the newest entry that says it."""
    for entry in reversed(after.case.entries):
        if any(said.slot == item.slot for said in entry.said):
            return entry.number
    return len(after.case.entries)
