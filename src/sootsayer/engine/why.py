"""Why and why not, as data: every part of a condition with its truth and what it saw."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Definition,
    Grade,
    Limit,
    Not,
    NotFitted,
    OneOf,
    Operand,
    Truth,
    Value,
)
from sootsayer.engine.layout import Cells
from sootsayer.engine.numbers import number
from sootsayer.engine.program import Program, absent_in_when
from sootsayer.engine.reading import Leaf, operand_leaves, operand_slots


class Kind(Enum):
    """What a node of an explanation stands for."""

    RULE = "rule"
    GRADE = "grade"
    VALUE = "value"  # an input slot, or a derived slot whose value is given
    ALL = "all"
    ANY = "any"
    NOT = "not"
    AT_LEAST = "at least"
    COMPARE = "compare"
    ONE_OF = "one of"
    KNOWN = "known"


class Absence(Enum):
    """Why a slot gave a test nothing to test."""

    MISSING = "missing"
    NOT_FITTED = "not fitted"
    WRONG_KIND = "wrong kind"  # a word where a number is compared, or the like


@dataclass(frozen=True, slots=True)
class Seen:
    """A slot as a test saw it; `derived` if a definition of the program decides it."""

    slot: str
    value: Value
    absence: Absence | None
    derived: bool


@dataclass(frozen=True, slots=True)
class Resolved:
    """An operand, its number (None if unknown or not fitted), and what the number came from."""

    operand: Operand
    number: float | None
    limits: tuple[str, ...]
    slots: tuple[Seen, ...]


@dataclass(frozen=True, slots=True)
class Explanation:
    """One part and how it came out.

    `truth` is the part's own; for a grade, and for a value that is no boolean, true once it
    is known. `part` is the definition or condition itself (None for a value): its operator,
    words, count and levels stand there. `seen` is the slot that a test reads, that a grade
    cuts, or that a value is. `value` is that of a rule, grade or value. `children` are the
    parts of a condition, or a rule's `when`; `applies` stands apart. A derived slot that a
    test reads is not expanded: explain it by its name.
    """

    kind: Kind
    truth: Truth
    part: Definition | Condition | None = None
    value: Value = None
    seen: Seen | None = None
    operands: tuple[Resolved, ...] = ()
    children: tuple[Explanation, ...] = ()
    applies: Explanation | None = None


def explain(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> Explanation:
    """How `name` came to its value. Raises KeyError for an unknown name or a missing limit."""
    return _Case(program, program.settled(values, limits, name)).slot(name, name in values)


def failing(explanation: Explanation) -> tuple[Explanation, ...]:
    """The tests that keep it from being true: those that make it false, or leave it unknown."""
    return () if explanation.truth else _responsible(explanation)


def supporting(explanation: Explanation) -> tuple[Explanation, ...]:
    """The tests that make it true; none if it is not."""
    return _responsible(explanation) if explanation.truth else ()


def _responsible(node: Explanation) -> tuple[Explanation, ...]:
    """The leaves that give a node the truth it has, left to right."""
    if node.applies is not None:
        if node.applies.truth is False:
            return _responsible(node.applies)
        if node.applies.truth is None:
            open_too = node.children if node.children and node.children[0].truth is None else ()
            return _responsible(node.applies) + _leaves(open_too)
    if not node.children:
        # A rule or condition without a single test has nothing to show.
        return () if node.kind in (Kind.ALL, Kind.ANY, Kind.AT_LEAST) else (node,)
    if node.kind in (Kind.RULE, Kind.NOT):
        applies = _responsible(node.applies) if node.applies is not None else ()
        return applies + _responsible(node.children[0]) if node.truth else _leaves(node.children)
    return _leaves(tuple(child for child in node.children if child.truth is node.truth))


def _leaves(nodes: tuple[Explanation, ...]) -> tuple[Explanation, ...]:
    return tuple(leaf for node in nodes for leaf in _responsible(node))


class _Case:
    """A program with the values of one case, settled."""

    def __init__(self, program: Program, cells: Cells) -> None:
        self._program, self._cells = program, cells

    def slot(self, name: str, given: bool) -> Explanation:
        definition = self._program.definitions.get(name)
        value = self._value(name)
        if definition is None or given:
            truth = value if value is None or isinstance(value, bool) else True
            return Explanation(Kind.VALUE, truth, None, value, self._seen(name, value is None))
        applies = None
        if definition.applies is not None:
            applies = self._part(definition.applies, False)
        if isinstance(definition, Grade):
            return self._grade(definition, value, applies)
        when = self._part(definition.when, absent_in_when(definition))
        assert value is None or isinstance(value, bool)
        return Explanation(Kind.RULE, value, definition, value, children=(when,), applies=applies)

    def _grade(self, grade: Grade, value: Value, applies: Explanation | None) -> Explanation:
        return Explanation(
            Kind.GRADE,
            None if value is None else True,
            grade,
            value,
            self._number_seen(grade.of),
            tuple(self._resolved(cut) for cut in grade.cuts),
            applies=applies,
        )

    def _part(self, part: Condition, absent: Truth) -> Explanation:
        truth = self._program.truth(part, self._cells, absent)
        if isinstance(part, All | Any | AtLeast):
            kind = {All: Kind.ALL, Any: Kind.ANY, AtLeast: Kind.AT_LEAST}[type(part)]
            inner = tuple(self._part(each, absent) for each in part.parts)
            return Explanation(kind, truth, part, children=inner)
        if isinstance(part, Not):
            return Explanation(Kind.NOT, truth, part, children=(self._part(part.part, absent),))
        return self._leaf(part, truth)

    def _leaf(self, part: Leaf, truth: Truth) -> Explanation:
        if isinstance(part, Compare):
            operands = tuple(self._resolved(operand) for operand in part.operands)
            seen = self._number_seen(part.slot)
            return Explanation(Kind.COMPARE, truth, part, seen=seen, operands=operands)
        if isinstance(part, OneOf):
            # Unknown although there is a value: the value is of a kind that is not listed.
            seen = self._seen(part.slot, truth is None)
            return Explanation(Kind.ONE_OF, truth, part, seen=seen)
        return Explanation(Kind.KNOWN, truth, part, seen=self._seen(part.slot, False))

    def _resolved(self, operand: Operand) -> Resolved:
        found = self._program.number(operand, self._cells)
        leaves = tuple(operand_leaves(operand))
        return Resolved(
            operand,
            found if isinstance(found, float) else None,
            tuple(leaf.name for leaf in leaves if isinstance(leaf, Limit)),
            tuple(self._number_seen(slot) for slot in operand_slots(operand)),
        )

    def _number_seen(self, name: str) -> Seen:
        return self._seen(name, not isinstance(number(self._value(name)), float))

    def _seen(self, name: str, useless: bool) -> Seen:
        value = self._value(name)
        absence = None
        if value is None:
            absence = Absence.MISSING
        elif isinstance(value, NotFitted):
            absence = Absence.NOT_FITTED
        elif useless:
            absence = Absence.WRONG_KIND
        return Seen(name, value, absence, name in self._program.definitions)

    def _value(self, name: str) -> Value:
        return self._cells[self._program.layout.slot[name]]
