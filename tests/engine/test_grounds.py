"""Grounds and waiting on small cases."""

from __future__ import annotations

from random import Random

import pytest

from sootsayer.engine.conditions import (
    NOT_FITTED,
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Grade,
    Known,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Rule,
    Slot,
    Value,
)
from sootsayer.engine.grounds import Grounds, Waits, awaits, minimal_grounds
from sootsayer.engine.program import compile_program
from tests.engine.worlds import LIMITS, Taste, case, given, world


def true(name: str) -> OneOf:
    return OneOf(name, (True,))


A, B, C = true("a"), true("b"), true("c")


def grounds(condition: Condition, **values: Value) -> tuple[str, ...]:
    return minimal_grounds(compile_program([Rule("r", condition)]), values, {}, "r")


def waits(condition: Condition, **values: Value) -> tuple[str, ...]:
    return awaits(compile_program([Rule("r", condition)]), values, {}, "r")


def test_of_two_supports_the_later_name_stays() -> None:
    """Names are left out in sorted order, so of two sufficient facts the later one is kept."""
    assert grounds(Any((B, A)), a=True, b=True) == ("b",)
    assert grounds(All((B, A)), a=True, b=True) == ("a", "b")
    assert grounds(All((B, A)), a=False, b=False) == ("b",)
    assert grounds(AtLeast(2, (A, B, C)), a=True, b=True, c=True) == ("b", "c")


def test_unknown_has_no_grounds() -> None:
    """An unknown slot has no grounds, and a condition that always holds needs none."""
    assert grounds(All((A, B)), a=True) == ()
    assert grounds(All(())) == ()


def test_not_fitted_is_a_ground_where_it_decides() -> None:
    """What is not fitted is an answer, and a ground where absence counts as false."""
    program = compile_program([Rule("r", A, absent_is_false=True)])
    assert minimal_grounds(program, {"a": NOT_FITTED}, {}, "r") == ("a",)


@pytest.mark.parametrize("few", [0, 10])
def test_one_side_not_fitted_decides_a_comparison_of_two(
    few: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where absence counts as false, one side that is not fitted suffices, also within a sum; of
    two the later name stays. Fitted sides are needed both."""
    monkeypatch.setattr("sootsayer.engine.grounds.FEW", few)
    line = Linear(Slot("b"), Const(2), Slot("c"))
    program = compile_program(
        [
            Rule("r", Compare("a", Op.ABOVE, (Slot("b"),)), absent_is_false=True),
            Rule("s", Compare("a", Op.ABOVE, (line,)), absent_is_false=True),
        ]
    )
    x = NOT_FITTED
    for a, b, c, r, s in (
        (x, 1.0, 1.0, ("a",), ("a",)),
        (1.0, x, 1.0, ("b",), ("b",)),
        (x, x, 1.0, ("b",), ("b",)),
        (1.0, x, x, ("b",), ("c",)),
        (1.0, 2.0, x, ("a", "b"), ("c",)),
        (1.0, 2.0, 3.0, ("a", "b"), ("a", "b", "c")),
        (x, None, 3.0, ("a",), ("a",)),
    ):
        values: dict[str, Value] = {"a": a, "b": b, "c": c}
        grounds = Grounds(program, values, {})
        assert (grounds.of("r"), grounds.of("s")) == (r, s), values
        for name, found in (("r", r), ("s", s)):
            assert minimal_grounds(program, values, {}, name) == found


def test_known_rests_on_what_is_known() -> None:
    """`known` that holds rests on its slot; one that fails rests on nothing."""
    assert grounds(Known("a"), a=1.0) == ("a",)
    assert grounds(Not(Known("a"))) == ()
    assert grounds(Any((Not(Known("a")), B)), a=1.0, b=True) == ("b",)


def test_grounds_reach_through_derived_slots_and_stop_at_given_ones() -> None:
    """Grounds are inputs, or a derived slot whose value was given."""
    program = compile_program([Rule("m", A), Rule("r", Any((true("m"), B)))])
    assert minimal_grounds(program, {"a": True}, {}, "r") == ("a",)
    assert minimal_grounds(program, {"a": False, "m": True, "b": False}, {}, "r") == ("m",)
    assert minimal_grounds(program, {"a": True, "m": None, "b": True}, {}, "r") == ("b",)
    assert minimal_grounds(program, {"m": True}, {}, "m") == ("m",)
    assert minimal_grounds(program, {"a": True}, {}, "a") == ("a",)


def test_grounds_of_a_grade_and_of_a_cycle() -> None:
    """A level rests on its number and the cuts it met; a cycle on what feeds or starves it."""
    grade = Grade("g", "x", ("lo", "hi"), (Slot("cut"),))
    ring = [Rule("p", Any((true("q"), A))), Rule("q", Any((true("p"), B)))]
    program = compile_program([grade, *ring])
    values: dict[str, Value] = {"x": 2.0, "cut": 1.0, "a": True, "b": True}
    assert minimal_grounds(program, values, {}, "g") == ("cut", "x")
    assert minimal_grounds(program, values, {}, "p") == ("b",)
    assert minimal_grounds(program, {"a": False, "b": False}, {}, "p") == ("a", "b")


def test_waiting_goes_only_through_what_is_undecided() -> None:
    """A decided part waits for nothing, and a decided slot neither."""
    assert waits(All((A, Any((B, C)))), a=True) == ("b", "c")
    assert waits(All((A, Any((B, C)))), b=True) == ("a",)
    assert waits(All((A, B)), a=False) == ()
    assert waits(Not(AtLeast(2, (A, B, C))), a=True, b=False) == ("c",)


def test_waiting_for_numbers_and_cuts() -> None:
    """A comparison waits for its slot and its operands, each half for its own."""
    line = Linear(Slot("a"), Const(2), Slot("b"))
    assert waits(Compare("x", Op.ABOVE, (line,)), a=1.0) == ("b", "x")
    assert waits(Compare("x", Op.OUTSIDE, (Const(0), Slot("b"))), x=1.0) == ("b",)
    program = compile_program([Grade("g", "x", ("l", "m", "h"), (Slot("a"), Slot("b")))])
    assert awaits(program, {}, {}, "g") == ("a", "b", "x")
    assert awaits(program, {"x": 2.0, "a": 1.0}, {}, "g") == ("b",)
    assert awaits(program, {"x": 2.0, "b": 1.0}, {}, "g") == ("a",)


@pytest.mark.parametrize("stuck", [NOT_FITTED, "word"])
def test_nothing_is_awaited_where_nothing_can_help(stuck: Value) -> None:
    """What compares with a thing not fitted, or with a word, is never going to be known."""
    against = Compare("x", Op.ABOVE, (Slot("y"),))
    assert waits(against, x=stuck) == ()
    assert waits(against, y=stuck) == ()
    assert waits(Any((against, A)), x=stuck) == ("a",)
    assert waits(AtLeast(3, (against, against, against, against, against, A)), x=stuck) == ()
    program = compile_program([Grade("g", "x", ("l", "h"), (Slot("y"),))])
    assert awaits(program, {"y": stuck}, {}, "g") == ()


def test_waiting_and_applies() -> None:
    """What does not apply waits for nothing; what may apply waits for that too."""
    program = compile_program([Rule("r", A, applies=B)])
    assert awaits(program, {"b": False}, {}, "r") == ()
    assert awaits(program, {"b": True}, {}, "r") == ("a",)
    assert awaits(program, {"a": True}, {}, "r") == ("b",)
    assert awaits(program, {}, {}, "r") == ("a", "b")
    assert awaits(program, {"b": NOT_FITTED}, {}, "r") == ()
    assert awaits(program, {"a": NOT_FITTED}, {}, "r") == ()


def test_waiting_in_a_cycle_and_at_a_given_slot() -> None:
    """Members of a cycle wait for what feeds any of them; a slot given as unknown is named."""
    ring = [Rule("p", Any((true("q"), A))), Rule("q", Any((true("p"), B)))]
    program = compile_program(ring)
    assert awaits(program, {}, {}, "p") == ("a", "b")
    assert awaits(program, {"a": False}, {}, "q") == ("b",)
    assert awaits(program, {"q": None, "a": False}, {}, "p") == ("q",)


def test_unknown_names_and_missing_limits_are_key_errors() -> None:
    """A name that the program does not know is a mistake of the caller."""
    program = compile_program([Rule("r", Compare("x", Op.ABOVE, (Limit("top"),)))])
    for ask in (minimal_grounds, awaits):
        with pytest.raises(KeyError):
            ask(program, {}, {"top": 1.0}, "nobody")
        with pytest.raises(KeyError):
            ask(program, {}, {}, "r")


TASTES = (
    Taste(rules=12, cycles=False),
    Taste(rules=12, cycles=False, known_when=True, known_gate=True),
    Taste(rules=40, gates=False, odd=False, cycles=False),
    Taste(rules=10),
)


@pytest.mark.parametrize("taste", TASTES)
def test_many_slots_of_one_case_are_answered_as_each_by_itself(
    taste: Taste, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`Grounds` and `Waits` share work, and leave nothing out to see what happens: the answers are
    those of `minimal_grounds` and `awaits`, in any order and with slots given, told as tables or
    as least sets, and where there are too many of these to be told."""
    decided = open_ = wide = 0
    for number in range(60):
        r = Random(f"many {number}")
        monkeypatch.setattr("sootsayer.engine.grounds.FEW", r.choice([0, 10]))
        monkeypatch.setattr("sootsayer.engine.sufficient.MOST", r.choice([1, 2, 12]))
        made = world(r, taste)
        program = compile_program(made.definitions)
        values = case(r, taste, r.choice([0.4, 0.8, 1.0]))
        values |= given(r, made) if number % 3 == 0 else {}
        grounds, waits = Grounds(program, values, LIMITS), Waits(program, values, LIMITS)
        names = [name for name in program.order if name not in values]
        r.shuffle(names)
        for name in names:
            alone = minimal_grounds(program, values, LIMITS, name)
            assert grounds.of(name) == alone
            assert waits.of(name) == awaits(program, values, LIMITS, name)
            decided += len(alone) > 1
            open_ += bool(waits.of(name))
        wide += len(grounds._wide)
    assert min(decided, open_) > 10, "too few to see anything"
    assert wide or taste.cycles, "never too many ways to tell"
