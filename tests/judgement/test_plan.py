"""The plan of a verdict: states, prices, what comes first, what it leaves, and never says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from sootsayer.advice.plan_choice import Method
from sootsayer.advice.work_state import WorkState
from sootsayer.judgement.plan import UNREPAIRED
from sootsayer.judgement.plan_json import as_json as plan_json
from sootsayer.judgement.plan_said import Plan, Range
from sootsayer.judgement.verdict import Permitted
from sootsayer.judgement.verdict_json import as_json
from sootsayer.rulebook.compiled import shipped_rules
from sootsayer.rulebook.model import Filling
from tests.judgement.plan_cases import BLOCKED, TRIPS, YARD, plan, planning, remedy, shop, verdict

SCHEMA = json.loads((Path(shipped_rules()) / "schema" / "verdict.schema.json").read_text("utf-8"))
LOTS = (
    (),
    (BLOCKED,),
    (BLOCKED, TRIPS, YARD),
    (BLOCKED, "outdoors: no, cool: no"),
    ("dp@rest: 12",),
    ("dp@rest: 0, dp@2500: 20, hose: split", "cool: yes"),
)


def test_every_remedy_has_its_state() -> None:
    """Permitted, forbidden and not yet clear, with the reasons and the check that would clear."""
    found = plan(BLOCKED, "outdoors: no")
    burn, fluid, talk = (remedy(found, name) for name in ("burn-free", "fluid", "talk"))
    assert burn.state is WorkState.FORBIDDEN
    assert [(r.interlock, r.says, r.state) for r in burn.reasons] == [
        ("is-outdoors", "It stands indoors", Permitted.BLOCKED)
    ]
    assert fluid.state is WorkState.NOT_YET_CLEAR
    assert fluid.reasons[0].would_clear == ("feel",)
    assert (talk.state, talk.reasons) == (WorkState.PERMITTED, ())
    assert {each.remedy for each in found.remedies} == set(planning().model.remedies)


@pytest.mark.parametrize("facts", LOTS)
def test_nothing_outside_the_permissions(facts: tuple[str, ...]) -> None:
    """What is planned needs no action that is not clear; how work is done is said of permitted
    work alone; forbidden work has no place in any order."""
    said = verdict(*facts)
    found = said.plan
    assert found is not None
    clear = {p.action for p in said.permissions if p.state is Permitted.CLEAR}
    blocked = {p.action for p in said.permissions if p.state is Permitted.BLOCKED}
    remedies = planning().model.remedies
    for name in found.order:
        assert set(remedies[name].by_actions) <= clear
    for name in (*found.order, *found.once_clear, *(o.remedy for o in found.openings)):
        assert not set(remedies[name].by_actions) & blocked
    for each in found.remedies:
        permitted = set(remedies[each.remedy].by_actions) <= clear
        assert (each.how is not None) == permitted
        assert permitted or each.then == ()


def test_unknown_prices_stay_unknown() -> None:
    """Without a labour rate nothing has a price: the order is by chance and time, and says why."""
    found = plan(BLOCKED, TRIPS, YARD)
    assert (found.by, found.unpriced, found.currency) == ("time", ("",), "")
    assert {each.cost for each in found.remedies} == {None}
    expected = remedy(found, found.order[0]).expected
    assert expected is not None
    assert expected.cost is None
    assert expected.minutes.lowest > 0


def test_ranges_stay_ranges(tmp_path: Path) -> None:
    """Parts 25 to 35 and 60 to 120 minutes at 60 an hour are 85 to 155, and nothing in between."""
    found = plan(BLOCKED, TRIPS, YARD, shop=shop(tmp_path))
    assert (found.by, found.currency) == ("cost", "EUR")
    assert remedy(found, "fluid").cost == Range(85.0, 155.0)
    assert remedy(found, "clean-outside").days == Range(1.0, 3.0)
    expected = remedy(found, found.order[0]).expected
    assert expected is not None
    assert expected.cost is not None
    assert expected.cost.lowest < (expected.cost.highest or 0.0)


def test_the_shops_own_numbers_stand_before_the_packs(tmp_path: Path) -> None:
    """Its price, its time and its chance, each marked as its own where it is a price."""
    own = shop(
        tmp_path,
        "prices: {fluid: 12}\ntimes: {fluid: {from: 20, to: 30}}\n"
        "chances: {fluid: {soot-overload: 17 of 20}}\n",
    )
    fluid = remedy(plan(BLOCKED, TRIPS, YARD, shop=own), "fluid")
    assert fluid.minutes == Range(20.0, 30.0)
    assert fluid.cost == Range(32.0, 42.0)
    assert fluid.shops_price
    assert fluid.cures == {"ash-full": 0.05, "soot-overload": 0.85}


def test_a_can_and_a_clean_outside_are_weighed_by_what_comes_next(tmp_path: Path) -> None:
    """The cheap work comes first while it helps often enough for its price, and last when the
    shop's own count says that it hardly ever does."""
    facts = (BLOCKED, "trip: 40 km", "cool: yes, outdoors: no")
    assert plan(*facts, shop=shop(tmp_path)).order[:2] == ("fluid", "clean-outside")
    rare = shop(tmp_path, "chances: {fluid: {soot-overload: 0.03, ash-full: 0.01}}\n")
    assert plan(*facts, shop=rare).order[0] == "clean-outside"


def test_how_dear_it_is_to_end_unrepaired_is_the_shops_to_say(tmp_path: Path) -> None:
    """Unsaid it counts ten times all the open work; the lower it is, the sooner work on a faint
    chance is left out."""
    facts = (BLOCKED, "trip: 40 km", "cool: yes, outdoors: no")
    faint = "chances: {clean-outside: {soot-overload: 0.3, ash-full: 0.3}}\n"
    usual = plan(*facts, shop=shop(tmp_path, faint))
    ten = plan(*facts, shop=shop(tmp_path, faint + "unrepaired: 10\n"))
    least = plan(*facts, shop=shop(tmp_path, faint + "unrepaired: 1\n"))
    assert UNREPAIRED == 10.0
    assert (usual.order, usual.remedies) == (ten.order, ten.remedies)
    assert least.order == ("fluid",)
    assert len(usual.order) > 1


def test_work_that_hides_a_fault_waits_for_the_hose(tmp_path: Path) -> None:
    """While the hose is not known the zero is held back, and a look at it is worth its minutes;
    once it is whole the zero comes first."""
    unknown = plan("dp@rest: 12", shop=shop(tmp_path))
    zero = remedy(unknown, "zero-sensor")
    assert (zero.state, zero.hides, zero.expected) == (WorkState.PERMITTED, ("hose-leaks",), None)
    assert unknown.order[0] == "new-hose"
    look = next(each for each in unknown.looks if each.check == "look-at-hose")
    assert look.saves > 10
    assert look.first == ("zero-sensor",)
    assert look.caution == "Hot pipes beside it"
    known = plan("dp@rest: 12, hose: whole", shop=shop(tmp_path))
    assert known.order[0] == "zero-sensor"
    assert remedy(known, "zero-sensor").hides == ()


def test_a_check_that_makes_work_possible_is_told(tmp_path: Path) -> None:
    """Burning is not yet clear: what it would save, and the check that would settle it."""
    found = plan(BLOCKED, TRIPS, shop=shop(tmp_path))
    opening = next(each for each in found.openings if each.remedy == "burn-free")
    assert opening.checks == ("look-around",)
    assert opening.saves is not None
    assert opening.saves > 50
    assert "burn-free" not in found.order
    assert "burn-free" in found.once_clear
    clear = plan(BLOCKED, TRIPS, YARD, shop=shop(tmp_path))
    assert "burn-free" in clear.order
    assert clear.openings == ()


def test_work_that_leaves_a_cause_says_when_it_is_back(tmp_path: Path) -> None:
    """20 to 100 g in 1,000 km, 0 to 5 g left, full at 25 to 40: 200 to 2,000 km."""
    found = remedy(plan(BLOCKED, TRIPS, YARD, shop=shop(tmp_path)), "burn-free")
    assert set(found.leaves) == {"short-trips"}
    assert found.returns is not None
    assert (found.returns.of, found.returns.filling) == ("soot-overload", Filling.SOOT)
    assert found.returns.km == Range(200.0, 2000.0)
    assert found.returns.days is None
    assert not found.returns.own


def test_this_vehicles_own_rate_and_distance_count() -> None:
    """30 g in 600 km is 50 g in 1,000, half as much again or less; 35 km a week, by a quarter."""
    own = f"{BLOCKED}, soot-measured: 30, km-since-burn: 600, km-a-week: 35"
    said = remedy(plan(own, TRIPS, YARD), "burn-free").returns
    assert said is not None
    assert said.own
    assert said.km.lowest == pytest.approx(20 / (0.05 * 1.5))
    assert said.km.highest == pytest.approx(40 / (0.05 / 1.5))
    assert said.days is not None
    assert said.days.lowest == pytest.approx(said.km.lowest / (5 * 1.25))
    assert said.days.highest == pytest.approx((said.km.highest or 0) / (5 / 1.25))


def test_what_leaves_no_cause_says_nothing() -> None:
    """Long trips leave nothing that brings it back."""
    assert remedy(plan(BLOCKED, "trip: 60 km", YARD), "burn-free").returns is None


def test_a_wish_to_remove_is_marked() -> None:
    """The wish is told by the fact alone, and changes nothing that is planned."""
    wished = plan(BLOCKED, TRIPS, YARD, "customer-wants-removal: yes")
    assert wished.declined
    plain = plan(BLOCKED, TRIPS, YARD)
    assert not plain.declined
    assert wished.order == plain.order


def test_a_healthy_vehicle_calls_for_no_work() -> None:
    """Where nothing is wrong, more likely than not, the plan says so."""
    assert plan("dp@rest: 0, dp@2500: 20, hose: whole", "trip: 60 km").nothing > 0.5


def test_the_order_is_as_good_as_its_method_says(tmp_path: Path) -> None:
    """Few moves are weighed exactly; the first in the order is the first of the list."""
    found = plan(BLOCKED, TRIPS, YARD, shop=shop(tmp_path))
    assert found.method is Method.EXACT
    assert found.remedies[0].remedy == found.order[0]


def test_a_case_without_a_plan_has_none() -> None:
    """A rulebook's verdict that nobody asked a plan of says null, not an empty plan."""
    from sootsayer.judgement.judge import judge
    from tests.judgement.plan_cases import case
    from tests.judgement.small_cases import NINE

    told = as_json(judge(case(BLOCKED), planning(), now=NINE))
    assert (told["plan"], told["planning"]) == (None, None)


@pytest.mark.parametrize("facts", LOTS)
def test_the_plan_fits_the_schema(facts: tuple[str, ...], tmp_path: Path) -> None:
    """With and without prices, the JSON form is what the schema says, in the verdict and alone."""
    for own in (None, shop(tmp_path)):
        said = verdict(*facts, shop=own)
        told = json.loads(json.dumps(as_json(said)))
        assert [e.message for e in Draft202012Validator(SCHEMA).iter_errors(told)] == []
        alone = json.loads(json.dumps(plan_json(said)))
        assert alone["plan"] == told["plan"]
        assert alone["planning"] == told["planning"]
        assert told["plan"]


def test_the_same_plan_whatever_the_order_of_facts(tmp_path: Path) -> None:
    """Law 1 holds for the plan: the order of the entries' facts changes nothing in it."""

    def planned(*facts: str) -> Plan:
        return plan(*facts, shop=shop(tmp_path))

    assert planned(BLOCKED, TRIPS, YARD) == planned(
        BLOCKED, TRIPS, ", ".join(reversed(YARD.split(", ")))
    )
