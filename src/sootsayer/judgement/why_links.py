"""What a thing rests on, and what rests on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from sootsayer.engine.conditions import Value
from sootsayer.engine.reading import limits_of, reads_of
from sootsayer.judgement.grounds import slot_unit
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.why_answer import Relation, ThingKind, WhyLink
from sootsayer.judgement.why_steps import label_of
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, interlock_slot, shift_slot
from sootsayer.rulebook.reads import (
    condition_slots,
    family_of,
    finding_slots,
    members_of,
    slots_given,
)

Links = Iterator[WhyLink]


@dataclass(frozen=True, slots=True)
class Told:
    """A case worked out, its verdict, and the verdict's values by id."""

    work: Workings
    verdict: Verdict
    values: Mapping[str, Value]


def told(work: Workings, verdict: Verdict) -> Told:
    """The values that links show: confidences, states, levels and facts."""
    values: dict[str, Value] = {slot: f.value for slot, f in work.trusted.facts.items()}
    values.update(work.derived)
    values.update({f.id: f.confidence for f in verdict.faults})
    values.update({c.id: c.state.value for c in verdict.channels})
    values.update({p.action: p.state.value for p in verdict.permissions})
    values.update({u.id: u.value for u in verdict.limits})
    if verdict.plan is not None:
        values.update({r.remedy: r.state.value for r in verdict.plan.remedies})
    for family in verdict.families:
        if family.speaker is not None:
            values[family.id] = work.derived[family.speaker]
    for permission in verdict.permissions:
        for interlock in (*permission.interlocks, *permission.named):
            values[interlock.id] = interlock.state.value
    return Told(work, verdict, values)


def links_of(told: Told, kind: ThingKind, thing: str) -> tuple[WhyLink, ...]:
    """Everything near `thing`, each once, in the order of relations and ids."""
    makers: dict[ThingKind, Callable[[Told, str], Links]] = {
        ThingKind.SLOT: _slot,
        ThingKind.CODE: _slot,
        ThingKind.SIGNAL: _signal,
        ThingKind.FINDING: _finding,
        ThingKind.FAMILY: _family,
        ThingKind.CHANNEL: _channel,
        ThingKind.FAULT: _fault,
        ThingKind.INTERLOCK: _interlock,
        ThingKind.ACTION: _action,
        ThingKind.LIMIT: _limit,
        ThingKind.CHECK: _check,
        ThingKind.REMEDY: _remedy,
    }
    order = list(Relation)
    links = set(makers[kind](told, thing))
    return tuple(sorted(links, key=lambda link: (order.index(link.relation), link.id)))


def _link(told: Told, relation: Relation, kind: ThingKind, name: str, label: str) -> WhyLink:
    unit = slot_unit(told.work.model, name) if kind is ThingKind.SLOT else None
    return WhyLink(relation, kind, name, label, told.values.get(name), unit)


def _to_slot(told: Told, relation: Relation, slot: str) -> WhyLink:
    kind = ThingKind.SLOT
    if slot in told.work.model.findings:
        kind = ThingKind.FINDING
    elif slot.startswith("code:"):
        kind = ThingKind.CODE
    return _link(told, relation, kind, slot, label_of(told.work, slot))


def _to_fault(told: Told, relation: Relation, fault: str) -> WhyLink:
    return _link(told, relation, ThingKind.FAULT, fault, told.work.model.faults[fault].label)


def _to_family(told: Told, relation: Relation, family: str) -> WhyLink:
    label = next((f.label for f in told.verdict.families if f.id == family), family)
    kind = ThingKind.FAMILY if family in told.work.model.families else ThingKind.FINDING
    return _link(told, relation, kind, family, label)


def _readers(told: Told, slot: str) -> Links:
    """The definitions that look at a slot or a limit themselves."""
    model, program = told.work.model, told.work.rulebook.program
    for finding in model.findings.values():
        if slot in reads_of(program.definitions[finding.id]):
            yield _to_slot(told, Relation.READS, finding.id)
    for interlock in model.interlocks.values():
        names = (interlock_slot(interlock.id), applies_slot("interlock", interlock.id))
        if _any_reads(told, names, slot):
            yield _link(told, Relation.READS, ThingKind.INTERLOCK, interlock.id, interlock.says)
    for fault in model.faults.values():
        names_ = [shift_slot(fault.id, n) for n in range(len(fault.shifts))]
        names_.append(applies_slot("fault", fault.id))
        if _any_reads(told, names_, slot):
            yield _to_fault(told, Relation.READS, fault.id)


def _any_reads(told: Told, names: Iterable[str], slot: str) -> bool:
    definitions = told.work.rulebook.program.definitions
    return any(slot in reads_of(definitions[n]) for n in names if n in definitions)


def _slot(told: Told, slot: str) -> Links:
    yield from _readers(told, slot)
    for check in told.work.model.checks.values():
        if slot in slots_given(told.work.model, check):
            yield _link(told, Relation.GIVEN_BY, ThingKind.CHECK, check.id, check.does)


def _signal(told: Told, signal: str) -> Links:
    for point in told.work.model.signals[signal].points:
        yield _to_slot(told, Relation.READ_AT, f"{signal}@{point}")


def _finding(told: Told, name: str) -> Links:
    model = told.work.model
    finding = model.findings[name]
    for slot in finding_slots(finding):
        yield _to_slot(told, Relation.FEEDS, slot)
    if finding.applies is not None:
        for slot in condition_slots(finding.applies):
            yield _to_slot(told, Relation.FEEDS, slot)
    yield from _readers(told, name)
    family = family_of(model, name)
    if family != name:
        yield _to_family(told, Relation.FAMILY, family)
    if finding.tests_channel is not None:
        channel = model.channels[finding.tests_channel]
        yield _link(told, Relation.TESTED, ThingKind.CHANNEL, channel.id, channel.label)
    yield from _bears_on(told, family, name)


def _bears_on(told: Told, family: str, member: str) -> Links:
    model = told.work.model
    block = model.evidence.get(member) or model.evidence.get(family)
    for fault in block.seen_with if block is not None else ():
        yield _to_fault(told, Relation.BEARS_ON, fault)
    for hider in model.faults.values():
        if family in hider.hides:
            yield _to_fault(told, Relation.HIDDEN_BY, hider.id)


def _family(told: Told, name: str) -> Links:
    for member in members_of(told.work.model, name):
        yield _to_slot(told, Relation.MEMBER, member)
    yield from _bears_on(told, name, name)


def _channel(told: Told, name: str) -> Links:
    for finding in told.work.model.findings.values():
        if finding.tests_channel == name:
            yield _to_slot(told, Relation.TESTS, finding.id)


def _fault(told: Told, name: str) -> Links:
    model = told.work.model
    fault = model.faults[name]
    for target, block in model.evidence.items():
        if name in block.seen_with:
            yield _to_family(told, Relation.SPEAKS_FOR, family_of(model, target))
    for hidden in fault.hides:
        yield _to_family(told, Relation.HIDES, hidden)
    for condition in fault.leads_to:
        yield _to_fault(told, Relation.LEADS_TO, condition)
    for cause in model.faults.values():
        if name in cause.leads_to:
            yield _to_fault(told, Relation.CAUSED_BY, cause.id)
    for remedy in model.remedies.values():
        if name in remedy.cures:
            yield _link(told, Relation.CURED_BY, ThingKind.REMEDY, remedy.id, remedy.label)


def _interlock(told: Told, name: str) -> Links:
    model = told.work.model
    for slot in condition_slots(model.interlocks[name].holds):
        yield _to_slot(told, Relation.FEEDS, slot)
    for action in model.actions.values():
        if name in (*action.needs, *action.heeds):
            yield _link(told, Relation.NEEDED_BY, ThingKind.ACTION, action.id, action.does)


def _action(told: Told, name: str) -> Links:
    action = told.work.model.actions[name]
    for need in (*action.needs, *action.heeds):
        says = told.work.model.interlocks[need].says
        yield _link(told, Relation.NEEDS, ThingKind.INTERLOCK, need, says)
    for remedy in told.work.model.remedies.values():
        if name in remedy.by_actions:
            yield _link(told, Relation.USED_BY, ThingKind.REMEDY, remedy.id, remedy.label)


def _limit(told: Told, name: str) -> Links:
    program = told.work.rulebook.program
    for finding in told.work.model.findings.values():
        if name in limits_of(program.definitions[finding.id]):
            yield _to_slot(told, Relation.READS, finding.id)
    for interlock in told.work.model.interlocks.values():
        if name in limits_of(program.definitions[interlock_slot(interlock.id)]):
            yield _link(told, Relation.READS, ThingKind.INTERLOCK, interlock.id, interlock.says)


def _check(told: Told, name: str) -> Links:
    for slot in slots_given(told.work.model, told.work.model.checks[name]):
        yield _to_slot(told, Relation.GIVES, slot)


def _remedy(told: Told, name: str) -> Links:
    remedy = told.work.model.remedies[name]
    for action in remedy.by_actions:
        does = told.work.model.actions[action].does
        yield _link(told, Relation.DONE_BY, ThingKind.ACTION, action, does)
    for fault in remedy.cures:
        yield _to_fault(told, Relation.CURES, fault)
