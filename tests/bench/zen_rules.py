"""Definitions as one expression node of zen-engine (https://docs.gorules.io), everything known.

The best encoding found: one node whose expressions, in the order in which they read each other,
are the whole conditions in its own language; a graph of one node a rule is slower by far.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any as Anything

import zen

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
    Not,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
    Value,
)

TESTS = {
    Op.BELOW: "({x} < {0})",
    Op.AT_MOST: "({x} <= {0})",
    Op.ABOVE: "({x} > {0})",
    Op.AT_LEAST: "({x} >= {0})",
    Op.BETWEEN: "({x} >= {0} and {x} <= {1})",
    Op.OUTSIDE: "({x} < {0} or {x} > {1})",
}


class Engine:
    """The rules as a decision; `order`: names, those that are read before those that read them."""

    def __init__(
        self, definitions: Sequence[Definition], order: Sequence[str], limits: Mapping[str, float]
    ) -> None:
        self._limits = limits
        by_name = {each.name: each for each in definitions}
        self._derived = {name: f"d{number}" for number, name in enumerate(order)}
        self._given: dict[str, str] = {}
        expressions = [
            {"id": f"e{number}", "key": self._derived[name], "value": self._of(by_name[name])}
            for number, name in enumerate(order)
        ]
        content = {"expressions": expressions, "passThrough": False}
        nodes: list[dict[str, Anything]] = [
            {"id": "in", "name": "in", "type": "inputNode", "position": {"x": 0, "y": 0}},
            {
                "id": "rules",
                "name": "rules",
                "type": "expressionNode",
                "position": {"x": 1, "y": 0},
                "content": content,
            },
            {"id": "out", "name": "out", "type": "outputNode", "position": {"x": 2, "y": 0}},
        ]
        edges = [
            {"id": "1", "type": "edge", "sourceId": "in", "targetId": "rules"},
            {"id": "2", "type": "edge", "sourceId": "rules", "targetId": "out"},
        ]
        graph = json.dumps({"nodes": nodes, "edges": edges})
        self._decision = zen.ZenEngine().create_decision(graph)

    def facts(self, values: Mapping[str, Value]) -> dict[str, Value]:
        """A case in its words, made before the clock starts."""
        return {own: values[slot] for slot, own in self._given.items()}

    def settle(self, facts: Mapping[str, Value]) -> Mapping[str, Anything]:
        """All that is derived, in its words."""
        found: Mapping[str, Anything] = self._decision.evaluate(dict(facts))["result"]
        return found

    def ours(self, found: Mapping[str, Anything]) -> dict[str, Value]:
        """The same by the names of the rules."""
        return {name: found[own] for name, own in self._derived.items()}

    def _of(self, definition: Definition) -> str:
        if isinstance(definition, Rule):
            return self._said(definition.when)
        return self._graded(definition)

    def _graded(self, grade: Grade) -> str:
        value, text = self._slot(grade.of), f"'{grade.levels[-1]}'"
        for level, cut in reversed(list(zip(grade.levels, grade.cuts, strict=False))):
            text = f"({value} < {self._number(cut)} ? '{level}' : {text})"
        return text

    def _said(self, part: Condition) -> str:
        if isinstance(part, Not):
            return f"(not {self._said(part.part)})"
        if isinstance(part, All | Any):
            word = " and " if isinstance(part, All) else " or "
            return f"({word.join(map(self._said, part.parts))})"
        if isinstance(part, AtLeast):
            each = " + ".join(f"({self._said(one)} ? 1 : 0)" for one in part.parts)
            return f"(({each}) >= {part.count})"
        if isinstance(part, OneOf):
            some = (f"{self._slot(part.slot)} == {self._word(value)}" for value in part.values)
            return f"({' or '.join(some)})"
        assert isinstance(part, Compare), part
        numbers = [self._number(operand) for operand in part.operands]
        return TESTS[part.op].format(*numbers, x=self._slot(part.slot))

    def _slot(self, name: str) -> str:
        if name in self._derived:
            return f"$.{self._derived[name]}"
        return self._given.setdefault(name, f"i{len(self._given)}")

    def _number(self, operand: Operand) -> str:
        if isinstance(operand, Const):
            return self._word(float(operand.value))
        if isinstance(operand, Limit):
            return self._word(float(self._limits[operand.name]))
        if isinstance(operand, Slot):
            return self._slot(operand.name)
        times, of, plus = (self._number(each) for each in (operand.times, operand.of, operand.plus))
        return f"({times} * {of} + {plus})"

    @staticmethod
    def _word(value: object) -> str:
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, float):
            return f"({value!r})" if value < 0 else repr(value)
        return f"'{value}'"
