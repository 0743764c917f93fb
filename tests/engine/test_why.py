"""Why and why not on small cases."""

from __future__ import annotations

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
from sootsayer.engine.program import compile_program
from sootsayer.engine.why import Absence, Explanation, Kind, Seen, explain, failing, supporting


def true(name: str) -> OneOf:
    return OneOf(name, (True,))


A, B, C = true("a"), true("b"), true("c")


def why(condition: Condition, **values: Value) -> Explanation:
    return explain(compile_program([Rule("r", condition)]), values, {"top": 5.0}, "r")


def slots(leaves: tuple[Explanation, ...]) -> list[str]:
    return [leaf.seen.slot for leaf in leaves if leaf.seen is not None]


def test_a_failed_test_tells_the_value_it_saw_and_the_numbers_it_wanted() -> None:
    """The failed comparison carries the value, the limit's name and number, and its operator."""
    line = Linear(Const(2), Slot("y"), Limit("top"))
    part = Compare("x", Op.BETWEEN, (Limit("top"), line))
    (leaf,) = failing(why(part, x=3.0, y=1.0))
    assert leaf.kind is Kind.COMPARE
    assert leaf.part is part
    assert leaf.truth is False
    assert leaf.seen == Seen("x", 3.0, None, False)
    assert [found.number for found in leaf.operands] == [5.0, 7.0]
    assert [found.limits for found in leaf.operands] == [("top",), ("top",)]
    assert leaf.operands[1].slots == (Seen("y", 1.0, None, False),)


def test_absence_is_told_apart() -> None:
    """Missing, not fitted and the wrong kind of value are three different answers."""
    part = Compare("x", Op.ABOVE, (Const(1),))
    wanted = {None: Absence.MISSING, NOT_FITTED: Absence.NOT_FITTED, "w": Absence.WRONG_KIND}
    for value, absence in wanted.items():
        (leaf,) = failing(why(part, x=value))
        assert leaf.truth is None
        assert leaf.seen == Seen("x", value, absence, False)
    (leaf,) = failing(why(A, a="yes"))
    assert leaf.seen == Seen("a", "yes", Absence.WRONG_KIND, False)


def test_only_the_parts_that_decide_are_named() -> None:
    """All fails by its false parts and holds by every part; any the other way round."""
    assert slots(failing(why(All((A, B, C)), a=True, b=False))) == ["b"]
    assert slots(failing(why(All((A, B, C)), a=True))) == ["b", "c"]
    assert slots(supporting(why(All((A, B)), a=True, b=True))) == ["a", "b"]
    assert slots(supporting(why(Any((A, B, C)), a=True, b=False))) == ["a"]
    assert slots(failing(why(Any((A, B)), a=False, b=False))) == ["a", "b"]
    assert slots(failing(why(Any((A, B)), a=False))) == ["b"]
    assert slots(failing(why(AtLeast(2, (A, B, C)), a=True, b=False, c=False))) == ["b", "c"]
    assert supporting(why(A, a=False)) == ()
    assert failing(why(A, a=True)) == ()


def test_not_turns_the_question_round() -> None:
    """`not` fails by what makes its part true, and holds by what makes it false."""
    assert slots(failing(why(Not(All((A, B))), a=True, b=True))) == ["a", "b"]
    assert slots(supporting(why(Not(All((A, B))), a=True, b=False))) == ["b"]
    assert slots(failing(why(Not(Known("a")), a=1.0))) == ["a"]


def test_applies_is_named_when_it_stands_in_the_way() -> None:
    """A rule that does not apply fails by its `applies`; one that may fails by both."""
    program = compile_program([Rule("r", A, applies=B)])

    def found(**values: Value) -> Explanation:
        return explain(program, values, {}, "r")

    assert slots(failing(found(a=True, b=False))) == ["b"]
    assert slots(failing(found())) == ["b", "a"]
    assert slots(failing(found(b=True, a=False))) == ["a"]
    assert slots(supporting(found(b=True, a=True))) == ["b", "a"]
    gate = found(b=NOT_FITTED).applies
    assert gate is not None
    assert gate.truth is False


def test_a_derived_slot_is_shown_and_not_expanded() -> None:
    """A test of a derived slot tells its value and that it can be asked about in turn."""
    program = compile_program(
        [Rule("m", A), Rule("r", OneOf("m", (True,))), Grade("g", "x", ("l", "h"), (Limit("top"),))]
    )
    root = explain(program, {"a": False}, {"top": 5.0}, "r")
    (leaf,) = failing(root)
    assert leaf.seen == Seen("m", False, None, True)
    assert leaf.children == ()
    grade = explain(program, {"x": 5.0}, {"top": 5.0}, "g")
    assert (grade.kind, grade.value, grade.truth) == (Kind.GRADE, "h", True)
    assert grade.seen == Seen("x", 5.0, None, False)
    assert [(cut.number, cut.limits) for cut in grade.operands] == [(5.0, ("top",))]
    assert slots(supporting(grade)) == ["x"]
    given = explain(program, {"m": None, "a": True}, {"top": 5.0}, "m")
    assert given.kind is Kind.VALUE
    assert given.seen == Seen("m", None, Absence.MISSING, True)
    assert explain(program, {"a": True}, {"top": 5.0}, "a").value is True


def test_a_condition_without_parts_has_no_leaves() -> None:
    """All of nothing holds, and there is no test to show for it."""
    assert supporting(why(All(()))) == ()
    assert failing(why(Any(()))) == ()
