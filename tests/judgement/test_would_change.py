"""The cheapest open check that could change what leads, or a permission."""

from __future__ import annotations

from sootsayer.judgement.answers import answers_to
from sootsayer.judgement.why import why
from sootsayer.judgement.would_change import WouldChange
from tests.interview.worlds import NINE, book, case, said, seen

RUNS = said("fire: no, oil-high: no", "technician")


def would_change(thing: str, *lines: str) -> WouldChange | None:
    return why(case(*lines), book(), thing, now=NINE).would_change


def test_of_a_fault_its_own_kind() -> None:
    """Smoke is the cheapest that could bring another cause to the front; an instrument needs its
    own check. One of the answers really does change it."""
    found = would_change("short-trips")
    assert found is not None
    assert (found.check, found.kinds, found.actions) == ("ask-smoke", ("cause",), ())
    assert any("cause" in answer.changed for answer in answers_to(seen(), found.check))
    stuck = would_change("sensor-stuck")
    assert stuck is not None
    assert stuck.kinds == ("measurement",)


def test_of_an_action_its_permission() -> None:
    """The dipstick could clear running the engine; once it is clear, nothing is waited for."""
    found = would_change("run-engine")
    assert found is not None
    assert (found.check, found.kinds, found.actions) == ("read-dipstick", (), ("run-engine",))
    assert would_change("run-engine", RUNS) is None


def test_of_anything_else_whatever_is_cheapest() -> None:
    """A finding is asked with the whole verdict in mind: the cheapest check of all."""
    found = would_change("smokes")
    assert found is not None
    assert found.check == "ask-smoke"
    assert "cause" in found.kinds
    assert would_change("smokes", said("smoke: no", "customer")) == WouldChange(
        "look-underneath", (), 1.0, (), ("drive-on",)
    )


def test_a_bundle_names_what_must_follow() -> None:
    """Where two checks are needed, the first is named with the second, and the minutes of both."""
    only_restriction = [
        RUNS,
        said("trips: long, smoke: no", "customer"),
        said("dp@rest: 0"),
        "- {at: 2031-03-14T09:00+01:00, by: tech-1, round: arrival, source: scan, "
        "codes: {read: complete, list: [P2463], monitors: run}, facts: {dp@idle: 5}}\n",
    ]
    found = would_change("soot-overload", *only_restriction)
    assert found is not None
    assert (found.check, found.then) == ("read-coolant", ("read-dp-running",))
    assert found.minutes == 9


def test_of_a_check_nothing() -> None:
    """A check is itself something to do: nothing changes it."""
    assert would_change("ask-trips") is None
