"""Before and after of whole cases: what is compared, what is refused, and what follows."""

from __future__ import annotations

import pytest

from sootsayer.advice.like_for_like_outcome import Because, Helped
from sootsayer.judgement.compare import compare
from sootsayer.judgement.compare_remains import what_remains
from sootsayer.judgement.judge import tell
from tests.judgement.compare_cases import (
    HOT,
    PROVEN,
    after,
    before,
    compared,
    done,
    read,
    why_refused,
    worked_out,
)

FLOW = (
    "air@2500: 150 kg/h, exhaust-temperature@2500: 205 C, barometer: 1005 mbar, "
    "boost@2500: 1010 mbar, engine-speed@2500: 2500 rpm"
)
FULL = f"dp@rest: 1, dp@idle: 19, dp@2500: 70, {FLOW}, {HOT}, {PROVEN}"
CLEAN = f"dp@rest: 1, dp@idle: 6, dp@2500: 19, {FLOW}, {HOT}, {PROVEN}"


# The facts of the trade: common practice, from a practitioner's account, without a source.


def test_a_hot_idle_that_fell_by_two_thirds_is_real() -> None:
    """Hot idle 97 before and 30 after cleaning in place: about threefold, and real."""
    found = compared(
        before(f"dp@idle: 97, {HOT}"),
        done("shop-clean-in-place"),
        after(f"dp@idle: 30, {HOT}, filter-wet: no"),
    )
    (change,) = found.changes
    assert change.real
    assert change.ratio is not None
    assert 1 / change.ratio.value == pytest.approx(3.2, abs=0.1)
    assert found.outcome.helped is Helped.PARTLY
    assert Because.STILL_RESTRICTED in found.outcome.because


def test_a_hot_idle_that_halved_again_is_real() -> None:
    """Hot idle 30 and 15 after a regeneration: about twofold, real, and idle acquits nobody."""
    found = compared(before(f"dp@idle: 30, {HOT}"), done("road-run"), after(f"dp@idle: 15, {HOT}"))
    (change,) = found.changes
    assert change.real
    assert change.ratio is not None
    assert change.ratio.value == pytest.approx(0.5, abs=0.01)
    assert found.outcome.helped is Helped.PARTLY
    assert Because.ONLY_IDLE in found.outcome.because


def test_cold_against_hot_is_refused() -> None:
    """72 cold before against 15 just after says nothing, however large the fall."""
    found = compared(
        before("dp@idle: 72, coolant@idle: 24 C, regeneration-status: not running"),
        after(f"dp@idle: 15, {HOT}"),
    )
    assert why_refused(found) == {"cold-before"}
    assert found.outcome.helped is Helped.REFUSED
    assert found.refusals[0].instead == ()  # yesterday's cold engine is past reading again


def test_a_soot_figure_of_unknown_scale_proves_nothing() -> None:
    """0.19, 0.10, 0.01 of nobody knows what: told, and no part of the answer."""
    found = compared(
        before(f"soot-figure: 0.19, {HOT}"),
        read("after-clean", "soot-figure: 0.10", "11:00"),
        after(f"soot-figure: 0.01, {HOT}"),
    )
    assert [figure.slot for figure in found.figures] == ["soot-figure"]
    assert found.outcome.helped is Helped.REFUSED


def test_a_modelled_figure_that_fell_to_nothing_is_no_proof() -> None:
    """Soot as modelled fell from 30 to 0 g and the pressure did not move: not shown."""
    found = compared(before(f"soot-shown: 30, {FULL}"), after(f"soot-shown: 0, {FULL}"))
    assert found.figures[0].fell
    assert found.outcome.helped is Helped.NOT_SHOWN
    assert found.outcome.because == (Because.WITHIN_NOISE,)


def test_an_unmoved_figure_takes_nothing_from_the_pressure() -> None:
    """Pressure down by four fifths, soot figure unmoved: it worked all the same."""
    lower = CLEAN.replace("dp@2500: 19", "dp@2500: 15")
    found = compared(before(f"soot-shown: 30, {FULL}"), after(f"soot-shown: 30, {lower}"))
    assert not found.figures[0].fell
    assert found.outcome.helped is Helped.WORKED


# What may be said.


def test_worked_needs_a_proven_instrument() -> None:
    """The same readings without the hose tests in the later round: partly, and which are open."""
    assert compared(before(FULL), after(CLEAN)).outcome.helped is Helped.WORKED
    found = compared(before(FULL), after(CLEAN.replace(f", {PROVEN}", "")))
    assert found.outcome.helped is Helped.PARTLY
    assert found.outcome.because == (Because.NOT_PROVEN,)
    assert set(found.unsettled) == {"front-hose-does-not-hold", "front-hose-does-not-blow-through"}


def test_worse_is_said() -> None:
    """Up at both points, beyond noise: worse."""
    assert compared(before(CLEAN), after(FULL)).outcome.helped is Helped.WORSE


def test_too_good_is_not_well() -> None:
    """A fall below what a sound filter shows is no success: a hose may be off."""
    gone = CLEAN.replace("dp@2500: 19", "dp@2500: 5").replace("dp@idle: 6", "dp@idle: 2")
    found = compared(before(FULL), after(gone))
    assert found.outcome.helped is Helped.NOT_SHOWN
    assert found.outcome.because == (Because.TOO_LOW,)


def test_a_zero_of_each_round_is_taken_off() -> None:
    """An offset of 18 mbar in the later round only is not a fuller filter."""
    shifted = FULL.replace("dp@rest: 1, dp@idle: 19, dp@2500: 70",
                           "dp@rest: 18, dp@idle: 36, dp@2500: 87")  # fmt: skip
    found = compared(before(FULL), after(shifted))
    assert found.outcome.helped is Helped.NOT_SHOWN
    assert all(abs(change.difference.value) < 1e-6 for change in found.changes)


# What is refused.


@pytest.mark.parametrize(
    ("earlier", "work", "later", "reason", "instead"),
    [
        (f"dp@idle: 20, {HOT}", "", "dp@idle: 9, coolant@idle: 30 C", "cold-after", "coolant@idle"),
        (f"dp@idle: 20, {HOT}", "", "dp@idle: 9", "warmth-unknown-after", "coolant@idle"),
        ("dp@idle: 20", "", f"dp@idle: 9, {HOT}", "warmth-unknown-before", None),
        (f"dp@2000: 50, {HOT}", "", f"dp@2500: 30, {HOT}", "other-speed", "air@2000"),
        (
            f"dp@idle: 20, {HOT}",
            "shop-clean-in-place",
            f"dp@idle: 9, {HOT}, filter-wet: yes",
            "wet-after",
            "filter-wet",
        ),
        (
            f"dp@idle: 20, {HOT}",
            "shop-clean-in-place",
            f"dp@idle: 9, {HOT}",
            "perhaps-wet",
            "filter-wet",
        ),
        (
            f"dp@idle: 20, {HOT}",
            "",
            "dp@idle: 9, coolant@idle: 88 C, regeneration-status: running",
            "burning-after",
            "dp@idle",
        ),
        (
            f"dp@idle: 20, {HOT}, egr-while-reading: shut",
            "",
            f"dp@idle: 9, {HOT}, egr-while-reading: open",
            "other-egr",
            "egr-while-reading",
        ),
        (
            f"dp@rest: 1, dp@idle: 20, {HOT}",
            "shop-zero-sensor",
            f"dp@idle: 9, {HOT}",
            "sensor-changed",
            "dp@rest",
        ),
        (
            f"dp@2500: 50, dp@idle: 60, dp@rest: 0, {HOT}",
            "",
            f"dp@2500: 50, {HOT}",
            "distrusted-before",
            None,
        ),
        (
            f"dp@idle: 20, exhaust-temperature@idle: 150 C, {HOT}",
            "",
            f"dp@idle: 9, exhaust-temperature@idle: 190 C, {HOT}",
            "temperatures-apart",
            "air@idle",
        ),
        (f"dp@idle: 20, dp@2500: 70, {HOT}", "", f"dp@2500: 70, {HOT}", "not-read-after",
         "dp@idle"),
        (f"dp@2500: 70, {HOT}", "", f"dp@idle: 20, dp@2500: 70, {HOT}", "not-read-before", None),
    ],
)  # fmt: skip
def test_what_is_unlike_is_refused(
    earlier: str, work: str, later: str, reason: str, instead: str | None
) -> None:
    """Each state that makes a comparison worthless is named, with what to read instead."""
    lines = [before(earlier), *([done(work)] if work else []), after(later)]
    found = compared(*lines)
    refusal = next(each for each in found.refusals if reason in {r.value for r in each.why})
    if instead is None:
        assert refusal.instead == ()
    else:
        assert instead in refusal.instead


def test_another_speed_with_flow_is_compared() -> None:
    """2,000 rpm before and 2,500 after, both with air and heat: brought to one flow."""
    low = "air@2000: 120 kg/h, exhaust-temperature@2000: 195 C, barometer: 1005 mbar"
    found = compared(
        before(f"dp@rest: 0, dp@2000: 54, {low}, {HOT}"),
        after(f"dp@rest: 0, dp@2500: 70, {FLOW}, {HOT}"),
    )
    (change,) = found.changes
    assert change.by_flow
    assert (change.before.point, change.after.point) == ("2000", "2500")
    assert not change.real


def test_a_sensor_changed_with_zeros_is_compared() -> None:
    """A sensor worked on in between is no obstacle where each round has its own zero."""
    found = compared(
        before(f"dp@rest: 14, dp@idle: 30, {HOT}"),
        done("shop-zero-sensor"),
        after(f"dp@rest: 0, dp@idle: 16, {HOT}"),
    )
    (change,) = found.changes
    assert change.difference.value == pytest.approx(0.0)
    assert not change.real


def test_an_earlier_round_is_not_voided_by_later_work() -> None:
    """Work on the sensor makes the old readings no facts of now, and still facts of then."""
    work = worked_out(
        before(f"dp@rest: 14, dp@idle: 30, {HOT}"),
        done("shop-zero-sensor"),
        after(f"dp@rest: 0, dp@idle: 16, {HOT}"),
    )
    found = compare(work, "arrival", "after-work")
    assert found.changes[0].before.shown.value == 30
    assert found.changes[0].before.zero is not None


# What the verdict says of it.


def test_the_verdict_lists_what_was_refused() -> None:
    """`refused` has every refused comparison of the first and the newest round, with reasons."""
    work = worked_out(before("dp@idle: 72, coolant@idle: 24 C"), after(f"dp@idle: 15, {HOT}"))
    (refused,) = tell(work).refused
    assert refused.slot == "dp@idle"
    assert (refused.from_round, refused.to_round) == ("arrival", "after-work")
    assert refused.why == ("cold-before",)


def test_one_round_refuses_nothing() -> None:
    """A case of one round has nothing to compare, and the verdict is silent about it."""
    assert tell(worked_out(before(FULL))).refused == ()


def test_the_cause_remains() -> None:
    """A van on trips of 5 km that was cleaned still has its cause, and oil is to be read."""
    work = worked_out(
        before("trip-length: 5 km, town-share: 95 %"),
        before(FULL, "09:05"),
        after(CLEAN),
    )
    remains = what_remains(work, tell(work), "after-work")
    assert "short-trip-duty" in {cause.id for cause in remains.causes}
    assert not remains.oil_read
