"""What was found of a ledger."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.console import records_texts as t
from sootsayer.console.paper import STRONG, Line, Page, page
from sootsayer.ledger.model import Checked, Flaw, Wrong

_MOST_BACK = 3


def told(found: Checked, asked: str | None) -> Page:
    """The page; `asked`: the digest on paper."""
    return page(_lines(found, asked))


def grouped(digest: str) -> Said:
    """A digest as it is easiest to copy by hand: eight groups of eight."""
    return shown(" ".join(digest[at : at + 8] for at in range(0, len(digest), 8)))


def head_lines(number: int, digest: str) -> list[Said]:
    """The head as it is written on a job sheet."""
    return [say(t.HEAD, number=number), Said(f"  {grouped(digest)}")]


def _lines(found: Checked, asked: str | None) -> Iterator[Line]:
    if found.flaw is not None:
        yield from _flawed(found, found.flaw)
    elif found.count:
        yield Line(say_count(*t.WHOLE, count=found.count), style=STRONG)
    else:
        yield Line(say(t.EMPTY), style=STRONG)
    if found.closed:
        yield Line(say_count(*t.CLOSED_COUNT, count=found.closed))
    if asked is not None:
        yield Line(_on_paper(found), style=STRONG)
    for number in found.back[:_MOST_BACK]:
        yield Line(say(t.BACK, number=number))
    if len(found.back) > _MOST_BACK:
        yield Line(say(t.BACK_MORE, count=len(found.back) - _MOST_BACK))
    if found.count:
        yield Line(say(t.HEAD_IS, number=found.count))
        yield Line(grouped(found.head), indent=2)


def _flawed(found: Checked, flaw: Flaw) -> Iterator[Line]:
    slots = {"line": flaw.line, "number": flaw.number, "detail": _detail(flaw)}
    yield Line(say(t.FLAW[flaw.wrong.value], **slots), style=STRONG)
    if found.count:
        yield Line(say_count(*t.HELD_BEFORE, count=found.count))
    if flaw.wrong is Wrong.OTHER_FORMAT:
        yield Line(say(t.OTHER_FORMAT_NEXT))
    if flaw.wrong is Wrong.TORN and found.count:
        yield Line(say(t.TORN_NEXT, number=found.count))


def _detail(flaw: Flaw) -> Said:
    if flaw.wrong is not Wrong.TEXT_LOST:
        return shown(flaw.detail)
    digest, _, why = flaw.detail.partition(" ")
    return say(t.LOST[why], digest=digest)


def _on_paper(found: Checked) -> Said:
    if found.asked_for is None:
        return say(t.NOT_ON_PAPER if found.flaw is None else t.NOT_YET_SEEN)
    later = found.count - found.asked_for
    if not later:
        return say(t.ON_PAPER, number=found.asked_for)
    return say_count(*t.ON_PAPER_LATER, count=later, number=found.asked_for)


def as_json(found: Checked, asked: str | None) -> dict[str, object]:
    """The same as plain data."""
    flaw = found.flaw
    return {
        "format": 1,
        "whole": flaw is None,
        "records": found.count,
        "head": found.head or None,
        "closed": found.closed,
        "dated_backwards": list(found.back),
        "flaw": None
        if flaw is None
        else {
            "wrong": flaw.wrong.value,
            "line": flaw.line,
            "record": flaw.number,
            "detail": flaw.detail,
        },
        "asked_for": None if asked is None else {"digest": asked, "record": found.asked_for},
    }
