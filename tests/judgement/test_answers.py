"""What each answer would change."""

from __future__ import annotations

import pytest

from sootsayer.judgement.answers import answers_to, levels_of_check
from sootsayer.judgement.judge import judge
from sootsayer.judgement.leaders import leaders
from sootsayer.judgement.verdict import DriveOn, Permitted
from sootsayer.rulebook.model import Where
from tests.interview.worlds import NINE, book, case, codes, said, seen


def test_every_answer_is_that_of_the_case_with_it() -> None:
    """What would lead after an answer is what leads once it is given."""
    for answer in answers_to(seen(), "ask-trips"):
        given = seen(said(f"trips: {answer.value}", "technician"))
        assert answer.leaders == leaders(given.network, given.solved)
    assert [answer.value for answer in answers_to(seen(), "ask-trips")] == ["short", "long"]


def test_the_kinds_in_which_something_else_would_lead() -> None:
    """Short trips would lead among causes, and with them too much soot among conditions."""
    short, long = answers_to(seen(), "ask-trips")
    by_kind = {leader.kind: leader.fault for leader in short.leaders}
    assert by_kind["cause"] == "short-trips"
    assert "cause" in short.changed
    assert long.changed == ()


def test_permissions_that_would_change() -> None:
    """Too much oil forbids running the engine; the right level clears it."""
    high, right = answers_to(seen(said("fire: no", "technician")), "read-dipstick")
    assert high.value is True
    assert {c.action: c.state for c in high.permissions} == {
        "drive-on": Permitted.BLOCKED,
        "run-engine": Permitted.BLOCKED,
    }
    assert right.drive_on is DriveOn.MAY_BE_DRIVEN
    assert {c.state for c in right.permissions} == {Permitted.CLEAR}


def test_numbers_are_asked_by_the_stretches_that_rules_tell_apart() -> None:
    """One answer between every two cuts, with its ends; at the ends of what is possible, none."""
    found = answers_to(seen(), "read-dp-at-rest")
    assert [(a.low, a.high) for a in found] == [(None, -5.0), (-5.0, 5.0), (5.0, None)]
    assert all(a.low is None or a.value > a.low for a in found)  # type: ignore[operator]


def test_codes_one_by_one() -> None:
    """None listed, and each that a rule names listed alone."""
    found = answers_to(seen(), "read-codes")
    assert [answer.value for answer in found] == ["", "P2453", "P2463"]
    given = seen(codes("P2463"))
    assert found[2].leaders == leaders(given.network, given.solved)


def test_levels_of_what_several_checks_decide_together() -> None:
    """A first step says what each level of its family would mean, which no single answer to it
    would."""
    case_ = seen(said("oil-high: no", "technician"), stage=Where.SCAN)
    assert all(not answer.changed for answer in answers_to(case_, "read-coolant"))
    levels = levels_of_check(case_, "read-coolant")
    assert [(each.family, each.level) for each in levels] == [
        ("restriction", "low"),
        ("restriction", "normal"),
        ("restriction", "high"),
    ]
    assert "condition" in levels[2].changed
    both = seen(said("oil-high: no", "technician"), said("coolant@idle: 90, dp@2500: 300"))
    for mine, theirs in zip(levels[2].leaders, leaders(both.network, both.solved), strict=True):
        assert mine.confidence == pytest.approx(theirs.confidence)


def test_a_verdict_proposes_and_can_be_told_not_to() -> None:
    """The verdict carries the next checks unless it is asked without."""
    told = judge(case(), book(), now=NINE)
    assert told.next_checks
    assert told.next_checks[0].id == "ask-smoke"
    assert judge(case(), book(), now=NINE, proposing=False).next_checks is None
