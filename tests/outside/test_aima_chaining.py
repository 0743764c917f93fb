"""Published checks of chaining: AIMA's Horn clauses and the strong Kleene tables."""

from __future__ import annotations

import itertools

import pytest

from sootsayer.engine.conditions import All, Any, AtLeast, Condition, Not, OneOf, Rule, Truth, Value
from sootsayer.engine.program import NegativeCycle, compile_program


def true(name: str) -> OneOf:
    return OneOf(name, (True,))


def horn(name: str, *bodies: tuple[str, ...]) -> Rule:
    return Rule(name, Any(tuple(All(tuple(map(true, body))) for body in bodies)))


# Russell & Norvig, Artificial Intelligence: A Modern Approach, 3rd ed., figure 7.16.
AIMA = (
    horn("Q", ("P",)),
    horn("P", ("L", "M")),
    horn("M", ("B", "L")),
    horn("L", ("A", "P"), ("A", "B")),
)
AIMA_WITHOUT = (*AIMA[:3], horn("L", ("A", "P")))
FACTS: dict[str, Value] = {"A": True, "B": True}


def test_b9_aima_figure_7_16_least_model() -> None:
    """AIMA (3rd ed.) figure 7.16: with A and B the least model is {A, B, L, M, P, Q}."""
    assert compile_program(AIMA).run(FACTS, {}) == dict.fromkeys("LMPQ", True)


def test_b9_aima_figure_7_16_a_cycle_may_not_support_itself() -> None:
    """AIMA (3rd ed.) figure 7.16 without A and B => L: the least model is {A, B}."""
    assert compile_program(AIMA_WITHOUT).run(FACTS, {}) == dict.fromkeys("LMPQ", False)


def test_b9_an_unknown_premise_leaves_the_cycle_unknown_not_false() -> None:
    """AIMA (3rd ed.) figure 7.16 with B unknown: what hangs on B is unknown."""
    assert compile_program(AIMA).run({"A": True}, {}) == dict.fromkeys("LMPQ")
    assert compile_program(AIMA_WITHOUT).run({"A": True}, {}) == dict.fromkeys("LMPQ", False)


def test_b9_retraction_equals_recomputation() -> None:
    """a -> b, b -> c, c -> b: with the premise a withdrawn nothing is left of b and c."""
    program = compile_program((horn("b", ("a",), ("c",)), horn("c", ("b",))))
    assert program.run({"a": True}, {}) == {"b": True, "c": True}
    assert program.run({"a": False}, {}) == {"b": False, "c": False}
    assert program.run({}, {}) == {"b": None, "c": None}


# Kleene, Introduction to Metamathematics, 1952, section 64: the strong tables (from memory).
T, F, U = True, False, None
AND = {(T, T): T, (T, F): F, (T, U): U, (F, F): F, (F, U): F, (U, U): U}
OR = {(T, T): T, (T, F): T, (T, U): T, (F, F): F, (F, U): U, (U, U): U}
NOT = {T: F, F: T, U: U}


def truth(condition: Condition, **values: Truth) -> Value:
    return compile_program([Rule("r", condition)]).run(values, {})["r"]


@pytest.mark.parametrize("pair", [*AND, (F, T), (U, T), (U, F)])
def test_b10_strong_kleene_tables(pair: tuple[Truth, Truth]) -> None:
    """Kleene 1952, section 64: conjunction, disjunction and negation, every line."""
    x, y = pair
    table_line = pair if pair in AND else (y, x)
    parts = (true("x"), true("y"))
    assert truth(All(parts), x=x, y=y) is AND[table_line]
    assert truth(Any(parts), x=x, y=y) is OR[table_line]
    assert truth(Not(true("x")), x=x) is NOT[x]
    assert truth(Not(All(parts)), x=x, y=y) is NOT[AND[table_line]]
    assert truth(Not(Any(parts)), x=x, y=y) is NOT[OR[table_line]]


@pytest.mark.parametrize("count", range(5))
def test_b10_at_least_is_the_disjunction_of_conjunctions(count: int) -> None:
    """Kleene 1952, section 64: `at least n of` equals any of the all-ofs of n parts."""
    names = "abc"
    parts = tuple(map(true, names))
    spelt = Any(tuple(All(some) for some in itertools.combinations(parts, count)))
    for values in itertools.product((T, F, U), repeat=3):
        case = dict(zip(names, values, strict=True))
        for wrap in (lambda c: c, Not):
            assert truth(wrap(AtLeast(count, parts)), **case) is truth(wrap(spelt), **case)


@pytest.mark.parametrize("length", [1, 2, 3])
def test_b10_negation_inside_a_cycle_is_refused(length: int) -> None:
    """Even loops have two stable models and odd ones none, so both are refused by name."""
    names = [f"p{i}" for i in range(length)]
    rules = [Rule(n, Not(true(names[(i + 1) % length]))) for i, n in enumerate(names)]
    with pytest.raises(NegativeCycle) as caught:
        compile_program(rules[::-1])
    assert caught.value.cycle == tuple(names)
