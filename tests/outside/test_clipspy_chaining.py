"""Forward chaining against CLIPS, through clipspy (https://clipspy.readthedocs.io)."""

from __future__ import annotations

from random import Random

import pytest

from sootsayer.engine.conditions import (
    All,
    Any,
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Known,
    Limit,
    Not,
    OneOf,
    Op,
    Rule,
    Value,
)
from sootsayer.engine.program import compile_program
from sootsayer.rulebook.compiled import Rulebook, definitions_of, load_rulebook, shipped_rules
from sootsayer.rulebook.model import SignalKind
from tests.engine.worlds import LIMITS, Taste, case, world
from tests.outside.clips_rules import Engine, Translation, slots

PARTS = 4
RULE_SETS = 60  # in each part and each of the two ways: 480 in all
SHIPPED_CASES = 120


def ours_in_their_words(derived: dict[str, Value]) -> dict[str, str]:
    """What the engine decided, as CLIPS says it; what is unknown is left out."""
    words: dict[Value, str] = {True: "yes", False: "no"}
    return {n: words.get(v, str(v)) for n, v in derived.items() if v is not None}


@pytest.mark.parametrize("part", range(PARTS))
def test_with_everything_known_it_is_plain_clips(part: int) -> None:
    """240 random acyclic rule sets derive what CLIPS derives with its own and, or and not."""
    seen: set[str] = set()
    for seed in range(part, PARTS * RULE_SETS, PARTS):
        r = Random(f"plain {seed}")
        taste = Taste(rules=r.choice([4, 8, 14]), gates=False, odd=False, cycles=False)
        made = world(r, taste)
        program = compile_program(made.definitions)
        engine = Engine(Translation(made.definitions, LIMITS, two_valued=True))
        for _ in range(4):
            values = case(r, taste, share=1.0)
            found = engine.run(values)
            theirs = {name: str(found.get(name, "no")) for name in made.names}
            assert ours_in_their_words(program.run(values, LIMITS)) == theirs, (seed, values)
            seen.update(theirs.values())
    assert seen == {"yes", "no", "low", "mid", "high"}


@pytest.mark.parametrize("part", range(PARTS))
def test_with_unknowns_it_is_known_true_and_known_false(part: int) -> None:
    """240 random acyclic rule sets with missing facts decide just what CLIPS can derive."""
    unknown = decided = 0
    for seed in range(part, PARTS * RULE_SETS, PARTS):
        r = Random(f"unknown {seed}")
        taste = Taste(rules=r.choice([4, 8, 12]), odd=False, cycles=False)
        made = world(r, taste)
        program = compile_program(made.definitions)
        engine = Engine(Translation(made.definitions, LIMITS, two_valued=False))
        for share in (0.3, 0.6, 0.9):
            values = case(r, taste, share)
            found = engine.run(values)
            theirs = {name: str(found[name]) for name in made.names if name in found}
            assert ours_in_their_words(program.run(values, LIMITS)) == theirs, (seed, values)
            decided += len(theirs)
            unknown += len(made.names) - len(theirs)
    assert unknown > RULE_SETS
    assert decided > RULE_SETS


def translatable(definitions: list[Definition]) -> list[Definition]:
    """Those without `known`, and that read none with it."""
    kept = {each.name: each for each in definitions}
    while True:
        out = {n for n, each in kept.items() if _asks_known(each)}
        names = {each.name for each in definitions} - kept.keys() | out
        out |= {n for n, each in kept.items() if names & _reads(each)}
        if not out:
            return list(kept.values())
        kept = {n: each for n, each in kept.items() if n not in out}


def _conditions(each: Definition) -> list[Condition]:
    found = [each.applies, each.when if isinstance(each, Rule) else None]
    return [part for part in found if part is not None]


def _reads(each: Definition) -> set[str]:
    return {slot for part in _conditions(each) for slot in slots(part)}


def _asks_known(each: Definition) -> bool:
    def asks(part: Condition) -> bool:
        if isinstance(part, Compare | OneOf | Known):
            return isinstance(part, Known)
        return any(map(asks, (part.part,) if isinstance(part, Not) else part.parts))

    return any(map(asks, _conditions(each)))


def cuts_of(part: Condition, limits: dict[str, float]) -> dict[str, set[float]]:
    """Where numbers are cut, by slot: the constants and limits they are compared with."""
    if isinstance(part, Compare):
        found = {o.value for o in part.operands if isinstance(o, Const)}
        found |= {limits[o.name] for o in part.operands if isinstance(o, Limit)}
        return {part.slot: found}
    if isinstance(part, OneOf | Known):
        return {}
    together: dict[str, set[float]] = {}
    for inner in (part.part,) if isinstance(part, Not) else part.parts:
        for slot, cuts in cuts_of(inner, limits).items():
            together.setdefault(slot, set()).update(cuts)
    return together


def shipped_case(
    r: Random, rulebook: Rulebook, inputs: list[str], cuts: dict[str, set[float]]
) -> dict[str, Value]:
    """Values for some of the rulebook's inputs, numbers at and around what cuts them."""
    values: dict[str, Value] = {}
    share = r.choice([0.3, 0.7, 1.0])
    for slot in inputs:
        if r.random() > share:
            continue
        signal = rulebook.model.signals.get(slot.partition("@")[0])
        if signal is None or signal.kind is SignalKind.YES_NO:  # a trouble code is yes or no
            values[slot] = r.random() < 0.5
        elif signal.kind is SignalKind.CHOICE:
            values[slot] = r.choice(signal.choices)
        else:
            near = r.choice(sorted(cuts.get(slot) or {0.0}))
            values[slot] = near + r.choice([-1000.0, -1.0, 0.0, 0.0, 1.0, 1000.0])
    return values


def test_shipped_rules_derive_what_clips_derives() -> None:
    """In 120 random cases the shipped rules, but those that ask `known`, decide as CLIPS does."""
    rulebook = load_rulebook([shipped_rules()])
    limits = {each.id: each.default for each in rulebook.model.limits.values()}
    definitions = translatable(list(definitions_of(rulebook.model)))
    assert len(definitions) > 0.8 * len(rulebook.program.definitions)
    engine = Engine(Translation(definitions, limits, two_valued=False))
    program = compile_program(definitions)
    cuts: dict[str, set[float]] = {}
    for each in definitions:
        parts = list(_conditions(each))
        if isinstance(each, Grade):
            parts += [Compare(each.of, Op.AT_LEAST, (cut,)) for cut in each.cuts]
        for slot, found in cuts_of(All(tuple(parts)), limits).items():
            cuts.setdefault(slot, set()).update(found)
    decided: set[tuple[str, str]] = set()
    for seed in range(SHIPPED_CASES):
        r = Random(f"shipped {seed}")
        values = shipped_case(r, rulebook, sorted(program.inputs), cuts)
        everything = engine.run(values)
        theirs = {n: str(everything[n]) for n in program.order if n in everything}
        ours = program.run(values, limits)
        assert ours_in_their_words(ours) == theirs, (seed, values)
        decided |= theirs.items()
    assert len({name for name, _ in decided}) > 0.9 * len(definitions)
    assert len(decided) > 1.5 * len(definitions)


def test_the_oracle_knows_what_it_cannot_know() -> None:
    """The oracle itself: one true part decides `any`, an unknown one leaves `all` open."""
    parts = (OneOf("a", (True,)), OneOf("b", (True,)))
    made = (Rule("either", Any(parts)), Rule("both", All(parts)))
    engine = Engine(Translation(made, {}, two_valued=False))
    assert engine.run({"a": True}) == {"a": "yes", "either": "yes"}
    assert engine.run({"a": False}) == {"a": "no", "both": "no"}
    assert engine.run({"a": True, "b": False})["both"] == "no"
