"""Compiling and running: refusals, values of every kind, cones and given slots."""

from __future__ import annotations

import subprocess
import sys

import pytest

from sootsayer.engine.conditions import (
    NOT_FITTED,
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Definition,
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
from sootsayer.engine.program import NegativeCycle, compile_program

NAN = float("nan")


def true(name: str) -> OneOf:
    return OneOf(name, (True,))


def compared(op: Op, *numbers: float, slot: str = "x") -> Compare:
    return Compare(slot, op, tuple(Const(number) for number in numbers))


def truth(condition: Condition, limits: dict[str, float] | None = None, **values: Value) -> Value:
    return compile_program([Rule("r", condition)]).run(values, limits or {})["r"]


def absent(condition: Condition, **values: Value) -> Value:
    rule = Rule("r", condition, absent_is_false=True)
    return compile_program([rule]).run(values, {})["r"]


@pytest.mark.parametrize(
    ("op", "ends", "yes", "no"),
    [
        (Op.BELOW, (2,), [1.9], [2, 2.1]),
        (Op.AT_MOST, (2,), [1.9, 2], [2.1]),
        (Op.ABOVE, (2,), [2.1], [2, 1.9]),
        (Op.AT_LEAST, (2,), [2.1, 2], [1.9]),
        (Op.BETWEEN, (2, 3), [2, 2.5, 3], [1.9, 3.1]),
        (Op.OUTSIDE, (2, 3), [1.9, 3.1], [2, 2.5, 3]),
    ],
)
def test_each_comparison_at_and_around_its_ends(
    op: Op, ends: tuple[float, ...], yes: list[float], no: list[float]
) -> None:
    """Between holds both ends and outside neither, for floats and whole numbers alike."""
    for value, wanted in [(v, True) for v in yes] + [(v, False) for v in no]:
        assert truth(compared(op, *ends), x=value) is wanted
        assert truth(compared(op, *ends), x=float(value)) is wanted
        assert truth(Not(compared(op, *ends)), x=float(value)) is (not wanted)


@pytest.mark.parametrize("value", [None, "red", True, False, NAN, NOT_FITTED, 10**400])
def test_what_is_no_number_leaves_a_comparison_unknown(value: Value) -> None:
    """A word, a boolean, NaN, a number past all floats and what is not fitted are unknown."""
    for op, ends in ((Op.BELOW, (2,)), (Op.AT_LEAST, (0,)), (Op.OUTSIDE, (0, 1))):
        assert truth(compared(op, *ends), x=value) is None
        assert truth(Not(compared(op, *ends)), x=value) is None
        assert truth(Compare("y", op, (Slot("x"), Slot("x"))[: len(ends)]), x=value, y=1.0) is None
    assert compile_program([Grade("g", "x", ("a", "b"), (Const(0),))]).run({"x": value}, {}) == {
        "g": None
    }


def test_one_known_end_can_decide_a_range() -> None:
    """Between and outside are two tests: with one end unknown the other may still decide."""
    ends = (Slot("low"), Const(3))
    assert truth(Compare("x", Op.BETWEEN, ends), x=4.0) is False
    assert truth(Compare("x", Op.BETWEEN, ends), x=2.0) is None
    assert truth(Compare("x", Op.OUTSIDE, ends), x=4.0) is True
    assert truth(Compare("x", Op.OUTSIDE, ends), x=2.0) is None


def test_not_fitted_is_false_in_applies_and_unknown_elsewhere() -> None:
    """In `applies`, and where absent is false, a test on what is not fitted is false."""
    parts = (
        compared(Op.BELOW, 2),
        OneOf("x", ("a",)),
        true("x"),
        Compare("y", Op.ABOVE, (Slot("x"),)),
    )
    for part in parts:
        assert truth(part, x=NOT_FITTED, y=1.0) is None
        assert absent(part, x=NOT_FITTED, y=1.0) is False
        assert absent(Not(part), x=NOT_FITTED, y=1.0) is True
        gated = compile_program([Rule("r", true("z"), Not(part)), Rule("s", true("z"), part)])
        assert gated.run({"x": NOT_FITTED, "y": 1.0, "z": True}, {}) == {"r": True, "s": None}


def test_one_of_takes_only_the_kinds_it_lists() -> None:
    """A number, or a boolean among words, is unknown; an empty list is false of any word."""
    assert truth(OneOf("x", ("a", "b")), x="b") is True
    assert truth(OneOf("x", ("a", "b")), x="c") is False
    assert truth(OneOf("x", ("a", "b")), x=True) is None
    assert truth(OneOf("x", ("a", "b")), x=1.0) is None
    assert truth(true("x"), x=1.0) is None
    assert truth(true("x"), x="True") is None
    assert truth(OneOf("x", (False,)), x=False) is True
    assert truth(OneOf("x", (True, False)), x=False) is True
    assert truth(OneOf("x", ("a", True)), x=False) is False
    assert truth(OneOf("x", ()), x="a") is False
    assert truth(OneOf("x", ())) is None


def test_known_is_never_unknown() -> None:
    """Known is true of any value, not fitted included, and false of none."""
    assert truth(Known("x")) is False
    assert truth(Not(Known("x"))) is True
    for value in (0.0, False, "a", NOT_FITTED):
        assert truth(Known("x"), x=value) is True
        assert truth(Not(Known("x")), x=value) is False


def test_applies_false_or_unknown_makes_the_slot_unknown() -> None:
    """Only an `applies` that holds lets the condition speak, for rules and grades."""
    program = compile_program(
        [Rule("r", true("x"), true("a")), Grade("g", "n", ("lo", "hi"), (Const(1),), true("a"))]
    )
    for gate, wanted in ((True, (True, "hi")), (False, (None, None)), (None, (None, None))):
        out = program.run({"x": True, "n": 1.0, "a": gate}, {})
        assert (out["r"], out["g"]) == wanted


def test_a_grade_at_a_cut_has_the_upper_level() -> None:
    """A value at a cut belongs above it, with fixed cuts and with limits."""
    levels = ("low", "normal", "high")
    for cuts in ((Const(8), Const(40)), (Limit("a"), Limit("b")), (Const(8), Slot("c"))):
        program = compile_program([Grade("g", "x", levels, cuts)])
        seen = [
            program.run({"x": x, "c": 40.0}, {"a": 8, "b": 40.0})["g"] for x in (7.9, 8, 39.9, 40.0)
        ]
        assert seen == ["low", "normal", "normal", "high"]


def test_an_unknown_cut_matters_only_to_what_reaches_it() -> None:
    """Below the first cut the level is known although the second cut is not."""
    program = compile_program([Grade("g", "x", ("a", "b", "c"), (Const(1), Slot("cut")))])
    assert program.run({"x": 0.0}, {}) == {"g": "a"}
    assert program.run({"x": 2.0}, {}) == {"g": None}


def test_linear_operands_and_limits() -> None:
    """`times` x `of` + `plus`, of constants, limits and slots; unknown if any of them is."""
    right = Linear(Const(2), Slot("y"), Limit("more"))
    program = compile_program([Rule("r", Compare("x", Op.ABOVE, (right,)))])
    assert program.run({"x": 7.1, "y": 3.0}, {"more": 1}) == {"r": True}
    assert program.run({"x": 7.0, "y": 3.0}, {"more": 1}) == {"r": False}
    assert program.run({"x": 7.0}, {"more": 1}) == {"r": None}
    infinite = Linear(Const(0), Const(float("inf")), Const(0))
    assert truth(Compare("x", Op.ABOVE, (infinite,)), x=1.0) is None


def test_a_missing_limit_is_a_key_error_and_nan_is_refused() -> None:
    """Limits always have a number; a missing one is a mistake of the program that calls."""
    program = compile_program([Rule("r", Compare("x", Op.ABOVE, (Limit("top"),)))])
    with pytest.raises(KeyError, match="top"):
        program.run({"x": 1.0}, {})
    with pytest.raises(ValueError, match="not a number"):
        program.run({"x": 1.0}, {"top": NAN})
    with pytest.raises(ValueError, match="not a number"):
        compile_program([Rule("r", compared(Op.ABOVE, NAN))])


@pytest.mark.parametrize(
    "tie",
    [
        Rule("a", Not(true("b"))),
        Rule("a", OneOf("b", (False,))),
        Rule("a", OneOf("b", (True, False))),
        Rule("a", Known("b")),
        Rule("a", compared(Op.ABOVE, 1, slot="b")),
        Rule("a", Compare("x", Op.ABOVE, (Linear(Const(1), Slot("b"), Const(0)),))),
        Rule("a", Not(Not(true("b")))),
        Rule("a", true("x"), applies=true("b")),
        Grade("a", "b", ("lo", "hi"), (Const(1),)),
        Grade("a", "x", ("lo", "hi"), (Slot("b"),)),
        Rule("a", Any((true("b"), AtLeast(1, (All((Not(true("b")),)),))))),
    ],
)
def test_a_cycle_through_anything_but_is_true_is_refused(tie: Definition) -> None:
    """Not, false, known, a number, a grade and `applies` all refuse the cycle, by its names."""
    read = "lo" if isinstance(tie, Grade) else True
    ring: list[Definition] = [tie, Rule("b", true("c")), Rule("c", OneOf("a", (read,)))]
    for order in (ring, ring[::-1]):
        with pytest.raises(NegativeCycle) as caught:
            compile_program(order)
        assert caught.value.cycle == ("a", "b", "c")
    assert compile_program([Rule("a", true("b")), Rule("b", true("a"))]).cyclic


def test_names_defined_twice_and_wrong_counts_are_refused() -> None:
    """Two definitions of a name, and a wrong number of ends or cuts, are value errors."""
    with pytest.raises(ValueError, match="defined twice"):
        compile_program([Rule("a", true("x")), Grade("a", "x", ("lo",), ())])
    with pytest.raises(ValueError, match="operands"):
        compile_program([Rule("a", compared(Op.BETWEEN, 1))])
    with pytest.raises(ValueError, match="cut"):
        compile_program([Grade("a", "x", ("lo", "hi"), ())])


@pytest.mark.parametrize(
    "wrong",
    [
        Rule("a", compared(Op.ABOVE, 1, slot="r")),
        Rule("a", Compare("x", Op.ABOVE, (Slot("g"),))),
        Rule("a", OneOf("r", ("true",))),
        Rule("a", true("g")),
        Rule("a", true("x"), applies=true("g")),
        Grade("a", "g", ("lo", "hi"), (Const(1),)),
    ],
)
def test_the_wrong_kind_of_a_derived_slot_is_refused(wrong: Definition) -> None:
    """A rule is true or false and a grade is a word: other tests of them could never hold."""
    known: list[Definition] = [Rule("r", true("x")), Grade("g", "n", ("lo", "hi"), (Const(1),))]
    with pytest.raises(TypeError, match=r"^a: [rg] is"):
        compile_program([*known, wrong])


def test_order_strata_inputs_and_cones() -> None:
    """What is read comes first, by depth and then by name; inputs are what nobody defines."""
    program = compile_program(
        [Rule("z", true("y")), Rule("y", true("f")), Rule("a", true("g")), Rule("b", true("z"))]
    )
    assert program.order == ("a", "y", "z", "b")
    assert program.strata == (("a", "y"), ("z",), ("b",))
    assert tuple(program.definitions) == program.order
    assert program.inputs == {"f", "g"}
    assert program.reads("b") == {"f"}
    assert program.cone(["z", "g"]) == {"z", "y", "f", "g"}
    with pytest.raises(KeyError):
        program.cone(["nobody"])
    ties = compile_program([Rule("a", true("z")), Rule("z", true("f")), Rule("b", true("f"))])
    assert ties.strata == (("b", "z"), ("a",))
    assert list(program.run({"f": True}, {}, only=["z"]).items()) == [("y", True), ("z", True)]


def test_a_given_derived_slot_is_taken_as_it_is() -> None:
    """Given true, false or unknown, a derived slot is not evaluated, in a cycle neither."""
    program = compile_program([Rule("a", true("x")), Rule("b", true("a"))])
    for value in (True, False, None):
        assert program.run({"x": True, "a": value}, {}) == {"a": value, "b": value}
    ring = compile_program([Rule("a", true("b")), Rule("b", true("a")), Rule("c", true("b"))])
    for value in (True, False, None):
        assert ring.run({"a": value}, {}) == {"a": value, "b": value, "c": value}


def test_a_cycle_that_does_not_apply_is_unknown_and_passes_it_on() -> None:
    """A member whose `applies` does not hold is unknown: possible for others, never support."""
    program = compile_program(
        [Rule("a", Any((true("b"), true("x"))), applies=true("on")), Rule("b", true("a"))]
    )
    assert program.run({"x": True, "on": True}, {}) == {"a": True, "b": True}
    assert program.run({"x": False, "on": True}, {}) == {"a": False, "b": False}
    assert program.run({"x": True, "on": False}, {}) == {"a": None, "b": None}


def test_a_long_chain_needs_no_deep_stack() -> None:
    """Five thousand rules in a row, and as many in a ring, compile and run."""
    names = [f"r{i:04}" for i in range(5000)]
    chain = [Rule(n, true(p)) for n, p in zip(names, ["x", *names], strict=False)]
    assert compile_program(chain).run({"x": True}, {})["r4999"] is True
    ring = [*chain[1:], Rule("r0000", true("r4999"))]
    assert set(compile_program(ring).run({}, {}).values()) == {False}


def test_unread_values_are_ignored() -> None:
    """Values that nothing reads neither matter nor come back."""
    assert compile_program([Rule("a", true("x"))]).run({"x": True, "other": 3.0}, {}) == {"a": True}


def test_importing_the_engine_pulls_in_nothing_heavy() -> None:
    """The engine imports no file access, clock, YAML, drawing or randomness of its own."""
    code = (
        "import sys; before = set(sys.modules);"
        "import sootsayer.engine.why, sootsayer.engine.thresholds, sootsayer.engine.grounds;"
        "print([m for m in ('yaml', 'rich', 'random', 'datetime', 'jsonschema') "
        "if m in sys.modules and m not in before])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
