"""The page of a plan says what is permitted, in order, and lets nothing from outside through."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sootsayer.advice.work_state import WorkState
from sootsayer.console.plan_numbers import between, rounded
from sootsayer.console.plan_page import plan_page
from sootsayer.console.screen import drawn
from sootsayer.judgement.plan_said import Range
from sootsayer.judgement.verdict import Verdict
from tests.console.plans import ALL, drawn_from


def page_of(name: str, *, more: bool = False) -> tuple[Verdict, str]:
    verdict, names = drawn_from(ALL[name])
    return verdict, " ".join(drawn(plan_page(verdict, names, more=more)).split())


@pytest.mark.parametrize("name", ALL)
def test_every_caution_of_planned_work_is_there_whole(name: str) -> None:
    """With --more, of each piece of work in the order: its own, its actions', and its steps'."""
    verdict, text = page_of(name, more=True)
    assert verdict.plan is not None
    by_id = {each.remedy: each for each in verdict.plan.remedies}
    for remedy in verdict.plan.order:
        how = by_id[remedy].how
        assert how is not None
        cautions = [each.caution for each in how.cautions]
        cautions += [step.caution for step in how.steps]
        assert [caution for caution in cautions if caution not in text] == []
    for look in verdict.plan.looks:
        assert look.caution in text


@pytest.mark.parametrize("name", ALL)
def test_how_forbidden_work_is_done_is_never_told(name: str) -> None:
    """Neither what it does nor a step of it stands on the page, with --more or without."""
    hidden = {
        "burn-free": ("Run a regeneration in the yard", "Look underneath"),
        "fluid": ("Put it in",),
    }
    for more in (False, True):
        verdict, text = page_of(name, more=more)
        assert verdict.plan is not None
        for each in verdict.plan.remedies:
            if each.state is not WorkState.PERMITTED:
                assert not [t for t in hidden.get(each.remedy, ()) if t in text], each.remedy


def test_the_wish_to_remove_is_declined_with_the_lawful_way() -> None:
    """In one sentence, with what may be done instead and what that takes."""
    _, text = page_of("wish-to-remove")
    assert "That is not done here" in text
    assert "The lawful way: Talk about trips: 5 EUR" in text


def test_a_case_not_begun_is_not_called_well() -> None:
    """With nothing read, no page says that nothing is wrong."""
    for name in ("nothing-entered", "healthy"):
        verdict, text = page_of(name)
        assert verdict.plan is not None
        assert verdict.plan.nothing > 0.5
        assert ("That nothing is wrong" in text) == verdict.filter_well.shown
    assert "calls for no work yet" in page_of("nothing-entered")[1]


def test_rechecks_have_date_and_distance() -> None:
    """A month after 14 March 2031, or after 400 km."""
    _, text = page_of("all-clear")
    assert "Look again after 50 km." in text
    assert "Look again after 400 km, or by 2031-04-13, whichever comes first." in text


def test_unknown_prices_are_said_to_be_unknown() -> None:
    """By chance and time, because of what, and where prices go."""
    _, text = page_of("not-yet-clear")
    assert "by chance and time, because these prices are not known: the labour rate." in text
    assert "--new-shop" in text
    assert "EUR" not in text


def test_the_word_heuristic_stands_where_it_is_one() -> None:
    """An order that is none of the exact ones is called heuristic on the page."""
    from sootsayer.advice.plan_choice import Method

    verdict, names = drawn_from(ALL["all-clear"])
    assert verdict.plan is not None
    guessed = replace(verdict, plan=replace(verdict.plan, method=Method.HEURISTIC))
    assert "heuristic" in drawn(plan_page(guessed, names))
    assert "heuristic" not in drawn(plan_page(verdict, names))


def test_nothing_from_outside_reaches_the_screen() -> None:
    """Escapes, markup and direction marks in a pack's texts are made visible."""
    verdict, names = drawn_from(ALL["all-clear"])
    assert verdict.plan is not None
    nasty = "x\x1b[31m[red]\u202e{case}"
    remedies = tuple(
        replace(
            each,
            label=nasty,
            then=(nasty,),
            how=None
            if each.how is None
            else replace(each.how, does=nasty, stop_when=(nasty,), tell_the_customer=nasty),
        )
        for each in verdict.plan.remedies
    )
    text = drawn(
        plan_page(replace(verdict, plan=replace(verdict.plan, remedies=remedies)), names, more=True)
    )
    assert "\x1b" not in text
    assert "\u202e" not in text
    assert "[red]" in text
    assert "{case}" in text


@pytest.mark.parametrize(
    ("ends", "text"),
    [
        (Range(40.0, 40.2), "40 EUR"),
        (Range(85.0, 155.0), "85 to 155 EUR"),
        (Range(1234.0, 5678.0), "1,230 to 5,680 EUR"),
        (Range(200.0, None), "200 EUR or more"),
    ],
)
def test_ranges_are_said_as_ranges(ends: Range, text: str) -> None:
    """Both ends, no more than three figures, and an open end open."""
    assert between(ends, "EUR") == text


def test_rounding_never_makes_less_than_nothing() -> None:
    """Zero is zero, and a thousand keeps its comma."""
    assert (rounded(0.0), rounded(999.6), rounded(1000.0)) == ("0", "1,000", "1,000")
