"""Forward chaining with minimal grounds of all that is decided, beside CLIPS and zen-engine without
any. Where everything is known all three are asked, and their conclusions held together first."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from sootsayer.engine.conditions import Definition, Value
from sootsayer.engine.grounds import Grounds
from sootsayer.engine.program import Program, compile_program
from sootsayer.rulebook.compiled import definitions_of, load_rulebook, shipped_rules
from tests.bench.clock import of_calls, row
from tests.engine.worlds import LIMITS, Taste, case, world
from tests.outside.clips_rules import Engine, Translation
from tests.outside.test_clipspy_chaining import shipped_case, translatable

CASES = 20


def rows(turns: int) -> list[str]:
    return _shipped(turns) + _random(turns)


def _shipped(turns: int) -> list[str]:
    rulebook = load_rulebook([shipped_rules()])
    limits = {each.id: each.default for each in rulebook.model.limits.values()}
    definitions = translatable(list(definitions_of(rulebook.model)))
    program = compile_program(definitions)
    engine = Engine(Translation(definitions, limits, two_valued=False))
    r = Random("bench")
    cases = [shipped_case(r, rulebook, sorted(program.inputs), {}) for _ in range(CASES)]
    return _beside(f"{len(definitions)} shipped rules", program, engine, cases, limits, turns)


def _random(turns: int) -> list[str]:
    r, taste = Random(150), Taste(rules=150, gates=False, odd=False, cycles=False)
    made = world(r, taste).definitions
    program = compile_program(made)
    cases = [case(r, taste, 1.0) for _ in range(CASES)]
    engine = Engine(Translation(made, LIMITS, two_valued=True))
    what = f"{len(made)} random rules, all known"
    rows = _beside(what, program, engine, cases, LIMITS, turns)
    return rows + _beside_zen(what, program, made, cases, turns)


def _beside_zen(
    what: str,
    program: Program,
    made: Sequence[Definition],
    cases: list[dict[str, Value]],
    turns: int,
) -> list[str]:
    try:
        from tests.bench.zen_rules import Engine as Zen
    except ImportError:
        return ["zen-engine is not installed: not measured"]
    zen = Zen(made, program.order, LIMITS)
    facts = [zen.facts(each) for each in cases]
    for each, words in zip(cases, facts, strict=True):
        assert zen.ours(zen.settle(words)) == program.run(each, LIMITS)

    def ours() -> None:
        for each in cases:
            program.run(each, LIMITS)

    def theirs() -> None:
        for words in facts:
            zen.settle(words)

    alone, found = (x / CASES for x in of_calls([ours, theirs], turns))
    return [row(f"chaining, {what} : zen-engine", alone, found, "1/10")]


def _beside(
    what: str,
    program: Program,
    engine: Engine,
    cases: list[dict[str, Value]],
    limits: dict[str, float],
    turns: int,
) -> list[str]:
    def values() -> None:
        for each in cases:
            program.run(each, limits)

    def with_grounds() -> None:
        for each in cases:
            found = Grounds(program, each, limits)
            for name in program.order:
                found.of(name)

    def theirs() -> None:
        for each in cases:
            engine.settle(each)  # reading its facts back would cost as much again

    alone, grounded, clips = (x / CASES for x in of_calls([values, with_grounds, theirs], turns))
    return [
        row(f"chaining, {what} : clipspy", alone, clips, "1/20"),
        row("the same, with minimal grounds of all : clipspy", grounded, clips, "1/20"),
    ]
