"""The opening, what driving waits for, what work waits for, and the customary order."""

from __future__ import annotations

from sootsayer.interview.bundles import bundles
from sootsayer.interview.open_checks import open_checks
from sootsayer.interview.opening import opening_left
from sootsayer.interview.orders import by_custom, cheapest_first, customary_order, telling
from sootsayer.judgement.questions import questions
from sootsayer.judgement.verdict import DriveOn
from sootsayer.rulebook.model import Where
from tests.interview.worlds import absent, said, seen


def test_the_opening_is_asked_group_by_group() -> None:
    """Every check once, in order, and each group is led into with its own words."""
    left = opening_left(seen().now)
    assert [(step.check, step.leads_in) for step in left] == [
        ("look-underneath", True),
        ("read-dipstick", False),
        ("ask-trips", True),
        ("ask-smoke", False),
    ]
    assert left[0].says == "First of all"


def test_a_group_once_begun_is_not_led_into_again() -> None:
    """What is answered already is left out, and the words before the group with it."""
    left = opening_left(seen(said("fire: no", "technician")).now)
    assert [(step.check, step.leads_in) for step in left][:2] == [
        ("read-dipstick", False),
        ("ask-trips", True),
    ]


def test_danger_is_known_from_one_answer() -> None:
    """A vehicle that burns underneath is not to be started, and asking stops at once."""
    found = questions(seen(said("fire: yes", "technician")))
    assert found.danger
    assert found.drive_on.state is DriveOn.NOT_TO_BE_STARTED


def test_may_be_driven_only_when_all_that_could_forbid_it_is_answered() -> None:
    """What it still waits for is listed, the opening's first; then it may be driven."""
    one = questions(seen(said("fire: no", "technician")))
    assert one.drive_on.state is DriveOn.NOT_YET_KNOWN
    assert one.driving == ("read-dipstick",)
    both = questions(seen(said("fire: no, oil-high: no", "technician")))
    assert both.drive_on.state is DriveOn.MAY_BE_DRIVEN
    assert both.driving == ()
    nobody_knows = questions(seen(said("fire: no", "technician"), absent("oil-high: cannot")))
    assert nobody_knows.drive_on.state is DriveOn.NOT_YET_KNOWN
    assert nobody_knows.driving == ()


def test_what_interlocks_wait_for_comes_first_for_work() -> None:
    """Of all actions, or of one alone: the open checks that would clear them."""
    every = questions(seen())
    assert every.clearing == ("look-underneath", "read-dipstick")
    assert questions(seen(), actions=["run-engine"]).clearing == ("read-dipstick",)
    clears = {each.id: each.clears for each in every.next_checks}
    assert clears["read-dipstick"] == ("oil-good",)
    assert clears["ask-smoke"] == ()


def test_the_customary_order_names_every_check() -> None:
    """What the packs' order does not name comes after it, by id."""
    now = seen(said("trips: short", "customer")).now
    assert customary_order(now.model)[:2] == ("look-underneath", "ask-trips")
    assert customary_order(now.model)[-1] == "read-spread"
    assert set(customary_order(now.model)) == set(now.model.checks)
    open_ = frozenset(open_checks(now))
    assert by_custom(now, open_)[0] == "look-underneath"
    assert "ask-trips" not in by_custom(now, open_)
    assert questions(seen()).fixed[:2] == ("look-underneath", "ask-trips")


def test_cheapest_first_counts_the_way() -> None:
    """Minutes with the way to the check, ties by id."""
    now = seen(stage=Where.COUNTER).now
    order = cheapest_first(now, frozenset(now.model.checks))
    assert order[:3] == ("ask-smoke", "look-underneath", "ask-trips")
    assert order[-1] == "look-at-hose"


def test_checks_that_only_interlocks_need_tell_nothing() -> None:
    """Looking underneath lets no finding speak; the dipstick does, as a step."""
    now = seen().now
    found = telling(now, bundles(now))
    assert "look-underneath" not in found
    assert "read-dipstick" in found
    assert "read-dp-idle" not in found  # the dipstick first
