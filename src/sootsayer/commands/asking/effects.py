"""Why a question is asked, and what each answer to it would change.

The latter is found by judging the case with that answer in it, once for each answer that the
rules can tell apart: every word of a choice, and of a number every stretch between two cuts.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.commands.asking.entering import entries_for, with_lines
from sootsayer.commands.asking.state import Item, Question, Session
from sootsayer.commands.asking.understood import default_source
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_summary import difference_said
from sootsayer.console.paper import QUIET, Line
from sootsayer.console.words import number
from sootsayer.documents.problems import Refused
from sootsayer.engine.thresholds import thresholds
from sootsayer.judgement.workings import work_out
from sootsayer.rulebook.compiled import interlock_slot
from sootsayer.rulebook.model import Signal, SignalKind

_MOST_STRETCHES = 9


def effect_lines(session: Session, question: Question, now: datetime) -> list[Line]:
    """Why it asks, then a line for each answer that the rules tell apart."""
    lines = _because(session, question)
    answers = list(_answers(session, question, now))
    if not answers:
        return lines
    lines.append(Line(say(t.WOULD_CHANGE), indent=2))
    for said, item in answers:
        changed = _changed(session, item, now)
        if changed is not None:
            lines.append(Line(say(t.WOULD, answer=said, change=changed), indent=4))
    return lines


def _because(session: Session, question: Question) -> list[Line]:
    verdict, names = session.verdict, session.names
    reasons: list[Said] = []
    waiting = [lock for lock in verdict.drive_on.unknown if question.check in lock.would_clear]
    if waiting:
        reasons.append(say(t.BECAUSE_DRIVING, says=listed([shown(w.says) for w in waiting])))
    scored = next((c for c in session.asks.next_checks if c.id == question.check), None)
    if scored is not None and scored.tells:
        tells = listed([names.of(family) for family in scored.tells])
        gain = f"{scored.gain_bits:.2f}"
        reasons.append(say(t.BECAUSE_TELLS, tells=tells, gain=gain))
        if scored.then:
            then = listed([names.of(check) for check in scored.then])
            reasons.append(say(t.BECAUSE_WITH, checks=then))
    return [Line(reason, indent=2, style=QUIET) for reason in reasons]


def _answers(session: Session, question: Question, now: datetime) -> Iterator[tuple[Said, Item]]:
    """What can be answered, in words, with an answer of that kind."""
    signal = session.model.signals[question.slot.partition("@")[0]]
    source = default_source(question.slot, session.model, question.check)
    if signal.kind is SignalKind.NUMBER:
        for said, value in _stretches(session, question.slot, signal, now):
            typed = f"{number(value)} {signal.unit or ''}".strip()
            yield said, Item(question.slot, source, typed, value)
        return
    for word in signal.choices or ("yes", "no"):
        yield shown(word), Item(question.slot, source, word, word)


def _stretches(
    session: Session, slot: str, signal: Signal, now: datetime
) -> list[tuple[Said, float]]:
    """The stretches of a number that some finding or interlock tells apart, with a value in
    each; none where nothing cuts it, or the cuts are too many to be read."""
    cuts = _cuts(session, slot, now)
    if not cuts or len(cuts) >= _MOST_STRETCHES or signal.possible is None:
        return []
    low, high = signal.possible
    unit = signal.unit or ""
    cuts = [cut for cut in cuts if low < cut < high]
    found: list[tuple[Said, float]] = []
    for start, end in pairwise([low, *cuts, high]):
        middle = (start + end) / 2
        if start == low:
            middle = max(low, end - _beside(cuts))
            found.append((say(t.BELOW, end=number(end), unit=unit), middle))
        elif end == high:
            middle = min(high, start + _beside(cuts))
            found.append((say(t.ABOVE, start=number(start), unit=unit), middle))
        else:
            found.append((say(t.BETWEEN, start=number(start), end=number(end), unit=unit), middle))
    return found


def _beside(cuts: list[float]) -> float:
    """How far outside the outermost cut a value is tried: well clear of it, and no extreme."""
    return max(abs(cut) for cut in cuts) * 0.4 + 1


def _cuts(session: Session, slot: str, now: datetime) -> list[float]:
    setting = session.setting
    work = work_out(session.case, setting.rulebook, now, None, setting.shop)
    values = {name: value for name, value in work.trusted.values.items() if name != slot}
    program = setting.rulebook.program
    named = [*session.model.findings, *map(interlock_slot, session.model.interlocks)]
    found: set[float] = set()
    for name in named:
        if slot in program.reads(name):
            found.update(thresholds(program, values, work.limits, name).get(slot, ()))
    return sorted(found)


def _changed(session: Session, item: Item, now: datetime) -> Said | None:
    """What the verdict would be with this answer, against what it is now."""
    try:
        after = with_lines(session, entries_for([item], session, now), now, asking=False)
    except Refused:
        return None
    return difference_said(session.verdict, after.verdict)
