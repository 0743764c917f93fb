"""Ten times the rules: how much longer chaining takes."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any as Anything

from sootsayer.engine.conditions import Definition, Value
from sootsayer.engine.program import compile_program
from sootsayer.rulebook.compiled import definitions_of, load_rulebook, shipped_rules
from tests.bench.clock import of_calls, told
from tests.outside.test_clipspy_chaining import shipped_case

TIMES = 10
CASES = 20


def rows(turns: int) -> list[str]:
    rulebook = load_rulebook([shipped_rules()])
    limits = {each.id: each.default for each in rulebook.model.limits.values()}
    once = list(definitions_of(rulebook.model))
    one = compile_program(once)
    names = {each.name for each in once}
    ten = compile_program(
        [_renamed(each, names | one.inputs, str(n)) for n in range(TIMES) for each in once]
    )
    r = Random("larger")
    cases = [shipped_case(r, rulebook, sorted(one.inputs), {}) for _ in range(CASES)]
    larger: list[dict[str, Value]] = [
        {f"{slot} {n}": value for n in range(TIMES) for slot, value in case.items()}
        for case in cases
    ]
    for case, wide in zip(cases, larger, strict=True):
        found, again = one.run(case, limits), ten.run(wide, limits)
        assert all(again[f"{name} {TIMES - 1}"] == value for name, value in found.items())
    short, long = of_calls(
        [
            lambda: [one.run(case, limits) for case in cases],
            lambda: [ten.run(case, limits) for case in larger],
        ],
        turns,
    )
    what = f"chaining, {TIMES} times the {len(once)} shipped rules and facts"
    return [told(what, f"{long / short:.1f} times as long", "at most 12")]


def _renamed(definition: Definition, names: set[str] | frozenset[str], number: str) -> Definition:
    """The definition and all that it reads under names of their own."""
    found: Definition = _part(definition, names, number)
    return found


def _part(thing: Anything, names: set[str] | frozenset[str], number: str) -> Anything:
    if isinstance(thing, tuple):
        return tuple(_part(each, names, number) for each in thing)
    slots = getattr(thing, "__dataclass_fields__", None)
    if slots is None:
        return thing
    changed = {}
    for name in slots:
        value = getattr(thing, name)
        slot = name in ("slot", "of", "name") and isinstance(value, str) and value in names
        changed[name] = f"{value} {number}" if slot else _part(value, names, number)
    return replace(thing, **changed)
