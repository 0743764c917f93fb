"""Every demonstration case is judged as a master technician would judge it."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.learning.expected import differences
from tests.cases.demonstrated import CASES, QUIET, demonstrated, files, verdict_of
from tests.laws.making_cases import rulebook

MOST_DOUBT = 0.3  # on an ordinary vehicle no fault is likelier


@pytest.mark.parametrize("path", files(CASES), ids=lambda path: path.stem)
def test_a_case_is_judged_as_expected(path: Path) -> None:
    """Leading faults, permissions, instruments and what speaks for them are as stated."""
    shown = demonstrated(path)
    assert any(each.leading for each in shown.expected)
    assert shown.case.story
    for expected in shown.expected:
        found = differences(expected, verdict_of(shown.case, expected, rulebook()))
        assert not found, "\n".join(f"{expected.place}: {each}" for each in found)


@pytest.mark.parametrize("path", files(QUIET), ids=lambda path: path.stem)
def test_an_ordinary_vehicle_stays_quiet(path: Path) -> None:
    """No fault passes 0.3, none leads, and permissions are as stated: neither less nor more."""
    shown = demonstrated(path)
    for expected in shown.expected:
        assert expected.drive_on
        assert expected.permissions
        verdict = verdict_of(shown.case, expected, rulebook())
        found = differences(expected, verdict)
        assert not found, "\n".join(f"{expected.place}: {each}" for each in found)
        loud = {f.id: f.confidence for f in verdict.faults if f.confidence > MOST_DOUBT}
        assert not loud


def test_there_are_enough_cases() -> None:
    """At least 36 demonstration cases and 25 ordinary vehicles."""
    assert len(files(CASES)) >= 36
    assert len(files(QUIET)) >= 25
