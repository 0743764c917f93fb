"""Small damages to a rulebook, one at a time: does anything that states the trade notice them?

Each is a change that a slip of the hand could make and that no lint can know to be wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any as AnyType

from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Known,
    Limit,
    Not,
    OneOf,
    Op,
    Operand,
)
from sootsayer.rulebook.model import (
    Action,
    EvidenceDef,
    FaultDef,
    FindingDef,
    Interlock,
    LimitDef,
    Model,
)

MOVED = 0.1  # of a threshold's own size; what is counted in whole numbers moves by a whole one
OPPOSITE = {
    Op.BELOW: Op.AT_LEAST,
    Op.AT_LEAST: Op.BELOW,
    Op.AT_MOST: Op.ABOVE,
    Op.ABOVE: Op.AT_MOST,
    Op.BETWEEN: Op.OUTSIDE,
    Op.OUTSIDE: Op.BETWEEN,
}


@dataclass(frozen=True, slots=True)
class Mutation:
    """`kind`: the slip; `at`: the ids that it touches, which name it; `on` makes it.

    `family`: where it can only tell in a case in which that family of findings speaks.
    """

    kind: str
    at: tuple[str, ...]
    on: Callable[[Model], Model]
    family: str | None = None

    @property
    def name(self) -> str:
        return f"{self.kind}: {' / '.join(self.at)}"


def mutations(model: Model) -> Iterator[Mutation]:
    """Every mutation, in a fixed order."""
    yield from _limits_moved(model)
    counts = _counts(model)
    for finding in model.findings.values():
        yield from _of_finding(finding, finding.of in counts)
    for interlock in model.interlocks.values():
        yield from _of_interlock(interlock)
    for action in model.actions.values():
        yield from _interlocks_removed(action)
    for block in model.evidence.values():
        yield from _links_dropped(model, block)
    for fault in model.faults.values():
        for condition in fault.leads_to:
            left = {c: p for c, p in fault.leads_to.items() if c != condition}
            changed = replace(fault, leads_to=left)
            yield Mutation("link dropped", (fault.id, condition), _put("faults", changed))
        for hidden in fault.hides:
            left_hidden = {f: s for f, s in fault.hides.items() if f != hidden}
            changed = replace(fault, hides=left_hidden)
            yield Mutation("hides dropped", (fault.id, hidden), _put("faults", changed))


def _put(
    part: str, thing: FindingDef | Interlock | Action | FaultDef | LimitDef
) -> Callable[[Model], Model]:
    """A mutation that puts `thing` in place of the one of its id."""

    def on(model: Model) -> Model:
        changes: dict[str, AnyType] = {part: {**getattr(model, part), thing.id: thing}}
        return replace(model, **changes)

    return on


def _limits_moved(model: Model) -> Iterator[Mutation]:
    counted = {limit for limit, slots in _compared_with(model).items() if slots <= _counts(model)}
    for limit in model.limits.values():
        by = _by(limit.default, limit.id in counted)
        for way, value in (("up", limit.default + by), ("down", limit.default - by)):
            moved = replace(limit, default=value)
            yield Mutation("threshold moved", (limit.id, way), _put("limits", moved))


def _counts(model: Model) -> set[str]:
    """The signals that count something."""
    return {s.id for s in model.signals.values() if s.step == 1.0 and not s.unit}


def _compared_with(model: Model) -> dict[str, set[str]]:
    """Limit to the slots that findings and interlocks compare with it."""
    found: dict[str, set[str]] = {}
    for finding in model.findings.values():
        for cut in finding.cuts:
            if isinstance(cut, Limit) and finding.of is not None:
                found.setdefault(cut.name, set()).add(finding.of)
    conditions = (
        *(finding.when for finding in model.findings.values() if finding.when is not None),
        *(interlock.holds for interlock in model.interlocks.values()),
    )
    for condition in conditions:
        for test in _comparisons(condition):
            for operand in test.operands:
                if isinstance(operand, Limit):
                    found.setdefault(operand.name, set()).add(test.slot)
    return found


def _comparisons(condition: Condition) -> Iterator[Compare]:
    if isinstance(condition, Compare):
        yield condition
    elif isinstance(condition, Not):
        yield from _comparisons(condition.part)
    elif isinstance(condition, All | Any | AtLeast):
        for part in condition.parts:
            yield from _comparisons(part)


def _of_finding(finding: FindingDef, counted: bool) -> Iterator[Mutation]:
    for i, cut in enumerate(finding.cuts):
        for way, moved in _moved(cut, counted):
            cuts = (*finding.cuts[:i], moved, *finding.cuts[i + 1 :])
            at = (finding.id, f"cut {i + 1}", way)
            yield Mutation("threshold moved", at, _put("findings", replace(finding, cuts=cuts)))
    if finding.graded:
        for i, (lower, upper) in enumerate(pairwise(finding.levels)):
            levels = (*finding.levels[:i], upper, lower, *finding.levels[i + 2 :])
            changed = replace(finding, levels=levels)
            yield Mutation("level swapped", (finding.id, lower, upper), _put("findings", changed))
    if finding.when is not None:
        for kind, how, changed_when in _slips(finding.when):
            changed = replace(finding, when=changed_when)
            yield Mutation(kind, (finding.id, how), _put("findings", changed))
    if finding.applies is not None:
        for kind, how, applies in _slips(finding.applies):
            changed = replace(finding, applies=applies)
            yield Mutation(kind, (finding.id, "applies when", how), _put("findings", changed))


def _of_interlock(interlock: Interlock) -> Iterator[Mutation]:
    for kind, how, holds in _slips(interlock.holds):
        changed = replace(interlock, holds=holds)
        yield Mutation(kind, (interlock.id, how), _put("interlocks", changed))


def _interlocks_removed(action: Action) -> Iterator[Mutation]:
    for name in (*action.needs, *action.heeds):
        changed = replace(
            action,
            needs=tuple(each for each in action.needs if each != name),
            heeds=tuple(each for each in action.heeds if each != name),
            states=tuple(
                replace(state, blocked_by=tuple(n for n in state.blocked_by if n != name))
                for state in action.states
            ),
        )
        yield Mutation("interlock removed", (action.id, name), _put("actions", changed))


def _links_dropped(model: Model, block: EvidenceDef) -> Iterator[Mutation]:
    family = next(
        (each.id for each in model.families.values() if block.finding in each.members),
        block.finding,
    )
    for fault in block.seen_with:
        seen = {name: spread for name, spread in block.seen_with.items() if name != fault}
        changed = replace(block, seen_with=seen)

        def on(model: Model, changed: EvidenceDef = changed) -> Model:
            return replace(model, evidence={**model.evidence, changed.finding: changed})

        yield Mutation("link dropped", (fault, block.finding), on, family)


def _by(value: float, counted: bool) -> float:
    return max(abs(value) * MOVED, 1.0) if counted or not value else abs(value) * MOVED


def _moved(operand: Operand, counted: bool = False) -> Iterator[tuple[str, Operand]]:
    """A written number moved up and down; a limit moves by itself, once for all."""
    if isinstance(operand, Const):
        by = _by(operand.value, counted)
        yield "up", Const(operand.value + by)
        yield "down", Const(operand.value - by)


def _slips(condition: Condition) -> Iterator[tuple[str, str, Condition]]:
    """Every slip within a condition: the kind, where it is, and the condition with it."""
    if isinstance(condition, Compare):
        flipped = replace(condition, op=OPPOSITE[condition.op])
        yield "negation flipped", condition.slot, flipped
        for i, operand in enumerate(condition.operands):
            for way, moved in _moved(operand):
                operands = (*condition.operands[:i], moved, *condition.operands[i + 1 :])
                yield (
                    "threshold moved",
                    f"{condition.slot} {way}",
                    replace(condition, operands=operands),
                )
    elif isinstance(condition, OneOf):
        yield "negation flipped", condition.slot, Not(condition)
        if len(condition.values) > 1:
            for value in condition.values:
                rest = tuple(each for each in condition.values if each != value)
                how = f"{condition.slot} without {value}"
                yield "level swapped", how, replace(condition, values=rest)
    elif isinstance(condition, Known):
        yield "negation flipped", condition.slot, Not(condition)
    elif isinstance(condition, Not):
        yield "negation flipped", "not", condition.part
        for kind, how, part in _slips(condition.part):
            if kind != "negation flipped":
                yield kind, f"not {how}", Not(part)
    else:
        yield from _slips_of_parts(condition)


def _slips_of_parts(condition: All | Any | AtLeast) -> Iterator[tuple[str, str, Condition]]:
    for i, part in enumerate(condition.parts):
        for kind, how, slipped in _slips(part):
            parts = (*condition.parts[:i], slipped, *condition.parts[i + 1 :])
            yield kind, how, replace(condition, parts=parts)
