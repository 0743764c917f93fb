"""A brief says the same as the verdict that it is short for."""

from __future__ import annotations

from datetime import datetime

import pytest

from sootsayer.casework.model import Case
from sootsayer.judgement.brief import brief
from sootsayer.judgement.judge import judge
from sootsayer.rulebook.compiled import Rulebook
from tests.judgement.small_cases import NINE, case, scan, small
from tests.laws.demonstrations import demonstration
from tests.laws.making_cases import rulebook

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
