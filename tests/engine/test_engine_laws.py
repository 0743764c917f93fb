"""Laws of the engine, on rule sets and cases drawn by hypothesis."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from random import Random

import pytest
from hypothesis import example, settings
from hypothesis import given as drawn
from hypothesis import strategies as st

from sootsayer.engine.conditions import Value
from sootsayer.engine.grounds import Grounds, awaits, minimal_grounds
from sootsayer.engine.program import Program, compile_program
from sootsayer.engine.why import Explanation, explain, failing, supporting
from tests.engine.ways import least_of, subsets
from tests.engine.worlds import DOMAIN, LIMITS, Taste, case, given, world

# Hypothesis draws the size, and shrinks it; the rest comes from a seed, which is many times
# faster than drawing every choice, so that far more rule sets are tried.
SIZES = st.integers(1, 8)
RANDOM = st.builds(Random, st.integers(0, 2**32 - 1))
LAW = settings(deadline=None, max_examples=250)


def _plain(rules: int) -> Taste:
    return Taste(rules=rules)


def _gated(rules: int) -> Taste:
    return Taste(rules=rules, known_gate=True)


def _full(rules: int) -> Taste:
    return Taste(rules=rules, known_gate=True, known_when=True)


def _more(r: Random, values: dict[str, Value], taste: Taste) -> dict[str, Value]:
    """The same case with some of its unknown inputs known."""
    return case(r, taste, 0.5) | values


@drawn(RANDOM, SIZES)
@LAW
def test_more_knowledge_never_unsays_a_decided_slot(r: Random, size: int) -> None:
    """Law 2: an unknown turned into anything known leaves every decided slot as it was."""
    taste = _plain(size)
    program = compile_program(world(r, taste).definitions)
    values = case(r, taste, 0.4)
    decided = {n: v for n, v in program.run(values, LIMITS).items() if v is not None}
    for _ in range(8):
        after = program.run(_more(r, values, taste), LIMITS)
        assert {n: after[n] for n in decided} == decided


@drawn(RANDOM, SIZES)
@LAW
def test_more_knowledge_never_flips_even_where_applies_asks_known(r: Random, size: int) -> None:
    """With `known` in `applies` a decided slot may become unknown, but never its opposite."""
    taste = _gated(size)
    program = compile_program(world(r, taste).definitions)
    values = case(r, taste, 0.4)
    decided = {n: v for n, v in program.run(values, LIMITS).items() if v is not None}
    for _ in range(8):
        after = program.run(_more(r, values, taste), LIMITS)
        assert all(after[name] in (None, value) for name, value in decided.items())


@drawn(RANDOM, SIZES)
@LAW
def test_an_answer_taken_back_equals_never_given(r: Random, size: int) -> None:
    """Running on other values in between leaves no trace: nor does a value set to unknown."""
    taste = _full(size)
    program = compile_program(world(r, taste).definitions)
    values = case(r, taste)
    fresh = compile_program(list(program.definitions.values())).run(values, LIMITS)
    more = _more(r, values, taste)
    program.run(more, LIMITS)
    for name in program.order:
        minimal_grounds(program, more, LIMITS, name)
        explain(program, more, LIMITS, name)
    assert program.run(values, LIMITS) == fresh
    taken_back = more | {name: None for name in more if name not in values}
    assert program.run(taken_back, LIMITS) == fresh


@drawn(RANDOM, SIZES)
@LAW
def test_the_order_of_definitions_and_values_never_matters(r: Random, size: int) -> None:
    """Law 1: shuffled definitions and values give the same order, values, grounds and waits."""
    taste = _full(size)
    made = list(world(r, taste).definitions)
    values = case(r, taste)
    shuffled, facts = list(made), list(values.items())
    r.shuffle(shuffled)
    r.shuffle(facts)
    one, other = compile_program(made), compile_program(shuffled)
    assert one.order == other.order
    assert one.strata == other.strata
    first, second = one.run(values, LIMITS), other.run(dict(facts), LIMITS)
    assert list(first.items()) == list(second.items())
    for name in one.order:
        for what in (minimal_grounds, awaits, explain):
            assert what(one, values, LIMITS, name) == what(other, dict(facts), LIMITS, name)


@drawn(RANDOM, SIZES)
@LAW
def test_the_cone_alone_gives_the_same_values(r: Random, size: int) -> None:
    """Running only the cone of a slot, or with what lies before it given, changes nothing."""
    taste = _full(size)
    made = world(r, taste)
    program = compile_program(made.definitions)
    values = case(r, taste) | given(r, made)
    whole = program.run(values, LIMITS)
    for name in program.order:
        part = program.run(values, LIMITS, only=[name])
        assert part == {n: whole[n] for n in program.order if n in program.cone([name])}
        reads = program.reads(name) | set(made.names)
        assert (
            program.run({s: v for s, v in values.items() if s in reads}, LIMITS)[name]
            == (whole[name])
        )
    some = {n: v for n, v in whole.items() if r.random() < 0.3}
    if not program.cyclic:
        assert program.run(values | some, LIMITS) == whole


@drawn(RANDOM, SIZES)
@LAW
def test_grounds_decide_alone_and_none_is_spare(r: Random, size: int) -> None:
    """Law 4: grounds give the value by themselves, and no proper part of them does."""
    taste = _plain(size)
    made = world(r, taste)
    program = compile_program(made.definitions)
    values = case(r, taste, 0.8) | given(r, made)
    for name, value in program.run(values, LIMITS).items():
        grounds = minimal_grounds(program, values, LIMITS, name)
        assert grounds == tuple(sorted(set(grounds)))
        if value is None:
            assert grounds == ()
            continue
        assert _with_only(program, values, grounds, name) == value
        for spare in grounds:
            fewer = tuple(slot for slot in grounds if slot != spare)
            assert _with_only(program, values, fewer, name) != value


@drawn(RANDOM, SIZES, st.sampled_from([0, 10]))
@settings(LAW, max_examples=120)
def test_every_set_told_decides_and_no_other(r: Random, size: int, few: int) -> None:
    """Law 4: of all sets of known slots just those decide a slot that hold one of the sets told;
    the grounds are one of these. Held against a run for every set there is."""
    taste = replace(_full(size), cycles=False)
    made = world(r, taste)
    program = compile_program(made.definitions)
    values = case(r, taste, 0.6) | given(r, made)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("sootsayer.engine.grounds.FEW", few)
        grounds = Grounds(program, values, LIMITS)
        for name in [each for each in program.order if each not in values]:
            known = [s for s in program.cone_given(name, values) if values.get(s) is not None]
            value = program.run(values, LIMITS)[name]
            told = least_of(grounds, name) if value is not None else set()
            if told is None or len(known) > 8:
                continue
            for kept in subsets(tuple(known)):
                decides = value is not None and _seeing_only(program, values, kept, name) == value
                assert decides == any(each <= kept for each in told), (name, kept, told)
            assert value is None or frozenset(grounds.of(name)) in told


def _seeing_only(
    program: Program, values: dict[str, Value], kept: Collection[str], name: str
) -> Value:
    """As `_with_only`; whether the others are known is not known either."""
    layout = program.layout
    whole = program.settled(values, LIMITS, name)
    cells = program.load({s: v if s in kept else None for s, v in values.items()}, LIMITS)
    for slot, blank in layout.blanks.items():
        if whole[layout.slot[slot]] is not None:
            cells[blank] = None
    program.evaluate(cells, None)
    return cells[layout.slot[name]]


def _with_only(
    program: Program, values: dict[str, Value], kept: tuple[str, ...], name: str
) -> Value:
    """The value of `name` with only `kept` known; a given slot stays given, as unknown."""
    fewer = {s: v if s in kept else None for s, v in values.items()}
    return program.run(fewer, LIMITS)[name]


@drawn(RANDOM, SIZES)
@example(Random(15618), 1)  # an "at least" on a cycle, settled for want of support
@LAW
def test_only_what_is_awaited_can_decide(r: Random, size: int) -> None:
    """An unknown slot stays unknown while nothing it awaits becomes known."""
    taste = _plain(size)
    made = world(r, taste)
    program = compile_program(made.definitions)
    values = case(r, taste, 0.5) | given(r, made)
    for name, value in program.run(values, LIMITS).items():
        waits = awaits(program, values, LIMITS, name)
        assert waits == tuple(sorted(set(waits)))
        assert all(values.get(slot) is None for slot in waits)
        if value is not None:
            assert waits == ()
            continue
        idle = {
            slot: r.choice(domain)
            for slot, domain in DOMAIN.items()
            if slot not in values and slot not in waits
        }
        assert program.run(values | idle, LIMITS)[name] is None


@drawn(RANDOM, SIZES)
@LAW
def test_explanations_tell_the_truth_of_every_part(r: Random, size: int) -> None:
    """A part's truth follows from its children's, and the root's is the value itself."""
    taste = _full(size)
    made = world(r, taste)
    program = compile_program(made.definitions)
    values = case(r, taste) | given(r, made)
    for name, value in program.run(values, LIMITS).items():
        found = explain(program, values, LIMITS, name)
        assert found.value == value
        assert not (failing(found) and supporting(found))
        _check(found)


def _check(node: Explanation) -> None:
    truths = [child.truth for child in node.children]
    unknown = None in truths
    if node.kind.value == "all":
        assert node.truth is (False if False in truths else None if unknown else True)
    elif node.kind.value == "any":
        assert node.truth is (True if True in truths else None if unknown else False)
    elif node.kind.value == "not":
        assert node.truth is (None if unknown else not truths[0])
    elif node.kind.value == "rule":
        gate = node.applies is None or node.applies.truth is True
        assert node.truth is (truths[0] if gate else None)
    for leaf in (*failing(node), *supporting(node)):
        assert not leaf.children
    for child in node.children:
        _check(child)
