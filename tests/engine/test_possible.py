"""Whether conditions can hold, with facts missing and not fitted: against trying everything."""

from __future__ import annotations

from itertools import product
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
    Known,
    Not,
    OneOf,
    Op,
    Rule,
    Slot,
    Value,
)
from sootsayer.engine.goals import Goals
from sootsayer.engine.possible import Answer, Range, possible
from sootsayer.engine.program import compile_program

NUMBERS: list[Value] = [None, NOT_FITTED, 0.0, 0.5, 1.0, 1.5, 2.0]
EVERY: dict[str, list[Value]] = {
    "n": NUMBERS, "m": NUMBERS, "w": [None, NOT_FITTED, "x", "y"], "b": [None, True, False],
}  # fmt: skip
RANGES = {"n": Range(low=0, high=2), "m": Range(low=0, high=2), "w": Range(("x", "y")),
          "b": Range((True, False))}  # fmt: skip


def condition(chance: Random, depth: int) -> Condition:
    if depth == 0 or chance.random() < 0.3:
        return leaf(chance)
    parts = tuple(condition(chance, depth - 1) for _ in range(2))
    kind = chance.randrange(4)
    if kind == 0:
        return All(parts)
    if kind == 1:
        return Any(parts)
    return Not(parts[0]) if kind == 2 else AtLeast(chance.randint(1, 2), parts)


def leaf(chance: Random) -> Condition:
    kind = chance.randrange(5)
    if kind == 0:
        return Known(chance.choice("nmwb"))
    if kind == 1:
        return OneOf("w", (chance.choice("xy"),))
    if kind == 2:
        return OneOf("b", (chance.random() < 0.5,))
    right = Slot("m") if kind == 3 else Const(float(chance.randint(0, 2)))
    return Compare("n", chance.choice([Op.BELOW, Op.AT_MOST, Op.ABOVE, Op.AT_LEAST]), (right,))


@pytest.mark.parametrize("absent", [False, True])
@pytest.mark.parametrize("wanted", [False, True])
def test_against_trying_everything(absent: bool, wanted: bool) -> None:
    """Of 250 random conditions each can be so exactly where some way of knowing and not knowing
    makes it so, and the case that is given does."""
    seen = set()
    for seed in range(250):
        # `b` is always fitted here: Absent is then no way out for it, as for any signal it may be.
        rule = Rule("r", condition(Random(seed), 3), absent_is_false=absent)
        program = compile_program([rule])
        found = possible([Goals({"r": rule}, {}).level("r", wanted)], RANGES)
        tried = any(
            program.run(dict(zip(EVERY, values, strict=True)), {})["r"] is wanted
            for values in product(*EVERY.values())
        )
        if found.answer is Answer.YES:
            assert program.run(found.case, {})["r"] is wanted, (seed, found.case)
        if tried:
            assert found.answer is Answer.YES, seed
        assert found.answer is not Answer.NOT_DECIDED, seed
        seen.add(found.answer)
    assert Answer.YES in seen


def test_what_has_no_range_is_never_known() -> None:
    """A slot that nobody can read makes nothing true, and is known to be unknown."""
    rule = Rule("r", Compare("z", Op.ABOVE, (Const(0.0),)))
    goals = Goals({"r": rule}, {})
    assert possible([goals.level("r", True)], RANGES).answer is Answer.NO
    assert possible([goals.truth(Known("z"), False)], RANGES).answer is Answer.YES


def test_a_case_names_only_what_it_needs() -> None:
    """Of an alternative one way is enough, and plain numbers beside the threshold are shown."""
    rule = Rule("r", Any((Compare("n", Op.ABOVE, (Const(0.25),)), OneOf("w", ("x",)))))
    found = possible([Goals({"r": rule}, {}).level("r", True)], RANGES)
    assert found.case == {"n": 1.0}
