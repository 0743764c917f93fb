"""Like for like, by itself: what is brought to what, what is shared, what is real."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.advice.like_for_like import Between, Change, Taken, Tolerances, Unlike, Warmth
from sootsayer.advice.like_for_like_change import changed, holm, with_what_is_real
from sootsayer.advice.like_for_like_gates import reasons_against
from sootsayer.advice.like_for_like_outcome import Because, Helped, Standing, outcome
from sootsayer.physics.measured import Measured
from sootsayer.physics.resistance import Running, bring

MAY_BE = Tolerances()
WELL = Standing("normal", False, "2500", True)


def taken(round_: str, dp: float, **known: object) -> Taken:
    """A hot reading at 2,500 rpm with 1 mbar of error."""
    one = Taken("dp@2500", "2500", round_, 1, Measured(dp, 1.0), "dp-sensor", Warmth.HOT)
    return replace(one, **known)  # type: ignore[arg-type]


def flowing(round_: str, dp: float, air: float = 150, heat: float = 200, sd: float = 1.0) -> Taken:
    """The same with zero, air, heat and barometer."""
    return taken(
        round_, dp, zero=Measured(0.0, 0.5), air=Measured(air, 4 * sd),
        exhaust=Measured(heat, 10 * sd), barometer=Measured(1000.0, 5 * sd),
    )  # fmt: skip


def real_change(before: Taken, after: Taken) -> Change:
    return with_what_is_real([changed(before, after, MAY_BE)])[0]


def test_the_same_filter_at_another_flow_is_unchanged() -> None:
    """What physics foretells for another flow and heat is no change at all, in the middle of the
    shares of square and fuel that nobody read."""
    one = flowing("a", 60)
    silent = Tolerances(zero=0.0)
    for air, heat in ((120, 180), (180, 260), (150, 200)):
        foretold = changed(one, flowing("b", 0.0, air, heat), silent).brought.value
        again = changed(one, flowing("b", foretold, air, heat), silent)
        assert again.difference.value == pytest.approx(0.0, abs=1e-9)
        assert again.ratio is not None
        assert again.ratio.value == pytest.approx(1.0)
        if (air, heat) == (150, 200):
            assert foretold == pytest.approx(60.0)


def test_it_brings_as_physics_does() -> None:
    """The earlier reading in the conditions of the later is `physics.resistance.bring`."""
    found = changed(flowing("a", 60), flowing("b", 30, 120, 300), MAY_BE)
    fuel, square = 0.035, 0.1
    silencer = [1500 * (air / 150) ** 2 * (heat + 273.15) / 473.15 for air, heat in
                ((150, 200), (120, 300))]  # fmt: skip
    seen = Running(150 * (1 + fuel) / 3600, 473.15, 100_000 + silencer[0])
    wanted = Running(120 * (1 + fuel) / 3600, 573.15, 100_000 + silencer[1])
    assert found.brought.value == pytest.approx(bring(6000, seen, wanted, square) / 100)


def test_heat_alone_is_taken_out_of_raw_readings() -> None:
    """Without flow, readings 30 C apart are brought together: 11 per cent (common practice)."""
    cooler, hotter = Measured(170.0), Measured(200.0)
    found = changed(taken("a", 50, exhaust=cooler), taken("b", 50, exhaust=hotter), MAY_BE)
    assert found.brought.value == pytest.approx(55.5, abs=0.6)
    assert not found.by_flow


def test_a_common_zero_is_no_change() -> None:
    """A zero that nobody read, or that was read once, is one input of both readings."""
    alone = changed(taken("a", 50), taken("b", 50), Tolerances(scatter=0.0, zero=30.0))
    assert alone.difference.sd == pytest.approx(2**0.5)
    once = taken("a", 50, zero=Measured(20.0, 5.0))
    assert changed(once, taken("b", 50), Tolerances(scatter=0.0)).now.value == 30
    both = changed(once, taken("b", 50, zero=Measured(0.0, 5.0)), Tolerances(scatter=0.0))
    assert both.difference.value == 20
    assert both.difference.sd == pytest.approx((2 * (1 + 25)) ** 0.5)


def test_ten_per_cent_of_a_raw_reading_is_noise() -> None:
    """31 and then 28 mbar, flow not known, is what two days make of one filter."""
    assert not real_change(taken("a", 31), taken("b", 28)).real
    assert real_change(taken("a", 31), taken("b", 15)).real


def test_no_share_of_nothing() -> None:
    """Where the earlier reading is within its error of zero there is no ratio to it."""
    assert changed(taken("a", 1), taken("b", 20), MAY_BE).ratio is None


@given(
    dp=st.floats(5, 300), after=st.floats(1, 300), air=st.floats(40, 300), heat=st.floats(125, 600)
)
@settings(deadline=None, max_examples=25)
def test_turned_round_it_says_the_opposite(
    dp: float, after: float, air: float, heat: float
) -> None:
    """Down forwards is up backwards by as much, at equal conditions."""
    one, other = flowing("a", dp, air, heat), flowing("b", after, air, heat)
    forwards, backwards = changed(one, other, MAY_BE), changed(other, one, MAY_BE)
    assert forwards.difference.value == pytest.approx(-backwards.difference.value, abs=1e-6)


@given(st.lists(st.floats(0, 1), max_size=6))
@settings(deadline=None)
def test_order_never_matters(chances: list[float]) -> None:
    """Which of several tests count does not depend on their order, and more tests never help."""
    pairs = sorted(zip(chances, holm(chances, 0.05), strict=True))
    again = list(reversed(chances))
    assert sorted(zip(again, holm(again, 0.05), strict=True)) == pairs
    more = holm([*chances, 1.0], 0.05)
    assert all(a >= b for a, b in zip(holm(chances, 0.05), more, strict=False))


@pytest.mark.parametrize(
    ("before", "after", "between", "reason"),
    [
        ({"distrusted": ("t",)}, {}, Between(), Unlike.DISTRUSTED_BEFORE),
        ({}, {"distrusted": ("t",)}, Between(), Unlike.DISTRUSTED_AFTER),
        ({"burning": True}, {}, Between(), Unlike.BURNING_BEFORE),
        ({}, {"burning": True}, Between(), Unlike.BURNING_AFTER),
        ({"wet": True}, {}, Between(), Unlike.WET_BEFORE),
        ({}, {"wet": True}, Between(), Unlike.WET_AFTER),
        ({}, {}, Between(wetted=True), Unlike.PERHAPS_WET),
        ({"egr": "shut"}, {"egr": "open"}, Between(), Unlike.OTHER_EGR),
        ({"leads_back": True}, {"leads_back": True}, Between(), Unlike.RECIRCULATION_UNKNOWN),
        ({}, {}, Between(frozenset({"dp-sensor"})), Unlike.SENSOR_CHANGED),
        ({}, {"channel": "dp-gauge"}, Between(), Unlike.OTHER_INSTRUMENT),
        ({"warmth": Warmth.COLD}, {}, Between(), Unlike.COLD_BEFORE),
        ({}, {"warmth": Warmth.COLD}, Between(), Unlike.COLD_AFTER),
        ({"warmth": Warmth.COLD}, {"warmth": Warmth.COLD}, Between(), Unlike.COLD_AFTER),
        ({"warmth": Warmth.UNKNOWN}, {}, Between(), Unlike.WARMTH_UNKNOWN_BEFORE),
        ({}, {"warmth": Warmth.UNKNOWN}, Between(), Unlike.WARMTH_UNKNOWN_AFTER),
        (
            {"exhaust": Measured(160.0)},
            {"exhaust": Measured(191.0)},
            Between(),
            Unlike.TEMPERATURES_APART,
        ),
        ({"speed": 2500.0}, {"speed": 2380.0}, Between(), Unlike.OTHER_SPEED),
        ({"point": "2000"}, {}, Between(), Unlike.OTHER_SPEED),
    ],
)
def test_each_reason_against(
    before: dict[str, object], after: dict[str, object], between: Between, reason: Unlike
) -> None:
    """Each unlikeness alone is found, and nothing else beside it."""
    one, other = taken("a", 50, **before), taken("b", 40, **after)
    assert reasons_against(taken("a", 50), taken("b", 40), Between(), MAY_BE) == ()
    assert reasons_against(one, other, between, MAY_BE) == (reason,)


def test_a_share_led_back_that_was_read_is_no_reason() -> None:
    """Low-pressure EGR whose share is known, or that is not fitted, may be compared."""
    known = {"leads_back": True, "recirculated": Measured(0.0, 0.03)}
    assert (
        reasons_against(taken("a", 50, **known), taken("b", 40, **known), Between(), MAY_BE) == ()
    )


def test_flow_makes_up_for_heat_and_speed() -> None:
    """With air and heat read, other temperatures and speeds may be compared; wet gas may not."""
    one, other = flowing("a", 60, 150, 200), flowing("b", 60, 220, 330)
    assert reasons_against(one, replace(other, point="pull"), Between(), MAY_BE) == ()
    cool = replace(one, exhaust=Measured(110.0))
    assert Unlike.TEMPERATURES_APART in reasons_against(cool, other, Between(), MAY_BE)


def at(point: str, dp: float, after: float) -> Change:
    one = real_change(flowing("a", dp), flowing("b", after))
    return replace(one, after=replace(one.after, point=point))


@pytest.mark.parametrize(
    ("changes", "standing", "helped", "because"),
    [
        ([at("2500", 70, 19)], WELL, Helped.WORKED, ()),
        ([at("2500", 70, 19)], replace(WELL, level="high"), Helped.PARTLY,
         (Because.STILL_RESTRICTED,)),
        ([at("2500", 70, 19)], replace(WELL, borderline=True), Helped.PARTLY,
         (Because.TOO_CLOSE,)),
        ([at("2500", 70, 19)], replace(WELL, settled=False), Helped.PARTLY, (Because.NOT_PROVEN,)),
        ([at("2500", 70, 19)], Standing(None, settled=True), Helped.PARTLY,
         (Because.LEVEL_UNKNOWN,)),
        ([at("idle", 70, 19)], replace(WELL, point="idle"), Helped.PARTLY, (Because.ONLY_IDLE,)),
        ([at("2500", 70, 4)], replace(WELL, level="low"), Helped.NOT_SHOWN, (Because.TOO_LOW,)),
        ([at("2500", 70, 69)], WELL, Helped.NOT_SHOWN, (Because.WITHIN_NOISE,)),
        ([at("2500", 70, 19), at("idle", 10, 40)], WELL, Helped.NOT_SHOWN,
         (Because.POINTS_DISAGREE,)),
        ([at("2500", 19, 70)], WELL, Helped.WORSE, ()),
        ([], WELL, Helped.REFUSED, (Because.NOTHING_COMPARED,)),
    ],
)  # fmt: skip
def test_each_answer(
    changes: list[Change], standing: Standing, helped: Helped, because: tuple[Because, ...]
) -> None:
    """Worked, partly, not shown, worse, refused, each for its reason."""
    found = outcome(changes, standing)
    assert (found.helped, found.because) == (helped, because)
    assert (found.leading is None) == (not changes)
