"""Who uses what: everything of the rulebook that names a slot, a limit or another thing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.engine.conditions import Condition, Limit
from sootsayer.engine.reading import leaves_in, operand_leaves
from sootsayer.rulebook.model import FindingDef, Model
from sootsayer.rulebook.reads import condition_slots, finding_slots, quantity_inputs, slots_given

Used = dict[str, list["User"]]


@dataclass(frozen=True, slots=True, order=True)
class User:
    """A thing that names another; `what` says what it is, as its section of packs does."""

    what: str
    id: str


@dataclass(frozen=True, slots=True)
class Uses:
    """`readers`: of a slot, finding or limit. `givers`: the checks that give a slot."""

    readers: dict[str, tuple[User, ...]]
    givers: dict[str, tuple[str, ...]]

    def of(self, name: str) -> tuple[User, ...]:
        return self.readers.get(name, ())


def uses_of(model: Model) -> Uses:
    """Everything that reads anything, sorted."""
    readers: dict[str, set[User]] = {}
    for user, name in _reads(model):
        readers.setdefault(name, set()).add(user)
    givers: dict[str, set[str]] = {}
    for check in model.checks.values():
        for slot in slots_given(model, check):
            givers.setdefault(slot, set()).add(check.id)
    return Uses(
        {name: tuple(sorted(readers[name])) for name in sorted(readers)},
        {slot: tuple(sorted(givers[slot])) for slot in sorted(givers)},
    )


def _reads(model: Model) -> Iterator[tuple[User, str]]:
    for finding in model.findings.values():
        for name in _finding(finding):
            yield User("finding", finding.id), name
    for quantity in model.quantities.values():
        for point in quantity.points or ("",):
            slot = f"{quantity.id}@{point}" if point else quantity.id
            for name in quantity_inputs(model, slot):
                yield User("quantity", quantity.id), name
    for lock in model.interlocks.values():
        for name in (*_names(lock.holds), *_names(lock.applies)):
            yield User("interlock", lock.id), name
    for fault in model.faults.values():
        for condition in (fault.applies, *(shift.when for shift in fault.shifts)):
            for name in _names(condition):
                yield User("fault", fault.id), name
    for what, things in (("check", model.checks), ("remedy", model.remedies)):
        for id_, thing in things.items():
            for name in _names(thing.applies):
                yield User(what, id_), name


def _finding(finding: FindingDef) -> Iterator[str]:
    yield from finding_slots(finding)
    yield from _names(finding.applies)
    yield from _names(finding.when)
    for cut in finding.cuts:
        yield from (leaf.name for leaf in operand_leaves(cut) if isinstance(leaf, Limit))


def _names(condition: Condition | None) -> Iterator[str]:
    """The slots and limits that a condition names."""
    if condition is None:
        return
    yield from condition_slots(condition)
    for test, _ in leaves_in(condition):
        for operand in getattr(test, "operands", ()):
            for leaf in operand_leaves(operand):
                if isinstance(leaf, Limit):
                    yield leaf.name
