"""Where readings are cut."""

from __future__ import annotations

import pytest

from sootsayer.engine.conditions import (
    All,
    Compare,
    Const,
    Grade,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
    Value,
)
from sootsayer.engine.program import compile_program
from sootsayer.engine.thresholds import thresholds


def cuts(operand: Operand, op: Op = Op.ABOVE, **values: Value) -> dict[str, tuple[float, ...]]:
    program = compile_program([Rule("r", Compare("x", op, (operand,)))])
    return thresholds(program, values, {"top": 5.0}, "r")


def test_constants_limits_and_grades_cut_their_slot() -> None:
    """Every comparison and grade in the cone counts once, sorted; words and others do not."""
    program = compile_program(
        [
            Grade("g", "x", ("l", "m", "h"), (Const(8), Limit("top"))),
            Rule("m", Compare("x", Op.OUTSIDE, (Const(-5), Limit("top")))),
            Rule(
                "r",
                All((Not(OneOf("m", (True,))), OneOf("g", ("l",)), OneOf("w", ("a",)))),
                applies=Compare("y", Op.BELOW, (Const(3),)),
            ),
            Rule("apart", Compare("x", Op.ABOVE, (Const(99),))),
        ]
    )
    found = thresholds(program, {}, {"top": 5.0}, "r")
    assert found == {"x": (-5.0, 5.0, 8.0), "y": (3.0,)}
    assert list(found) == ["x", "y"]
    assert thresholds(program, {"g": None, "m": True}, {"top": 5.0}, "r") == {"y": (3.0,)}
    assert thresholds(program, {"r": True}, {"top": 5.0}, "r") == {}
    with pytest.raises(KeyError):
        thresholds(program, {}, {}, "r")


def test_a_slot_against_a_slot_cuts_both() -> None:
    """Each slot is cut where the other, as it stands, would equal it."""
    assert cuts(Slot("y"), x=4.0, y=3.0) == {"x": (3.0,), "y": (4.0,)}
    assert cuts(Slot("y"), x=4.0) == {"y": (4.0,)}
    assert cuts(Slot("y"), y=3.0) == {"x": (3.0,)}
    assert cuts(Slot("y")) == {}
    assert cuts(Slot("y"), x="word", y=True) == {}


def test_a_line_is_solved_for_the_slot_on_the_right() -> None:
    """x against 2 y + top: y is cut at (x - top) / 2; a factor of zero cuts nothing."""
    line = Linear(Const(2), Slot("y"), Limit("top"))
    assert cuts(line, x=9.0, y=1.0) == {"x": (7.0,), "y": (2.0,)}
    assert cuts(Linear(Const(0), Slot("y"), Limit("top")), x=9.0, y=1.0) == {"x": (5.0,)}
    assert cuts(Linear(Slot("k"), Slot("y"), Const(0)), x=9.0, y=3.0, k=2.0) == {
        "k": (3.0,),
        "x": (6.0,),
        "y": (4.5,),
    }


def test_a_slot_on_both_sides_is_solved_for() -> None:
    """x against 2 x - 6 is cut where both are 6; x against x, or a square, nowhere."""
    assert cuts(Linear(Const(2), Slot("x"), Const(-6)), x=1.0) == {"x": (6.0,)}
    assert cuts(Slot("x"), x=1.0) == {}
    assert cuts(Linear(Slot("y"), Slot("y"), Const(0)), x=4.0) == {}


@pytest.mark.parametrize("op", [Op.BELOW, Op.AT_MOST, Op.ABOVE, Op.AT_LEAST])
def test_the_truth_turns_at_the_cut_and_only_there(op: Op) -> None:
    """Just below and just above each cut the comparison differs; elsewhere it does not."""
    line = Linear(Const(-0.5), Slot("y"), Const(3))
    rule = compile_program([Rule("r", Compare("x", op, (line,)))])
    values: dict[str, Value] = {"x": 1.25, "y": 2.0}
    for slot, (cut,) in thresholds(rule, values, {}, "r").items():
        at = [rule.run(values | {slot: cut + step}, {})["r"] for step in (-9, -1e-6, 1e-6, 9)]
        assert at[0] is at[1] is not at[2]
        assert at[2] is at[3]
