"""Definitions as rules of CLIPS, in two ways that share nothing with the engine.

Two-valued: each definition is one rule whose left side is the whole condition, with CLIPS's own
`and`, `or`, `not` and negation as failure; salience lets what is read be decided first. Only
for cases in which every fact is known.

Three-valued: every part of every condition has a fact for "known true" and one for "known
false" (Kleene 1952, section 64, as two positive programs); nothing is negated.

Not translated: `known`, which is not monotone, and values that are not fitted.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from typing import Any as Anything

from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Known,
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

TESTS = {
    Op.BELOW: "(< {x} {0})",
    Op.AT_MOST: "(<= {x} {0})",
    Op.ABOVE: "(> {x} {0})",
    Op.AT_LEAST: "(>= {x} {0})",
    Op.BETWEEN: "(and (>= {x} {0}) (<= {x} {1}))",
    Op.OUTSIDE: "(or (< {x} {0}) (> {x} {1}))",
}
Limits = Mapping[str, float]


class NotTranslated(Exception):  # noqa: N818 (says what the condition is)
    """The condition holds something that CLIPS is not asked about."""


def word(value: str | bool | float) -> str:
    """A constant of CLIPS: a boolean is a word here, as rules derive none of CLIPS's own."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f'"{value}"' if isinstance(value, str) else repr(float(value))


class _Numbers:
    """A leaf that compares numbers: the patterns that bind what it reads, and its test."""

    def __init__(self, limits: Limits, names: Iterable[str]) -> None:
        self._limits, self._names = limits, iter(names)
        self.patterns: list[str] = []

    def bound(self, slot: str) -> str:
        """A variable that holds the slot's number."""
        name = f"?{next(self._names)}"
        self.patterns.append(f'(value "{slot}" {name})')
        return name

    def number(self, operand: Operand) -> str:
        if isinstance(operand, Const):
            return word(float(operand.value))
        if isinstance(operand, Limit):
            return word(float(self._limits[operand.name]))
        if isinstance(operand, Slot):
            return self.bound(operand.name)
        assert isinstance(operand, Linear)
        of, times, plus = map(self.number, (operand.of, operand.times, operand.plus))
        return f"(+ (* {times} {of}) {plus})"


class Translation:
    """One set of definitions for CLIPS; `rules` is its text. Raises NotTranslated."""

    def __init__(self, definitions: Iterable[Definition], limits: Limits, two_valued: bool) -> None:
        self._named = {each.name: each for each in definitions}
        self._limits, self._depths = limits, dict[str, int]()
        self._count = itertools.count()
        self._names = (f"x{i}" for i in self._count)
        self.rules: list[str] = []
        for each in self._named.values():
            if two_valued:
                self._whole(each)
            else:
                self._in_parts(each)

    # -- shared

    def _rule(self, left: str, right: str, salience: int = 0) -> None:
        head = f"(defrule r{next(self._count)} (declare (salience {salience}))"
        self.rules.append(f"{head} {left} => (assert {right}))")

    def _comparison(self, part: Compare) -> tuple[str, str]:
        """The patterns and the test."""
        found = _Numbers(self._limits, self._names)
        x = found.bound(part.slot)
        test = TESTS[part.op].format(*map(found.number, part.operands), x=x)
        return " ".join(found.patterns), test

    def _grade(self, grade: Grade) -> Iterable[tuple[str, str]]:
        """A left side for each level: not below any cut before it, below the one after it."""
        for i, level in enumerate(grade.levels):
            found = _Numbers(self._limits, self._names)
            x = found.bound(grade.of)
            tests = [f"(>= {x} {found.number(cut)})" for cut in grade.cuts[:i]]
            tests += [f"(< {x} {found.number(cut)})" for cut in grade.cuts[i : i + 1]]
            patterns = " ".join(found.patterns)
            yield level, f"{patterns} (test (and TRUE {' '.join(tests)}))"

    # -- two-valued

    def _whole(self, each: Definition) -> None:
        salience = -self._depth(each.name)
        gate = "" if each.applies is None else self._left(each.applies)
        if isinstance(each, Rule):
            left = f"(and (start) {gate} {self._left(each.when)})"
            self._rule(left, f'(value "{each.name}" yes)', salience)
            return
        for level, left in self._grade(each):
            self._rule(f"(and (start) {gate} {left})", f'(value "{each.name}" "{level}")', salience)

    def _depth(self, name: str) -> int:
        """How many definitions stand one upon the other below this one."""
        if name not in self._depths:
            each = self._named[name]
            parts = [p for p in (each.applies, each.when if isinstance(each, Rule) else None) if p]
            read = {slot for part in parts for slot in slots(part)} & self._named.keys()
            self._depths[name] = 1 + max(map(self._depth, read), default=0)
        return self._depths[name]

    def _left(self, part: Condition) -> str:
        if isinstance(part, Compare):
            return "(and {} (test {}))".format(*self._comparison(part))
        if isinstance(part, OneOf):
            return self._one_of(part)
        if isinstance(part, Not):
            return f"(not (and (start) {self._left(part.part)}))"
        if isinstance(part, Known):
            raise NotTranslated
        if isinstance(part, All):
            return _joined("and", [self._left(each) for each in part.parts])
        if isinstance(part, Any):
            return _joined("or", [self._left(each) for each in part.parts])
        sides = [self._left(each) for each in part.parts]
        ways = itertools.combinations(sides, part.count) if part.count <= len(sides) else ()
        return _joined("or", [_joined("and", list(way)) for way in ways])

    def _one_of(self, part: OneOf) -> str:
        derived = isinstance(self._named.get(part.slot), Rule)
        sides = [
            f'(not (value "{part.slot}" yes))'
            if derived and value is False
            else f'(value "{part.slot}" {word(value)})'
            for value in part.values
        ]
        return _joined("or", sides)

    # -- three-valued

    def _in_parts(self, each: Definition) -> None:
        gate = "" if each.applies is None else f"(true {self._part(each.applies)})"
        if isinstance(each, Rule):
            when = self._part(each.when)
            self._rule(f"{gate} (true {when})", f'(value "{each.name}" yes)')
            self._rule(f"{gate} (false {when})", f'(value "{each.name}" no)')
            return
        for level, left in self._grade(each):
            self._rule(f"{gate} {left}", f'(value "{each.name}" "{level}")')

    def _part(self, part: Condition) -> int:
        """The number of a part whose truth and falsehood have rules of their own."""
        number = next(self._count)
        true, false = f"(true {number})", f"(false {number})"
        if isinstance(part, Known):
            raise NotTranslated
        if isinstance(part, Compare) and len(part.operands) == 2:
            part = _halved(part)  # one end alone can decide
        if isinstance(part, Compare):
            patterns, test = self._comparison(part)
            self._rule(f"{patterns} (test {test})", true)
            self._rule(f"{patterns} (test (not {test}))", false)
        elif isinstance(part, OneOf):
            among = "|".join(map(word, part.values))
            outside = "&".join(f"~{word(value)}" for value in part.values)
            self._rule(f'(value "{part.slot}" {among})', true)
            self._rule(f'(value "{part.slot}" {outside})', false)
        elif isinstance(part, Not):
            inner = self._part(part.part)
            self._rule(f"(false {inner})", true)
            self._rule(f"(true {inner})", false)
        else:
            self._counted(part, true, false)
        return number

    def _counted(self, part: All | Any | AtLeast, true: str, false: str) -> None:
        """`n` of them true make it true; so many false that `n` cannot be left make it false."""
        numbers = [self._part(each) for each in part.parts]
        total = len(numbers)
        wanted = total if isinstance(part, All) else 1 if isinstance(part, Any) else part.count
        for count, fact, result in ((wanted, "true", true), (total - wanted + 1, "false", false)):
            for way in itertools.combinations(numbers, max(count, 0)) if count <= total else ():
                left = " ".join(f"({fact} {number})" for number in way)
                self._rule(f"(start) {left}", result)


def slots(part: Condition) -> set[str]:
    """The slots whose word or truth a condition reads."""
    if isinstance(part, Compare | OneOf | Known):
        return {part.slot}
    inner = (part.part,) if isinstance(part, Not) else part.parts
    return {slot for each in inner for slot in slots(each)}


def _halved(part: Compare) -> All | Any:
    low, high = part.operands
    if part.op is Op.BETWEEN:
        return All(
            (
                Compare(part.slot, Op.AT_LEAST, (low,)),
                Compare(part.slot, Op.AT_MOST, (high,)),
            )
        )
    return Any((Compare(part.slot, Op.BELOW, (low,)), Compare(part.slot, Op.ABOVE, (high,))))


def _joined(how: str, sides: list[str]) -> str:
    """`and` of nothing is true, `or` of nothing false."""
    if not sides:
        return "(test (eq 1 1))" if how == "and" else "(test (eq 1 2))"
    return f"({how} {' '.join(sides)})" if len(sides) > 1 else sides[0]


class Engine:
    """CLIPS with the rules of a translation, to be run on one case after another."""

    def __init__(self, translation: Translation) -> None:
        import clips

        self.environment: Anything = clips.Environment()
        for rule in translation.rules:
            self.environment.build(rule)

    def settle(self, values: Mapping[str, Value]) -> None:
        """Take the values in, and let the rules fire."""
        self.environment.reset()
        self.environment.assert_string("(start)")
        for slot, value in values.items():
            if value is not None:
                assert isinstance(value, float | str | bool)
                self.environment.assert_string(f'(value "{slot}" {word(value)})')
        self.environment.run()

    def run(self, values: Mapping[str, Value]) -> dict[str, str | float]:
        """The value facts that hold in the end: ours, and what the rules derived."""
        self.settle(values)
        found: dict[str, str | float] = {}
        for fact in self.environment.facts():
            if fact.template.name == "value":
                slot, value = list(fact)
                assert found.get(slot, value) == value, slot
                found[slot] = value
        return found
