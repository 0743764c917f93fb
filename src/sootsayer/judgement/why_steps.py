"""The tests behind a derived slot as steps, each with the value it saw."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.casework.model import Absence as NoValue
from sootsayer.engine.conditions import (
    AtLeast,
    Compare,
    Grade,
    Limit,
    OneOf,
    Value,
)
from sootsayer.engine.why import Absence, Explanation, Kind, Resolved, Seen, explain
from sootsayer.judgement.grounds import slot_label, slot_unit
from sootsayer.judgement.views import View
from sootsayer.judgement.why_answer import Missing, WhyJoint, WhyOperand, WhyStep, WhyTest
from sootsayer.judgement.workings import Workings

JOINTS = (Kind.ALL, Kind.ANY, Kind.NOT, Kind.AT_LEAST)


def steps_of(work: Workings, name: str, seen: View | None = None) -> tuple[WhyStep, ...]:
    """How the derived slot came to its value, `applies when` left out; parts follow their joint."""
    return tuple(_steps(work, _explained(work, name, seen), 0))


def applies_steps_of(work: Workings, name: str) -> tuple[WhyStep, ...]:
    """The tests of a finding's own `applies when`; none if it has none."""
    applies = _explained(work, name, None).applies
    return () if applies is None else tuple(_steps(work, applies, 0))


def applies_truth(work: Workings, name: str) -> bool | None:
    applies = _explained(work, name, None).applies
    return True if applies is None else applies.truth


def missing_of(work: Workings, slot: str) -> Missing | None:
    """Why a slot has no value that counts; None if it has one."""
    if slot in work.rulebook.program.definitions:
        return Missing.DERIVED if work.derived.get(slot) is None else None
    fact = work.trusted.facts.get(slot)
    if fact is not None and fact.absence is None:
        return None
    if slot.startswith("code:"):
        return Missing.CODES_NOT_COUNTED
    if slot in work.full.values and work.full.values[slot] is not None and fact is None:
        return Missing.SET_ASIDE
    absence = NoValue.NOT_ASKED if fact is None or fact.absence is None else fact.absence
    return Missing(absence.value)


def label_of(work: Workings, slot: str) -> str:
    """The words for any slot: a fact's label, or what a finding says."""
    finding = work.model.findings.get(slot)
    return slot_label(work.model, slot) if finding is None else finding.says


def _explained(work: Workings, name: str, seen: View | None) -> Explanation:
    view = seen or work.view_of(name)
    values = {slot: value for slot, value in view.values.items() if slot != name}
    return explain(work.rulebook.program, values, work.limits, name)


def _steps(work: Workings, node: Explanation, depth: int) -> Iterator[WhyStep]:
    if node.kind is Kind.RULE:
        for child in node.children:
            yield from _steps(work, child, depth)
    elif node.kind in JOINTS:
        count = node.part.count if isinstance(node.part, AtLeast) else 0
        yield WhyJoint(node.kind.value, node.truth, count, depth)
        for child in node.children:
            yield from _steps(work, child, depth + 1)
    elif node.seen is not None:
        yield _test(work, node, node.seen, depth)


def _test(work: Workings, node: Explanation, seen: Seen, depth: int) -> WhyTest:
    op, words = _said(node)
    return WhyTest(
        slot=seen.slot,
        label=label_of(work, seen.slot),
        op=op,
        seen=seen.value,
        unit=slot_unit(work.model, seen.slot),
        against=tuple(_operand(resolved) for resolved in node.operands),
        words=words,
        outcome=node.truth,
        missing=_missing(work, seen),
        depth=depth,
    )


def _said(node: Explanation) -> tuple[str, tuple[str, ...]]:
    """The operator's word, and the words that the slot was held against."""
    part = node.part
    if isinstance(part, Compare):
        return part.op.value, ()
    if isinstance(part, OneOf):
        return "one of", tuple(_word(value) for value in part.values)
    if isinstance(part, Grade):
        return "graded", part.levels
    return "known", ()


def _word(value: Value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _operand(resolved: Resolved) -> WhyOperand:
    limits = resolved.limits
    if isinstance(resolved.operand, Limit):
        limits = (resolved.operand.name,)
    return WhyOperand(resolved.number, limits, tuple(seen.slot for seen in resolved.slots))


def _missing(work: Workings, seen: Seen) -> Missing | None:
    if seen.absence is None:
        return None
    if seen.absence is Absence.NOT_FITTED:
        return Missing.NOT_FITTED
    return missing_of(work, seen.slot) or Missing.NOT_ASKED
