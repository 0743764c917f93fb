"""Permissions: unknown is not permission, and one forbidding fact is enough."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from sootsayer.advice.permissions import (
    DriveOn,
    Permitted,
    Readings,
    Reason,
    drive_on_state,
    permit,
    weigh,
)
from sootsayer.rulebook.model import DriveState

GOOD = Readings(applies=True, trusted=True, proven=True, fresh=True, ends=True)
STATES = (
    DriveState("not-to-be-started", ("no-fire",)),
    DriveState("not-to-be-driven", ("no-flash", "power"), 2),
    DriveState("workshop-only", ("no-flash", "power")),
)


def test_all_good_is_clear() -> None:
    """An interlock that holds on every set of facts is clear."""
    assert weigh(GOOD) == (Permitted.CLEAR, Reason.HOLDS)


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"trusted": None, "proven": None, "fresh": None, "ends": None}, Reason.UNKNOWN),
        ({"proven": None, "fresh": None, "ends": None}, Reason.UNPROVEN_INSTRUMENT),
        ({"fresh": None, "ends": None}, Reason.TOO_OLD),
        ({"ends": None}, Reason.TOO_CLOSE),
    ],
)
def test_what_is_lacking_is_named(change: dict[str, None], reason: Reason) -> None:
    """Not yet clear, with the first thing that is lacking."""
    assert weigh(replace(GOOD, **change)) == (Permitted.NOT_YET_CLEAR, reason)


@pytest.mark.parametrize("view", ["trusted", "proven", "fresh"])
def test_one_forbidding_view_is_enough(view: str) -> None:
    """False on any set of facts that is not distrusted blocks."""
    assert weigh(replace(GOOD, **{view: False}))[0] is Permitted.BLOCKED


def test_what_does_not_apply_is_not_needed() -> None:
    """Only `applies when` known to be false takes an interlock out; unknown leaves it in."""
    unknown = Readings(None, None, None, None, None)
    assert weigh(replace(unknown, applies=False)) == (Permitted.CLEAR, Reason.NOT_NEEDED)
    assert weigh(unknown)[0] is Permitted.NOT_YET_CLEAR


def test_clear_only_if_every_view_says_so() -> None:
    """Of all 3 to the power of 4 views, one alone is clear."""
    truths = (True, False, None)
    clear = [
        views
        for views in product(truths, repeat=4)
        if weigh(Readings(True, *views))[0] is Permitted.CLEAR
    ]
    assert clear == [(True, True, True, True)]


def test_an_action_needs_all_and_heeds_some() -> None:
    """What is heeded blocks when it does not hold, and is not awaited while unknown."""
    clear, blocked, waits = Permitted.CLEAR, Permitted.BLOCKED, Permitted.NOT_YET_CLEAR
    assert permit([clear, clear], [clear]) is clear
    assert permit([clear, clear], [waits]) is clear
    assert permit([clear, clear], [blocked]) is blocked
    assert permit([clear, waits], [clear]) is waits
    assert permit([waits, blocked], []) is blocked


def test_the_worst_state_that_is_reached_counts() -> None:
    """One of two forbids going further than the workshop, two forbid driving, fire starting."""
    ok, no = Permitted.CLEAR, Permitted.BLOCKED
    some = {"no-fire": ok, "no-flash": no, "power": ok}
    assert drive_on_state(no, some, STATES) == (DriveOn.WORKSHOP_ONLY, ("no-flash",))
    both = {**some, "power": no}
    assert drive_on_state(no, both, STATES) == (DriveOn.NOT_TO_BE_DRIVEN, ("no-flash", "power"))
    fire = {**both, "no-fire": no}
    assert drive_on_state(no, fire, STATES) == (DriveOn.NOT_TO_BE_STARTED, ("no-fire",))


def test_may_be_driven_only_when_clear() -> None:
    """Nothing blocked and all known; with anything unknown it is not yet known."""
    ok = Permitted.CLEAR
    known = {"no-fire": ok, "no-flash": ok, "power": ok}
    assert drive_on_state(ok, known, STATES) == (DriveOn.MAY_BE_DRIVEN, ())
    waits = {**known, "power": Permitted.NOT_YET_CLEAR}
    assert drive_on_state(Permitted.NOT_YET_CLEAR, waits, STATES) == (DriveOn.NOT_YET_KNOWN, ())


def test_a_block_that_no_state_names_forbids_driving() -> None:
    """A forgotten interlock errs on the strict side."""
    found = {"no-fire": Permitted.CLEAR, "other": Permitted.BLOCKED}
    states = (DriveState("not-to-be-started", ("no-fire",)),)
    assert drive_on_state(Permitted.BLOCKED, found, states) == (
        DriveOn.NOT_TO_BE_DRIVEN,
        ("other",),
    )
