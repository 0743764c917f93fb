"""What a rule reads: its slots, the facts behind them, and the channels those come through."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.engine.conditions import Compare, Condition
from sootsayer.engine.reading import leaves_in, operand_slots
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import CODES, Check, FindingDef, Lasts, Model


def condition_slots(condition: Condition) -> Iterator[str]:
    """The slots that the condition looks at, in the order of writing; some may come twice."""
    for test, _ in leaves_in(condition):
        yield test.slot
        for operand in test.operands if isinstance(test, Compare) else ():
            yield from operand_slots(operand)


def finding_slots(finding: FindingDef) -> Iterator[str]:
    """The slots that the finding itself looks at (not those of its `applies when`)."""
    if finding.of is not None:
        yield finding.of
        for cut in finding.cuts:
            yield from operand_slots(cut)
    elif finding.when is not None:
        yield from condition_slots(finding.when)


def facts_behind(model: Model, *findings: str) -> tuple[str, ...]:
    """The fact slots that the findings rest on, through other findings too, in fixed order."""
    facts: dict[str, None] = {}
    seen: set[str] = set()
    waiting = list(reversed(findings))
    while waiting:
        name = waiting.pop()
        if name in seen:
            continue
        seen.add(name)
        finding = model.findings.get(name)
        if finding is None:
            facts[name] = None
        else:
            waiting.extend(reversed(list(finding_slots(finding))))
    return tuple(facts)


def slot_channels(model: Model, slot: str) -> tuple[str, ...]:
    """The channels that a fact may come through, each once: a quantity's are its inputs'."""
    found: dict[str, None] = {}
    for read in readings_behind(model, slot):
        signal = model.signals.get(read.partition("@")[0])
        found.update(dict.fromkeys(signal.channels.values() if signal is not None else ()))
    return tuple(found)


def quantity_inputs(model: Model, slot: str) -> tuple[str, ...]:
    """The fact slots that a quantity's slot is computed from; nothing for any other slot."""
    name, _, point = slot.partition("@")
    quantity = model.quantities.get(name)
    inputs = () if quantity is None else sorted(set(quantity.takes.values()))
    return tuple(_read_at(model, each, point) for each in inputs)


def _read_at(model: Model, name: str, point: str) -> str:
    signal = model.signals.get(name)
    return f"{name}@{point}" if signal is not None and signal.points and point else name


def readings_behind(model: Model, slot: str) -> tuple[str, ...]:
    """The slots that are read, not computed, behind a fact slot: often the slot itself."""
    found: dict[str, None] = {}
    seen: set[str] = set()
    waiting = [slot]
    while waiting:
        name = waiting.pop()
        if name in seen:
            continue
        seen.add(name)
        inputs = quantity_inputs(model, name)
        if inputs:
            waiting.extend(reversed(inputs))
        else:
            found[name] = None
    return tuple(found)


def sole_reading(model: Model, slot: str) -> str:
    """The one reading that decides a fact slot, where all else behind it lasts the visit.

    The slot itself where several readings are needed.
    """
    read = [name for name in readings_behind(model, slot) if _lasts_a_round(model, name)]
    return read[0] if len(read) == 1 else slot


def _lasts_a_round(model: Model, slot: str) -> bool:
    signal = model.signals.get(slot.partition("@")[0])
    return signal is not None and signal.lasts is Lasts.ROUND


def slots_given(model: Model, check: Check) -> tuple[str, ...]:
    """The fact slots that a check gives; of the list of codes, each code that rules name."""
    if CODES not in check.gives:
        return check.gives
    codes = (f"code:{code}" for code in model.codes)
    return (*(slot for slot in check.gives if slot != CODES), *codes)


def channels_behind(model: Model, *findings: str) -> tuple[str, ...]:
    """The channels that the facts behind the findings may come through, each once."""
    found: dict[str, None] = {}
    for slot in facts_behind(model, *findings):
        found.update(dict.fromkeys(slot_channels(model, slot)))
    return tuple(found)


def members_of(model: Model, target: str) -> tuple[str, ...]:
    """The members of a family, best first; a finding without a family is its own member."""
    family = model.families.get(target)
    return (target,) if family is None else family.members


def levels_of(model: Model, target: str) -> tuple[str, ...]:
    """The levels of a family or a finding without one, lowest first."""
    family = model.families.get(target)
    return model.findings[target].levels if family is None else family.levels


def family_of(model: Model, finding: str) -> str:
    """The family that the finding belongs to, else the finding itself."""
    return remembered(model, "family of", lambda: _families_of(model)).get(finding, finding)


def _families_of(model: Model) -> dict[str, str]:
    """Every member's family; of several the first."""
    found: dict[str, str] = {}
    for family in model.families.values():
        for member in family.members:
            found.setdefault(member, family.id)
    return found


def evidence_targets(model: Model) -> tuple[str, ...]:
    """The families and findings without one that have evidence, sorted; overrides left out."""
    return remembered(
        model,
        "evidence targets",
        lambda: tuple(name for name in model.evidence if family_of(model, name) == name),
    )


def successor_of(model: Model, retired: str) -> str:
    """What stands for a retired id today, over several successors; "" if nothing does."""
    seen: set[str] = set()
    name = retired
    while name in model.retired and name not in seen:
        seen.add(name)
        name = model.retired[name].successor
    return "" if name in seen else name
