"""What was known when: a record's way, entry by entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import moment_said
from sootsayer.console import records_texts
from sootsayer.console.names import Names
from sootsayer.console.vocabulary import state_said
from sootsayer.console.words import per_cent, source_said
from sootsayer.ledger.replay_model import Answer, Explained, Moved, Step, Why
from sootsayer.report import assessor_texts as t
from sootsayer.report.sheet import Block, Items, Text
from sootsayer.rulebook.model import CODES

_MOST_FAULTS = 2


def known_blocks(explained: Explained, names: Names) -> Iterator[Block]:
    """Each entry: its answers, each with what it did by itself, and what the entry did."""
    if explained.why is not Why.NONE:
        said = say(records_texts.WHY_NOT[explained.why.value], detail=explained.detail)
        yield Text(say(t.NOT_AGAIN, why=said))
        return
    if not explained.steps:
        yield Text(say(t.NO_ENTRIES))
        return
    yield Text(say(t.KNOWN_HOW))
    for step in explained.steps:
        yield Text(_heading(step), strong=True)
        yield Items(tuple(_step(step, names)))


def _heading(step: Step) -> Said:
    entry = step.entry
    time = moment_said(entry.at)
    slots = {"number": entry.number, "time": time, "by": entry.by}
    if not step.answers:
        return say(t.ENTRY_BARE, **slots)
    source = source_said(entry.source.value)
    if entry.corrects is not None:
        return say(t.ENTRY_CORRECTS, **slots, source=source, corrects=entry.corrects)
    return say(t.ENTRY, **slots, source=source)


def _step(step: Step, names: Names) -> Iterator[Said]:
    entry = step.entry
    if entry.work is not None:
        yield say(t.WORK_DONE, work=names.of(entry.work))
    if entry.note is not None:
        yield say(t.NOTE, note=entry.note)
    if entry.outcome is not None:
        yield say(t.CLOSED)
    for answer in step.answers:
        if answer.moved:
            moved = _moved(answer.moved[:_MOST_FAULTS], names)
            yield say(t.ANSWER, answer=_answer(answer, names), moved=moved)
    idle = [_answer(answer, names) for answer in step.answers if not answer.moved]
    if idle:
        yield say(t.IDLE, answers=listed(idle))
    if step.moved:
        yield say(t.ENTRY_MOVED, moved=_moved(step.moved, names))
    if step.drive is not None:
        before, after = (state_said(state) for state in step.drive)
        yield say(t.DRIVE, before=before, after=after)
    for action, was, is_ in step.permissions:
        slots = {"before": state_said(was), "after": state_said(is_)}
        yield say(t.PERMISSION, label=names.of(action), **slots)


def _answer(answer: Answer, names: Names) -> Said:
    if answer.slot == CODES:
        return say(t.CODES, codes=answer.typed) if answer.typed else say(t.NO_CODES)
    return say(
        t.ANSWER_TYPED, label=names.of(answer.slot), typed=names.typed(answer.slot, answer.typed)
    )


def _moved(moved: Sequence[Moved], names: Names) -> Said:
    return listed(
        [
            say(
                t.MOVED,
                label=names.of(each.fault),
                before=shown(per_cent(each.before).strip()),
                after=shown(per_cent(each.after).strip()),
            )
            for each in moved
        ]
    )
