"""The sheet to take along: one walk round the vehicle."""

from __future__ import annotations

from sootsayer.interview.sheet import Leg, leg_of, sheet
from tests.interview.worlds import book

MODEL = book().model
ALL = tuple(MODEL.checks)


def test_legs_come_in_the_order_of_the_walk() -> None:
    """Asked first, then cold, key on, warm, held speed, hands on; whatever order came in."""
    legs = [part.leg for part in sheet(MODEL, ALL, frozenset())]
    assert legs == list(Leg)
    assert sheet(MODEL, ALL[::-1], frozenset())[0].leg is Leg.ASK


def test_where_each_check_belongs() -> None:
    """By where it is done and the latest state of the vehicle that it needs."""
    legs = {id_: leg_of(check) for id_, check in MODEL.checks.items()}
    assert legs["ask-trips"] is Leg.ASK
    assert legs["read-spread"] is Leg.COLD
    assert legs["read-dp-at-rest"] is Leg.KEY_ON
    assert legs["read-codes"] is Leg.KEY_ON
    assert legs["read-coolant"] is Leg.WARM
    assert legs["read-dp-running"] is Leg.HELD_SPEED
    assert legs["look-at-hose"] is Leg.HANDS_ON


def test_every_check_stands_once_with_its_blanks() -> None:
    """A check named twice stands once; what was asked already has no blank."""
    (leg,) = sheet(MODEL, ["ask-smoke", "ask-trips", "ask-smoke"], frozenset())
    assert [line.check for line in leg.lines] == ["ask-smoke", "ask-trips"]
    (trips,) = leg.lines[1].blanks
    assert (trips.slot, trips.unit, trips.choices) == ("trips", "", ("short", "long"))
    (leg,) = sheet(MODEL, ["read-dp-at-rest"], frozenset())
    assert leg.lines[0].blanks[0].unit == "mbar"
    (leg,) = sheet(MODEL, ["read-dp-at-rest"], frozenset({"dp@rest"}))
    assert leg.lines[0].blanks == ()


def test_checks_at_one_point_stand_together() -> None:
    """Within a leg, what is read in the same state is not torn apart."""
    (leg,) = sheet(MODEL, ["read-dp-at-rest", "read-codes"], frozenset())
    assert [line.check for line in leg.lines] == ["read-dp-at-rest", "read-codes"]
    (leg,) = sheet(MODEL, ["read-coolant", "read-dp-idle"], frozenset())
    assert [line.check for line in leg.lines] == ["read-coolant", "read-dp-idle"]
