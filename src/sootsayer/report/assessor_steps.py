"""What was known when: a record's way, entry by entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.console import records_texts
from sootsayer.console.words import per_cent
from sootsayer.ledger.explaining import Answer, Explained, Moved, Step
from sootsayer.report import assessor_texts as t
from sootsayer.report.file_entries import entry_said
from sootsayer.report.sheet import Block, Items, Text

# An entry may hold thirty answers; those that moved less are in what the entry did as a whole.
_MOST_ANSWERS, _MOST_FAULTS = 6, 2


def known_blocks(explained: Explained) -> Iterator[Block]:
    """Each entry, with what it did as a whole and each of its answers by itself."""
    if explained.cannot is not None:
        why = explained.cannot.why.value
        said = say(records_texts.WHY_NOT[why], detail=explained.cannot.detail)
        yield Text(say(t.NOT_AGAIN, why=said))
        return
    if not explained.steps:
        yield Text(say(t.NO_ENTRIES))
        return
    yield Text(say(t.KNOWN_HOW))
    for step in explained.steps:
        yield Text(entry_said(step.entry), strong=True)
        yield Items(tuple(_did(step, explained)))


def _did(step: Step, explained: Explained) -> Iterator[Said]:
    if step.moved:
        yield say(t.ENTRY_MOVED, moved=_moved(step.moved, explained))
    else:
        yield say(t.NOTHING_MOVED)
    several = len(step.entry.said) + (step.entry.codes is not None) > 1
    for answer in step.answers[:_MOST_ANSWERS] if several else ():
        yield _answer(answer, explained)
    if step.drive is not None:
        before, after = (shown(state.replace("-", " ")) for state in step.drive)
        yield say(t.DRIVE, before=before, after=after)
    for action, before_, after_ in step.permissions:
        slots = {"before": before_.replace("-", " "), "after": after_.replace("-", " ")}
        yield say(t.PERMISSION, label=explained.labels.get(action, action), **slots)


def _answer(answer: Answer, explained: Explained) -> Said:
    said = say(t.ANSWER_TYPED, slot=answer.slot, typed=answer.typed)
    return say(t.ANSWER, answer=said, moved=_moved(answer.moved[:_MOST_FAULTS], explained))


def _moved(moved: Sequence[Moved], explained: Explained) -> Said:
    return listed(
        [
            say(
                t.MOVED,
                label=explained.labels.get(each.fault, each.fault),
                before=shown(per_cent(each.before).strip()),
                after=shown(per_cent(each.after).strip()),
            )
            for each in moved
        ]
    )
