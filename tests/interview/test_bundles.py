"""Which checks are open, and what they yield alone and together."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from sootsayer.documents.nodes import Document, Mapping, Place
from sootsayer.interview.bundles import Bundle, bundles
from sootsayer.interview.open_checks import open_checks
from sootsayer.judgement.looking import Looked
from sootsayer.rulebook.model import Where
from sootsayer.rulebook.shop import Shop
from tests.interview.worlds import absent, codes, said, seen

CLEAR_TO_RUN = said("oil-high: no", "technician")


def by_checks(case: Looked) -> dict[tuple[str, ...], Bundle]:
    return {bundle.checks: bundle for bundle in bundles(case.now)}


def families(found: Iterable[Bundle]) -> set[str]:
    return {each.family for bundle in found for each in bundle.yields}


def shop(*tools: str) -> Shop:
    nowhere = Place("shop.yaml", 1, 1)
    document = Document("shop.yaml", Mapping({}, {}, nowhere), ())
    return Shop(Path("nowhere"), document, tools=tools)


def test_a_check_is_open_while_something_it_gives_was_never_asked() -> None:
    """An answer closes it; so do "do not know", "cannot" and "not fitted", but not "not asked"."""
    assert "ask-smoke" in open_checks(seen().now)
    assert "ask-smoke" not in open_checks(seen(said("smoke: no", "customer")).now)
    for reason in ("do not know", "cannot", "not fitted"):
        assert "ask-smoke" not in open_checks(seen(absent(f"smoke: {reason}")).now), reason
    assert "ask-smoke" in open_checks(seen(absent("smoke: not asked")).now)


def test_a_list_of_codes_is_read_once() -> None:
    """The check that reads the codes is closed by a list, and yields what codes decide."""
    assert families([by_checks(seen())["read-codes",]]) == {"sensor-code", "soot-code"}
    assert "read-codes" not in open_checks(seen(codes()).now)


def test_put_off_ruled_out_or_without_tools_it_is_not_open() -> None:
    """Checks put off, checks that do not apply, and checks whose tools are not at hand."""
    assert "ask-trips" not in open_checks(seen(later=["ask-trips"]).now)
    assert "read-spread" in open_checks(seen().now)
    assert "read-spread" not in open_checks(seen(said("trips: long", "customer")).now)
    with_lamp = open_checks(seen(shop=shop("lamp")).now)
    assert "look-at-hose" in with_lamp
    assert "read-codes" not in with_lamp


def test_what_a_forbidden_action_takes_is_not_open() -> None:
    """With the oil too high the engine may not run, so nothing that needs it is proposed."""
    forbidden = open_checks(seen(said("oil-high: yes", "technician")).now)
    assert not {"read-dp-idle", "read-dp-running"} & forbidden.keys()
    assert "read-dp-at-rest" in forbidden


def test_what_must_be_known_before_an_action_comes_first() -> None:
    """While it is not known whether the engine may run, the check that tells it is the first step
    of every check with the engine running; when nobody can tell, they are closed."""
    found = by_checks(seen())
    assert ("read-dipstick", "read-dp-idle") in found
    assert ("read-dp-idle",) not in found
    assert ("read-dp-idle",) in by_checks(seen(CLEAR_TO_RUN))
    assert "read-dp-idle" not in open_checks(seen(absent("oil-high: cannot")).now)


def test_an_answer_that_is_too_old_is_asked_again() -> None:
    """The oil was looked at more than an hour ago: the dipstick comes first once more."""
    late = seen(CLEAR_TO_RUN, minutes=90)
    assert "read-dipstick" in open_checks(late.now)
    assert ("read-dipstick", "read-dp-idle") in by_checks(late)


def test_a_finding_that_waits_for_two_checks_makes_them_a_bundle() -> None:
    """Pressure at a held speed says nothing without the coolant: both are weighed together, with
    their minutes and the way to them, and the better member of the family speaks."""
    found = by_checks(seen(CLEAR_TO_RUN, stage=Where.COUNTER))
    both = found["read-coolant", "read-dp-running"]
    assert both.minutes == 4 + 5 + 2
    assert [each.finding for each in both.yields] == ["restriction-held"]
    assert ("read-dp-running",) not in found
    coolant_known = by_checks(seen(CLEAR_TO_RUN, said("coolant@idle: 90")))
    assert ("read-dp-running",) in coolant_known


def test_only_a_better_member_of_a_family_speaks_again() -> None:
    """After the reading at idle the one at a held speed still tells something; not the other way
    round."""
    idle = by_checks(seen(CLEAR_TO_RUN, said("dp@idle: 5, coolant@idle: 90")))
    (each,) = idle["read-dp-running",].yields
    assert (each.finding, each.instead_of) == ("restriction-held", "restriction-idle")
    held = by_checks(seen(CLEAR_TO_RUN, said("dp@2500: 20, coolant@idle: 90")))
    assert ("read-dp-idle",) not in held


def test_a_distrusted_instrument_yields_nothing() -> None:
    """What would come through a channel that failed its test would be set aside."""
    found = by_checks(seen(CLEAR_TO_RUN, said("dp@rest: 30, coolant@idle: 90")))
    assert ("read-dp-running",) not in found
    assert ("read-dp-idle",) not in found


def test_the_way_between_stages_costs_minutes() -> None:
    """The same check is dearer from the counter than from the vehicle."""
    here = by_checks(seen(stage=Where.SCAN))["read-codes",]
    there = by_checks(seen(stage=Where.COUNTER))["read-codes",]
    assert (here.minutes, here.ahead) == (3, False)
    assert (there.minutes, there.ahead) == (5, True)


@pytest.mark.parametrize("stage", list(Where))
def test_steps_stand_in_the_order_of_doing(stage: Where) -> None:
    """Whatever must come before stands before, and stages are not gone back to in between."""
    order = [Where.COUNTER, Where.SCAN, Where.HANDS_ON]
    now = seen(stage=stage).now
    for bundle in bundles(now):
        stages = [order.index(now.model.checks[id_].where) for id_ in bundle.checks]
        assert stages == sorted(stages), bundle.checks
