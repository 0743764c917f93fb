"""What a rule reads, in the order it was written, and the limits that its readings are held to."""

from __future__ import annotations

from sootsayer.casework.quantities import slot_at
from sootsayer.engine.conditions import Compare, Condition, Limit, Operand
from sootsayer.engine.reading import Leaf, leaves_in, operand_leaves
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.rulebook.model import FindingDef, Model


def main_slots(model: Model) -> dict[str, tuple[str, ...]]:
    """Finding or interlock to the slots of its own reading; what only lets it apply is left out."""
    slots = {id_: _of_finding(finding) for id_, finding in model.findings.items()}
    slots.update({id_: _once(_tests(lock.holds)) for id_, lock in model.interlocks.items()})
    for id_, read in slots.items():
        slots[id_] = _once([given for slot in read for given in _inputs(slot, model)])
    return slots


def held_to(model: Model) -> dict[str, dict[str, str]]:
    """Interlock to slot to the one limit that it is held to; none where there are several."""
    held: dict[str, dict[str, str]] = {}
    for id_, lock in model.interlocks.items():
        limits: dict[str, set[str]] = {}
        for test in _tests(lock.holds):
            if isinstance(test, Compare):
                found = {limit for operand in test.operands for limit in _limits(operand)}
                limits.setdefault(test.slot, set()).update(found)
        held[id_] = {slot: limit for slot, (limit, *more) in _sorted(limits) if not more}
    return held


def _sorted(limits: dict[str, set[str]]) -> list[tuple[str, list[str]]]:
    return [(slot, sorted(found)) for slot, found in limits.items() if found]


def _of_finding(finding: FindingDef) -> tuple[str, ...]:
    if finding.of is not None:
        return (finding.of,)
    return _once(_tests(finding.when)) if finding.when is not None else ()


def _once(tests: list[Leaf] | list[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(test if isinstance(test, str) else test.slot for test in tests))


def _inputs(slot: str, model: Model) -> list[str]:
    """The reading that a quantity is first of all reckoned from; any other slot is its own."""
    name, _, point = slot.partition("@")
    quantity = model.quantities.get(name)
    if quantity is None:
        return [slot]
    first = QUANTITIES[quantity.formula].inputs[0].name
    return _inputs(slot_at(model, quantity.takes[first], point), model)


def _tests(condition: Condition) -> list[Leaf]:
    return [test for test, _ in leaves_in(condition)]


def _limits(operand: Operand) -> list[str]:
    return [leaf.name for leaf in operand_leaves(operand) if isinstance(leaf, Limit)]
