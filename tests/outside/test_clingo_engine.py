"""Chaining, unknowns, negation and grounds against clingo (Potassco), an answer set solver."""

from __future__ import annotations

from random import Random

import pytest

from sootsayer.engine.conditions import Any, Compare, Const, Known, Not, OneOf, Op, Rule, Value
from sootsayer.engine.grounds import Grounds, minimal_grounds
from sootsayer.engine.program import compile_program
from tests.engine.ways import least_of
from tests.engine.worlds import LIMITS, Taste, case, given, world
from tests.outside import asp

CHUNKS = 10
RULE_SETS = 52  # in each chunk: 520 in all


def _seeds(chunk: int) -> range:
    return range(chunk * RULE_SETS, (chunk + 1) * RULE_SETS)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_every_derived_value_is_clingos(chunk: int) -> None:
    """520 random rule sets come out just as the two-bounds answer set program does."""
    seen: set[Value] = set()
    for seed in _seeds(chunk):
        r = Random(seed)
        taste = Taste(rules=r.choice([4, 8, 14]), known_when=True, known_gate=True)
        made = world(r, taste)
        program = compile_program(made.definitions)
        for share in (0.4, 0.9):
            values = case(r, taste, share) | given(r, made, 0.08)
            ours = program.run(values, LIMITS)
            theirs = asp.derived(asp.Translation(made.definitions, values, LIMITS))
            assert ours == theirs, (seed, values)
            seen.update(ours.values())
    assert {True, False, None, "low", "mid", "high"} <= seen


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_grounds_are_among_clingos_minimal_supports(chunk: int) -> None:
    """In 520 rule sets each decided slot's grounds are a minimal support for clingo."""
    checked = shared = 0
    for seed in _seeds(chunk):
        r = Random(seed)
        taste = Taste(rules=5, known_gate=True, known_when=True, derived_known=False)
        made = world(r, taste)
        program = compile_program(made.definitions)
        values = case(r, taste, 0.85) | given(r, made, 0.08)
        translation = asp.Translation(made.definitions, values, LIMITS, removable=True)
        for name, value in program.run(values, LIMITS).items():
            ours = minimal_grounds(program, values, LIMITS, name)
            if value is None:
                assert ours == ()
                continue
            theirs = asp.minimal_supports(translation, name, value)
            assert set(ours) in theirs, (seed, name, ours, theirs)
            checked += 1
            shared += len(theirs) > 1
    assert checked > RULE_SETS
    assert shared > 5


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_all_ways_to_decide_are_clingos_minimal_supports(
    chunk: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What `Grounds` works out in one pass, every least set that decides a slot, is all that clingo
    finds, told as tables or as least sets; its grounds are the first of them to be tried."""
    checked = shared = 0
    for seed in _seeds(chunk):
        r = Random(seed)
        taste = Taste(rules=5, known_gate=True, known_when=True, derived_known=False, cycles=False)
        made = world(r, taste)
        program = compile_program(made.definitions)
        values = case(r, taste, 0.85) | given(r, made, 0.08)
        monkeypatch.setattr("sootsayer.engine.grounds.FEW", r.choice([0, 10]))
        grounds = Grounds(program, values, LIMITS)
        translation = asp.Translation(made.definitions, values, LIMITS, removable=True)
        for name, value in program.run(values, LIMITS).items():
            if value is None or name in values:
                continue
            ours = least_of(grounds, name)
            theirs = set(map(frozenset, asp.minimal_supports(translation, name, value)))
            assert ours == theirs, (seed, name)
            assert frozenset(grounds.of(name)) in theirs
            checked += 1
            shared += len(theirs) > 1
    assert checked > RULE_SETS
    assert shared > 5


def test_clingo_lists_every_minimal_support() -> None:
    """The oracle itself: two ways to be true are two minimal supports, and no third."""
    part = Any((OneOf("b0", (True,)), OneOf("b1", (True,))))
    made = (Rule("d", part),)
    translation = asp.Translation(made, {"b0": True, "b1": True}, {}, removable=True)
    found = asp.minimal_supports(translation, "d", True)
    assert sorted(map(sorted, found)) == [["b0"], ["b1"]]


def test_what_is_left_out_is_not_thereby_absent() -> None:
    """Grounds never rest on a known slot being unknown: clingo and we need `b` here."""
    made = (Rule("d", Any((Not(Known("a")), OneOf("b", (True,)))), absent_is_false=True),)
    values: dict[str, Value] = {"a": 1.0, "b": True}
    translation = asp.Translation(made, values, {}, removable=True)
    assert asp.minimal_supports(translation, "d", True) == [{"b"}]
    assert minimal_grounds(compile_program(made), values, {}, "d") == ("b",)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_decided_holds_in_every_completion(chunk: int) -> None:
    """What is decided with unknowns stays so however clingo fills them in."""
    decided = 0
    for seed in _seeds(chunk):
        r = Random(seed)
        taste = Taste(rules=5, odd=False)
        made = world(r, taste)
        program = compile_program(made.definitions)
        values = case(r, taste, 0.6)
        ours = {n: v for n, v in program.run(values, LIMITS).items() if v is not None}
        text = asp.Translation(made.definitions, values, LIMITS).text
        text += "\n" + asp.completions(program.inputs - values.keys())
        always = asp.consequences(text)
        assert ours.items() <= always.items(), (seed, values)
        decided += len(ours)
    assert decided > RULE_SETS


def test_unknown_means_both_where_nothing_is_read_twice() -> None:
    """A rule that reads each slot once is unknown just where clingo can make it either."""
    both = 0
    for seed in range(200):
        r = Random(seed)
        rule = Rule("d", _read_once(r, ["n0", "n1", "n2", "n3", "b0", "b1", "b2"]))
        values = case(r, Taste(odd=False), 0.5)
        program = compile_program([rule])
        text = asp.Translation((rule,), values, {}).text
        text += "\n" + asp.completions(program.inputs - values.keys())
        always = asp.consequences(text)
        assert program.run(values, {})["d"] == always.get("d"), (seed, values)
        both += "d" not in always
    assert 20 < both < 180


def _read_once(r: Random, slots: list[str]) -> Any | Not | OneOf | Compare:
    if len(slots) == 1:
        if slots[0].startswith("b"):
            return OneOf(slots[0], (r.random() < 0.5,))
        return Compare(
            slots[0], r.choice([Op.BELOW, Op.AT_LEAST]), (Const(float(r.randint(1, 3))),)
        )
    cut = r.randrange(1, len(slots))
    pair = Any((_read_once(r, slots[:cut]), _read_once(r, slots[cut:])))
    return Not(pair) if r.random() < 0.5 else pair
