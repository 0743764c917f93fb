"""The choice among work: what comes first, what waits, and which look is worth its minutes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sootsayer.advice import plan_choice
from sootsayer.advice.plan_choice import Choice, Method, choose
from sootsayer.advice.plan_problem import Candidate, Look, Problem, Work

FILTER = frozenset({"soot", "ash"})


def candidates(**shares: float) -> tuple[Candidate, ...]:
    """Sets of faults, their names joined by `_`, with their probabilities."""
    return tuple(Candidate(frozenset(name.split("_")), p) for name, p in shares.items())


def problem(
    of: tuple[Candidate, ...], work: tuple[Work, ...], looks: tuple[Look, ...] = ()
) -> Problem:
    """A problem in which ending unrepaired is dear enough for everything to be tried."""
    return Problem(of, work, 100_000.0, looks)


def expected(found: Choice, work: str) -> float:
    return next(each.cost for each in found.begun if each.work == work)


def test_two_remedies_for_one_fault() -> None:
    """A can at 35 that works half the time comes before a clean at 350: 35 + half of 350. The
    other way round it would be 350 + 35 for the one in ten that the clean leaves."""
    can, clean = Work("can", 35.0, {"soot": 0.5}), Work("clean", 350.0, {"soot": 0.9})
    found = choose(problem(candidates(soot=1.0), (can, clean)))
    assert found.order == ("can", "clean")
    assert expected(found, "can") == pytest.approx(35 + 0.5 * 350)
    assert expected(found, "clean") == pytest.approx(350 + 0.1 * 35)
    assert found.begun[0].left == pytest.approx(0.05)


def test_a_cheap_can_that_hardly_works_comes_last() -> None:
    """Price alone does not decide: at one in twenty the can is not worth its 35 first."""
    can, clean = Work("can", 35.0, {"soot": 0.05}), Work("clean", 350.0, {"soot": 0.9})
    found = choose(problem(candidates(soot=1.0), (can, clean)))
    assert found.order == ("clean", "can")


def test_one_remedy_for_several_faults() -> None:
    """Soot or ash, nobody knows: one clean that does for both beats two pieces of work."""
    both = Work("both", 100.0, {"soot": 0.9, "ash": 0.9})
    one, other = Work("one", 70.0, {"soot": 0.9}), Work("other", 70.0, {"ash": 0.9})
    found = choose(problem(candidates(soot=0.5, ash=0.5), (both, one, other)))
    assert found.order[0] == "both"
    assert found.begun[0].cures == pytest.approx(0.9)


def test_both_faults_at_once_need_both_cured() -> None:
    """Of a set of two faults the work alone repairs for good only when it cures both."""
    both = Work("both", 100.0, {"soot": 0.8, "ash": 0.5})
    found = choose(problem(candidates(soot_ash=1.0), (both,)))
    assert found.begun[0].cures == pytest.approx(0.4)
    assert found.begun[0].left == pytest.approx(0.6)


def test_work_that_hides_a_fault_waits() -> None:
    """Zeroing comes cheapest, but would cover up a hose that is likely: the hose comes first, and
    where it fails to be the fault, the zero after it."""
    zero = Work("zero", 5.0, {"offset": 0.9}, hides=frozenset({"hose"}))
    hose = Work("hose", 50.0, {"hose": 0.97})
    found = choose(problem(candidates(offset=0.7, hose=0.3), (zero, hose)))
    assert found.order == ("hose", "zero")
    assert {each.work for each in found.begun} == {"hose"}


def test_work_that_hides_an_unlikely_fault_may_come_first() -> None:
    """At one in fifty the hose holds nothing up."""
    zero = Work("zero", 5.0, {"offset": 0.9}, hides=frozenset({"hose"}))
    hose = Work("hose", 50.0, {"hose": 0.97})
    found = choose(problem(candidates(offset=0.98, hose=0.02), (zero, hose)))
    assert found.order[0] == "zero"


def test_the_cause_is_mended_before_work_that_needs_it_mended() -> None:
    """Burning does nothing while the injector over-fuels: the injector first, though it is dear;
    where the injector is only a faint chance, the burn first."""
    burn = Work("burn", 60.0, {"soot": 0.9}, needs=frozenset({"injector"}))
    mend = Work("mend", 300.0, {"injector": 0.95})
    likely = problem(candidates(soot_injector=0.9, soot=0.1), (burn, mend))
    assert choose(likely).order[:2] == ("mend", "burn")
    faint = problem(candidates(soot_injector=0.05, soot=0.95), (burn, mend))
    assert choose(faint).order[0] == "burn"


def test_a_burn_done_in_vain_may_be_done_again_after_the_mending() -> None:
    """Tried while the cause was there it proves nothing: nothing is left unrepaired for good."""
    burn = Work("burn", 10.0, {"soot": 1.0}, needs=frozenset({"injector"}))
    mend = Work("mend", 300.0, {"injector": 1.0})
    found = choose(problem(candidates(soot_injector=0.3, soot=0.7), (burn, mend)))
    assert found.order == ("burn", "mend", "burn")
    assert found.begun[0].often["burn"] == pytest.approx(1.3)
    assert found.begun[0].left == pytest.approx(0.0, abs=1e-9)


def test_what_is_seen_afterwards_saves_work() -> None:
    """Once the readings show a filter that is well, no more is done to it; only the cause is."""
    clean = Work("clean", 100.0, {"soot": 0.6}, sees=(FILTER,))
    new = Work("new", 900.0, {"soot": 0.95, "ash": 0.95}, sees=(FILTER,))
    talk = Work("talk", 5.0, {"trips": 0.4})
    found = choose(problem(candidates(soot_trips=1.0), (clean, new, talk)))
    assert found.method is Method.EXACT
    assert found.begun[0].often["new"] == pytest.approx(0.4)
    blind = replace(clean, sees=()), replace(new, sees=()), talk
    unseen = choose(problem(candidates(soot_trips=1.0), blind))
    assert unseen.begun[0].often["new"] > 0.6


def test_a_look_that_would_change_the_order_says_what_it_saves() -> None:
    """Ten minutes at the hoses, with an answer that never lies: without it the sensor first, 200
    + 0.4 x 260 = 304; with it 10 + 0.6 x 200 + 0.4 x 260 = 234. It saves 70."""
    sensor, hose = Work("sensor", 200.0, {"stuck": 1.0}), Work("hose", 260.0, {"leak": 1.0})
    look = Look("hoses", 10.0, ((1.0, 0.0), (0.0, 1.0)))
    found = choose(problem(candidates(stuck=0.6, leak=0.4), (sensor, hose), (look,)))
    (worth,) = found.looks
    assert worth.saves == pytest.approx(304 - 234)
    assert worth.changes == ("hose",)


def test_a_look_that_changes_nothing_is_not_named() -> None:
    """What says the same of every candidate, or costs more than it saves, is no move."""
    sensor, hose = Work("sensor", 20.0, {"stuck": 1.0}), Work("hose", 26.0, {"leak": 1.0})
    idle = Look("idle", 0.0, ((0.5, 0.5), (0.5, 0.5)))
    dear = Look("dear", 100.0, ((1.0, 0.0), (0.0, 1.0)))
    found = choose(problem(candidates(stuck=0.6, leak=0.4), (sensor, hose), (idle, dear)))
    assert found.looks == ()


def test_work_of_no_use_is_not_in_the_plan() -> None:
    """What cures nothing that may be wrong is not done, however cheap."""
    found = choose(
        problem(
            candidates(soot=1.0), (Work("clean", 9.0, {"soot": 0.5}), Work("tap", 0.0, {"x": 1.0}))
        )
    )
    assert found.order == ("clean",)


def test_too_much_to_weigh_is_called_heuristic(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the states run out the plan is still made, and not called exact."""
    work = tuple(
        Work(f"w{n}", 10.0 + n, {"soot": 0.5, "ash": 0.3}, sees=(FILTER,)) for n in range(4)
    )
    some = problem(candidates(soot=0.5, ash=0.3, soot_ash=0.2), work)
    assert choose(some).method is Method.EXACT
    monkeypatch.setattr(plan_choice, "BUDGET", 3)
    found = choose(some)
    assert found.method is Method.HEURISTIC
    assert len(found.order) == 4


def test_a_faint_chance_is_not_worth_its_price() -> None:
    """Where it costs 1,000 to end unrepaired, 400 are not spent on one chance in ten; at 5,000
    they are, and an order is never cheap because it stops early."""
    clean, gamble = Work("clean", 100.0, {"soot": 0.9}), Work("gamble", 400.0, {"soot": 0.1})
    poor = choose(Problem(candidates(soot=1.0), (clean, gamble), 1000.0))
    assert poor.order == ("clean",)
    assert poor.begun[0].weighed == pytest.approx(100 + 0.1 * 1000)
    rich = choose(Problem(candidates(soot=1.0), (clean, gamble), 5000.0))
    assert rich.order == ("clean", "gamble")


@pytest.mark.parametrize(
    ("broken", "complaint"),
    [
        ({"candidates": candidates(soot=0.5)}, "do not add to 1"),
        ({"candidates": ()}, "at least one"),
        ({"candidates": (Candidate(frozenset(), 1.0),)}, "set of faults"),
        ({"work": (Work("a", -1.0, {"soot": 0.5}),)}, "no cost"),
        ({"work": (Work("a", 1.0, {"soot": 1.5}),)}, "not from 0 to 1"),
        ({"work": (Work("a", 1.0, {"soot": 0.5}),) * 2}, "one id"),
        ({"looks": (Look("l", 1.0, ((0.5,), (0.2,))),)}, "do not add to 1"),
        ({"looks": (Look("l", 1.0, ((0.5, 0.5),)),)}, "one share for each"),
        ({"unrepaired": float("nan")}, "no cost"),
    ],
)
def test_a_problem_that_means_nothing_is_refused(broken: dict[str, object], complaint: str) -> None:
    """Chances above one, negative costs and shares that do not add up raise ValueError."""
    whole = {"candidates": candidates(soot=1.0), "work": (), "looks": (), "unrepaired": 1.0}
    with pytest.raises(ValueError, match=complaint):
        Problem(**{**whole, **broken})  # type: ignore[arg-type]
