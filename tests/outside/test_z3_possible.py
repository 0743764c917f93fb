"""Whether rules can be true, alone or together: our search against z3 (de Moura & Bjorner 2008)."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
import z3

from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
)
from sootsayer.engine.goals import Goals
from sootsayer.engine.possible import Answer, Range, possible
from sootsayer.engine.program import compile_program

PAIRS = 600
NUMBERS = {"a": (-5.0, 20.0), "b": (0.0, 10.0), "c": (-3.0, 3.0)}
WORDS = {"w": ("low", "mid", "top"), "x": ("one", "two"), "yes": (True, False)}
LIMITS = {"most": 4.0, "least": -1.0}
RANGES = {
    **{slot: Range(low=low, high=high) for slot, (low, high) in NUMBERS.items()},
    **{slot: Range(words=tuple(words)) for slot, words in WORDS.items()},
}
DERIVED: list[Definition] = [
    Rule("deep", All((Compare("a", Op.ABOVE, (Const(3.0),)), OneOf("yes", (True,))))),
    Grade("grade", "b", ("low", "mid", "high"), (Const(2.0), Limit("most"))),
]


def test_random_pairs_of_rules() -> None:
    """Each of 600 random pairs can be true together exactly where z3 finds a model, and the case
    that we give makes both true in the engine. Each alone can be true and false where z3 says so.
    """
    counted = {Answer.YES: 0, Answer.NO: 0}
    for seed in range(PAIRS):
        chance = Random(seed)
        one, other = (Rule(name, condition(chance, 3)) for name in ("one", "other"))
        definitions = {each.name: each for each in (*DERIVED, one, other)}
        program = compile_program(list(definitions.values()))
        wanted = [
            {"one": True, "other": True}, {"one": True, "other": False},
            {"one": True}, {"one": False},
        ]  # fmt: skip
        for wish in wanted:
            goals = Goals(definitions, LIMITS)
            found = possible([goals.level(name, truth) for name, truth in wish.items()], RANGES)
            expected = by_z3(definitions, wish)
            assert found.answer is (Answer.YES if expected else Answer.NO), (seed, wish)
            counted[found.answer] += 1
            if found.answer is Answer.YES:
                said = program.run(found.case, LIMITS)
                assert {name: said[name] for name in wish} == wish, (seed, wish, found.case)
                assert all(in_range(slot, value) for slot, value in found.case.items()), seed
    assert min(counted.values()) >= 300, counted


def test_a_product_of_readings_is_not_decided() -> None:
    """What is not linear is said to be undecided, never proven."""
    rule = Rule("r", Compare("a", Op.ABOVE, (Linear(Slot("b"), Slot("c"), Const(0.0)),)))
    goals = Goals({"r": rule}, {})
    assert possible([goals.level("r", True)], RANGES).answer is Answer.NOT_DECIDED


@pytest.mark.parametrize("size", [12, 40])
def test_many_choices_end(size: int) -> None:
    """A rule with very many ways ends: decided, or said to be undecided."""
    parts = tuple(Any((OneOf("w", ("low",)), OneOf("x", ("one",)))) for _ in range(size))
    never = All((*parts, OneOf("w", ("mid",)), OneOf("x", ("two",))))
    goals = Goals({"r": Rule("r", never)}, {})
    assert possible([goals.level("r", True)], RANGES).answer is not Answer.YES


def in_range(slot: str, value: object) -> bool:
    if slot in WORDS:
        return value in WORDS[slot]
    low, high = NUMBERS[slot]
    return isinstance(value, float) and low <= value <= high


def condition(chance: Random, depth: int) -> Condition:
    """A random condition over all kinds of tests."""
    if depth == 0 or chance.random() < 0.25:
        return leaf(chance)
    parts = tuple(condition(chance, depth - 1) for _ in range(chance.randint(2, 3)))
    kind = chance.randrange(4)
    if kind == 0:
        return All(parts)
    if kind == 1:
        return Any(parts)
    if kind == 2:
        return Not(parts[0])
    return AtLeast(chance.randint(1, len(parts)), parts)


def leaf(chance: Random) -> Condition:
    kind = chance.random()
    if kind < 0.65:
        op = chance.choice(list(Op))
        count = 2 if op in (Op.BETWEEN, Op.OUTSIDE) else 1
        ends = tuple(operand(chance) for _ in range(count))
        return Compare(chance.choice(list(NUMBERS)), op, ends)
    if kind < 0.85:
        slot = chance.choice(list(WORDS))
        return OneOf(slot, tuple(chance.sample(WORDS[slot], chance.randint(1, 2))))
    if kind < 0.93:
        return OneOf("deep", (chance.random() < 0.5,))
    return OneOf("grade", tuple(chance.sample(("low", "mid", "high"), chance.randint(1, 2))))


def operand(chance: Random) -> Operand:
    kind = chance.random()
    if kind < 0.5:
        return Const(float(chance.randint(-6, 21)))
    if kind < 0.65:
        return Limit(chance.choice(list(LIMITS)))
    if kind < 0.8:
        return Slot(chance.choice(list(NUMBERS)))
    times = Const(chance.choice([-2.0, -1.0, 0.5, 2.0]))
    return Linear(times, Slot(chance.choice(list(NUMBERS))), Const(float(chance.randint(-4, 4))))


def by_z3(definitions: dict[str, Definition], wish: dict[str, bool]) -> bool:
    """Whether z3 finds a model of the same."""
    solver = z3.Solver()
    for slot, (low, high) in NUMBERS.items():
        solver.add(z3.Real(slot) >= low, z3.Real(slot) <= high)
    for slot, words in WORDS.items():
        solver.add(z3.Or([z3.Int(slot) == rank for rank in range(len(words))]))
    for name, truth in wish.items():
        rule = definitions[name]
        assert isinstance(rule, Rule)
        said = formula(definitions, rule.when)
        solver.add(said if truth else z3.Not(said))
    return bool(solver.check() == z3.sat)


def formula(definitions: dict[str, Definition], part: Condition) -> z3.BoolRef:
    if isinstance(part, Not):
        return z3.Not(formula(definitions, part.part))
    if isinstance(part, All | Any | AtLeast):
        inner = [formula(definitions, each) for each in part.parts]
        if isinstance(part, AtLeast):
            return z3.AtLeast(*inner, part.count)
        return z3.And(inner) if isinstance(part, All) else z3.Or(inner)
    if isinstance(part, OneOf) and part.slot in definitions:
        return derived(definitions, part)
    if isinstance(part, OneOf):
        words: tuple[str | bool, ...] = WORDS[part.slot]
        return z3.Or([z3.Int(part.slot) == words.index(value) for value in part.values])
    assert isinstance(part, Compare)
    left, ends = z3.Real(part.slot), [term(each) for each in part.operands]
    return {
        Op.BELOW: left < ends[0],
        Op.AT_MOST: left <= ends[0],
        Op.ABOVE: left > ends[0],
        Op.AT_LEAST: left >= ends[0],
        Op.BETWEEN: z3.And(left >= ends[0], left <= ends[-1]),
        Op.OUTSIDE: z3.Or(left < ends[0], left > ends[-1]),
    }[part.op]


def derived(definitions: dict[str, Definition], test: OneOf) -> z3.BoolRef:
    definition = definitions[test.slot]
    if isinstance(definition, Rule):
        said = formula(definitions, definition.when)
        return z3.Or([said if value else z3.Not(said) for value in test.values])
    value = z3.Real(definition.of)
    cuts = [term(cut) for cut in definition.cuts]
    levels = {
        "low": value < cuts[0],
        "mid": z3.And(value >= cuts[0], value < cuts[1]),
        "high": value >= cuts[1],
    }
    return z3.Or([levels[str(level)] for level in test.values])


def term(operand: Operand) -> z3.ArithRef:
    if isinstance(operand, Const):
        return z3.RealVal(Fraction(operand.value))
    if isinstance(operand, Limit):
        return z3.RealVal(Fraction(LIMITS[operand.name]))
    if isinstance(operand, Slot):
        return z3.Real(operand.name)
    return term(operand.times) * term(operand.of) + term(operand.plus)
