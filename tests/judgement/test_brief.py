"""A brief says the same as the verdict that it is short for."""

from __future__ import annotations

from datetime import datetime

import pytest

from sootsayer.casework.model import Case
from sootsayer.judgement.brief import brief, briefs
from sootsayer.judgement.judge import judge
from sootsayer.judgement.same_parts import same_parts
from sootsayer.rulebook.compiled import Rulebook, rulebook_from
from tests.judgement.small_cases import NINE, case, done, scan, small
from tests.laws.demonstrations import demonstration
from tests.laws.making_cases import rulebook
from tests.learning.archive.support import edited
from tests.learning.archive.support import small as archived

NAMES = ("blocked-by-short-trips", "sensor-offset", "estate-before-and-after", "stuck-sensor")


def same(made: Case, book: Rulebook, now: datetime, as_of: int | None) -> None:
    whole = judge(made, book, now=now, as_of=as_of)
    short = brief(made, book, now=now, as_of=as_of)
    assert short.levels == {each.id: each.level for each in whole.findings}
    assert [(f.id, f.kind, f.confidence) for f in short.faults] == [
        (f.id, f.kind, f.confidence) for f in whole.faults
    ]
    assert short.none == whole.none
    assert short.permissions == {each.action: each.state for each in whole.permissions}
    assert short.drive_on is whole.drive_on.state
    assert whole.next_checks is not None
    assert short.next_check == next((each.id for each in whole.next_checks), None)
    spoke = {f.id: f.speaker for f in whole.families if f.speaker and f.id in book.model.evidence}
    assert short.speakers == spoke


@pytest.mark.parametrize("name", NAMES)
def test_demonstrations(name: str) -> None:
    """Of a demonstration case, at its end and half-way."""
    made = demonstration(name)
    for entry in (len(made.entries), len(made.entries) // 2):
        same(made, rulebook(), made.entries[entry - 1].at, entry)


def test_small_cases() -> None:
    """Of nothing, of a lying instrument, and of readings that have grown old."""
    lines = (scan("dp@rest: 9, dp@idle: 20, dp@2500: 29, soot: 30"), scan("oil: good, trip: 5"))
    for some in ((), lines[:1], lines):
        same(case(*some), small(), NINE, None)
    later = NINE.replace(hour=15)
    same(case(*lines), small(), later, None)


def test_without_a_question() -> None:
    """No check is proposed where none is asked for; all else stays."""
    made = case(scan("dp@rest: 1, dp@idle: 20"))
    asked, unasked = (brief(made, small(), now=NINE, proposing=p) for p in (True, False))
    assert asked.next_check is not None
    assert unasked.next_check is None
    assert unasked.faults == asked.faults
    assert unasked.permissions == asked.permissions


LINES = (
    (),
    (scan("dp@rest: 9, dp@idle: 20, dp@2500: 29, soot: 30"), scan("oil: good, trip: 5, lamp: yes")),
    (scan("dp@rest: 5, dp@idle: 5, dp@2500: 20"), done("mend-sensor", "08:59"), scan("oil: high")),
)
CHANGES = (
    (),
    (("blocked, kind: condition, prior: 0.1", "blocked, kind: condition, prior: 0.4"),),
    (("seen with: {sensor-offset: 0.9}", "seen with: {sensor-offset: 0.5, blocked: 0.3}"),),
    (("default: 22 g", "default: 44 g"),),
    (("when: {dp@rest: {outside: [-5, 5]}}", "when: {dp@rest: {outside: [-5, 4]}}"),),
    (("needs: [oil-good, soot-low, not-too-full]", "needs: [oil-good]"),),
    (("[restriction-2500, restriction-idle]", "[restriction-idle, restriction-2500]"),),
    (("within: 60 minutes, if unknown ask: [dip]", "within: 5 minutes, if unknown ask: [dip]"),),
    (("the dipstick, where: counter, minutes: 3", "the dipstick, where: counter, minutes: 9"),),
    (("voids: [dp-sensor]", "voids: []"),),
    (("step: 1, error: 1, at: [rest", "step: 1, error: 4, at: [rest"),),
    (("when: {lamp: yes}, times: 2", "when: {lamp: yes}, times: 9"),),
)


@pytest.mark.parametrize("changed", CHANGES, ids=str)
@pytest.mark.parametrize("proposing", [True, False])
def test_two_at_once(changed: tuple[tuple[str, str], ...], proposing: bool) -> None:
    """What two rulebooks have in common is worked out once, and comes to the same."""
    books = archived(), rulebook_from(edited(*changed))
    same = same_parts(*books)
    assert same.derived or changed
    for lines in LINES:
        made = case(*lines)
        for now in (NINE, NINE.replace(hour=15)):
            pair = briefs(made, books, same, now=now, proposing=proposing)
            each = (brief(made, book, now=now, proposing=proposing) for book in books)
            assert pair == tuple(each)
