"""Loading only what a rule depends on changes nothing that the rule says."""

from __future__ import annotations

from math import nan

import pytest

from sootsayer.engine.conditions import All, Compare, Const, Known, Limit, OneOf, Op, Rule, Value
from sootsayer.engine.program import Program, compile_program

VALUES: dict[str, Value] = {"a": 3.0, "b": "yes", "c": 2.0, "mid": None, "other": 1.0}
LIMITS = {"most": 5.0, "least": 1.0}


@pytest.fixture
def program() -> Program:
    return compile_program(
        [
            Rule("low", Compare("a", Op.BELOW, (Limit("most"),))),
            Rule("mid", All((OneOf("low", (True,)), OneOf("b", ("yes",))))),
            Rule("top", All((OneOf("mid", (True,)), Known("c")))),
            Rule("aside", Compare("c", Op.ABOVE, (Const(1.0),))),
        ]
    )


@pytest.mark.parametrize("name", ["low", "mid", "top", "aside"])
@pytest.mark.parametrize(
    "changed", [{}, {"a": nan}, {"mid": True}, {"mid": nan}, {"low": False}, {"c": None}]
)
def test_the_part_says_what_the_whole_says(
    program: Program, name: str, changed: dict[str, Value]
) -> None:
    """For each rule alone: the same as in a run of all, with values given, unknown or NaN."""
    for left_out in ("", "mid"):
        values = {k: v for k, v in {**VALUES, **changed}.items() if k != left_out}
        whole = program.run(values, LIMITS)
        assert program.run(values, LIMITS, only=(name,))[name] == whole[name]


def test_limits_are_looked_at_each_time(program: Program) -> None:
    """The numbers of the last run are used again only where they are the same, and a missing
    limit or one that is no number is refused however little is asked for."""
    values = {"a": 3.0}
    limits = dict(LIMITS)
    assert program.run(values, limits, only=("low",))["low"] is True
    limits["most"] = 2.0
    assert program.run(values, limits, only=("low",))["low"] is False
    assert program.run(values, LIMITS)["low"] is True
    with pytest.raises(KeyError):
        program.run(values, {"least": 1.0}, only=("aside",))
    with pytest.raises(ValueError, match="not a number"):
        program.run(values, {"most": nan}, only=("aside",))
    with pytest.raises(KeyError):
        program.run(values, LIMITS, only=("nothing",))
