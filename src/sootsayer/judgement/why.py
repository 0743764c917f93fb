"""Why and why not, for any id: down to the entry and the rule's line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from difflib import get_close_matches
from functools import partial

from sootsayer.casework.model import Case
from sootsayer.engine.conditions import Value
from sootsayer.judgement.beliefs import prior_now
from sootsayer.judgement.grounds import awaited, ground, rule_at, slot_label, slot_unit
from sootsayer.judgement.judge import tell
from sootsayer.judgement.verdict import FindingSaid, InterlockSaid, Permitted, Verdict
from sootsayer.judgement.why_answer import (
    Missing,
    ThingKind,
    UnknownThing,
    WhyAnswer,
    WhyCheck,
    WhyFault,
    WhyShift,
    WhyUnknown,
)
from sootsayer.judgement.why_links import Told, links_of, told
from sootsayer.judgement.why_steps import (
    applies_steps_of,
    applies_truth,
    label_of,
    missing_of,
    steps_of,
)
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook, applies_slot, interlock_slot, shift_slot
from sootsayer.rulebook.model import Basis, Check, Interlock, Model

NEAR = 3


def why(
    case: Case, rulebook: Rulebook, thing: str, *, now: datetime, as_of: int | None = None
) -> WhyAnswer:
    """The answer for one id or slot. Raises UnknownThing with what is spelt like it."""
    kind = kind_of(rulebook.model, thing)
    if kind is None:
        raise UnknownThing(thing, _near(rulebook.model, thing))
    if kind is ThingKind.CODE:
        thing = f"code:{thing.removeprefix('code:')}"
    work = work_out(case, rulebook, now, as_of)
    asked = told(work, tell(work))
    answer = ANSWERS[kind](asked, thing)
    return replace(
        answer,
        case=case.id,
        as_of_entry=asked.verdict.as_of_entry,
        related=links_of(asked, kind, thing),
    )


def kind_of(model: Model, thing: str) -> ThingKind | None:
    """What an id is, None if it means nothing."""
    shelves: Sequence[tuple[ThingKind, object]] = (
        (ThingKind.FINDING, model.findings),
        (ThingKind.FAMILY, model.families),
        (ThingKind.FAULT, model.faults),
        (ThingKind.CHANNEL, model.channels),
        (ThingKind.INTERLOCK, model.interlocks),
        (ThingKind.ACTION, model.actions),
        (ThingKind.LIMIT, model.limits),
        (ThingKind.CHECK, model.checks),
    )
    for kind, shelf in shelves:
        if isinstance(shelf, dict) and thing in shelf:
            return kind
    if thing.removeprefix("code:") in model.codes:
        return ThingKind.CODE
    name, _, point = thing.partition("@")
    signal = model.signals.get(name)
    if signal is None or (point and point not in signal.points):
        return None
    return ThingKind.SIGNAL if signal.points and not point else ThingKind.SLOT


def every_thing(model: Model) -> tuple[str, ...]:
    """Every id and slot that `why` can answer for, sorted."""
    slots = [f"{signal.id}@{point}" for signal in model.signals.values() for point in signal.points]
    shelves = (
        model.findings,
        model.families,
        model.faults,
        model.channels,
        model.interlocks,
        model.actions,
        model.limits,
        model.checks,
        model.signals,
        model.codes,
        slots,
    )
    return tuple(sorted({name for shelf in shelves for name in shelf}))


def _near(model: Model, thing: str) -> tuple[str, ...]:
    return tuple(get_close_matches(thing[:200], every_thing(model), n=NEAR, cutoff=0.5))


def _basis(basis: Basis) -> str:
    return f"{basis.kind.value}: {basis.source}" if basis.source else basis.kind.value


def _answer(kind: ThingKind, thing: str, label: str, value: Value) -> WhyAnswer:
    """The bare answer; `why` fills in case, entry and links."""
    return WhyAnswer(thing=thing, kind=kind, label=label, case="", as_of_entry=0, value=value)


def _slot(asked: Told, slot: str) -> WhyAnswer:
    work = asked.work
    kind = ThingKind.CODE if slot.startswith("code:") else ThingKind.SLOT
    fact = work.full.facts.get(slot)
    missing = missing_of(work, slot)
    aside = fact if missing is Missing.SET_ASIDE else None
    every = tuple(ground(work.model, f) for f in work.sheet.by_source.get(slot, ()))
    grounds = every or (() if fact is None else (ground(work.model, fact),))
    return replace(
        _answer(kind, slot, slot_label(work.model, slot), work.trusted.values.get(slot)),
        unit=slot_unit(work.model, slot),
        missing=missing,
        grounds=tuple(g for g in grounds if g.value is not None),
        set_aside=aside.channel if aside is not None else None,
        would_be=aside.typed if aside is not None else None,
        unknown=_unknown(work, (slot,)) if missing is not None else (),
    )


def _signal(asked: Told, name: str) -> WhyAnswer:
    return _answer(ThingKind.SIGNAL, name, asked.work.model.signals[name].label, None)


def _finding(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    finding = work.model.findings[name]
    said = _said(asked, name)
    seen = None if said.set_aside is None else work.full
    return replace(
        _answer(ThingKind.FINDING, name, finding.says, work.derived[name]),
        rule=said.rule,
        basis=_basis(finding.basis),
        applies=applies_truth(work, name),
        applies_steps=applies_steps_of(work, name),
        steps=steps_of(work, name, seen),
        grounds=said.grounds,
        borderline=said.borderline,
        set_aside=said.set_aside,
        would_be=said.would_be,
        unknown=_unknown(work, said.awaits),
    )


def _family(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    family = next(f for f in asked.verdict.families if f.id == name)
    model = work.model.families[name]
    bare = _answer(ThingKind.FAMILY, name, family.label, asked.values.get(name))
    rule = rule_at(model.place.file, model.place.line, "")
    if family.speaker is None:
        waits = sorted({s for m in model.members for s in _finding_awaits(asked, m)})
        bare = replace(bare, family=family, rule=rule, unknown=_unknown(work, tuple(waits)))
        aside = next((f for f in map(partial(_said, asked), model.members) if f.set_aside), None)
        if aside is None:
            return bare
        silent = _finding(asked, aside.id)
        return replace(
            bare,
            steps=silent.steps,
            grounds=silent.grounds,
            set_aside=aside.set_aside,
            would_be=aside.would_be,
        )
    speaker = _finding(asked, family.speaker)
    return replace(
        bare,
        family=family,
        rule=rule,
        steps=speaker.steps,
        grounds=speaker.grounds,
        borderline=speaker.borderline,
    )


def _said(asked: Told, name: str) -> FindingSaid:
    return next(f for f in asked.verdict.findings if f.id == name)


def _finding_awaits(asked: Told, name: str) -> tuple[str, ...]:
    return _said(asked, name).awaits


def _channel(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    said = next(c for c in asked.verdict.channels if c.id == name)
    channel = work.model.channels[name]
    waits = sorted({slot for test in said.awaits for slot in awaited(work, test)})
    deciding = said.failed or tuple(t for t in channel.proven_by if t not in said.awaits)
    grounds = {g.slot: g for test in deciding for g in _finding(asked, test).grounds}
    return replace(
        _answer(ThingKind.CHANNEL, name, said.label, said.state.value),
        rule=rule_at(channel.place.file, channel.place.line, ""),
        channel=said,
        grounds=tuple(grounds[slot] for slot in sorted(grounds)),
        unknown=_unknown(work, tuple(waits)),
    )


def _fault(asked: Told, name: str) -> WhyAnswer:
    work, verdict = asked.work, asked.verdict
    fault = work.model.faults[name]
    gate = applies_slot("fault", name)
    gated = gate in work.rulebook.program.definitions
    bare = replace(
        _answer(ThingKind.FAULT, name, fault.label, 0.0),
        rule=rule_at(fault.place.file, fault.place.line, fault.revision),
        basis=_basis(fault.basis),
        applies=_truth(work.derived[gate]) if gated else True,
        applies_steps=steps_of(work, gate) if gated else (),
    )
    said = next((f for f in verdict.faults if f.id == name), None)
    if said is None:
        return bare
    kin = [f.id for f in verdict.faults if f.kind == said.kind]
    waits = sorted({slot for family in said.missing for slot in _family_awaits(asked, family)})
    spoken = {g.slot: g for share in (*said.for_, *said.against) for g in share.grounds}
    return replace(
        bare,
        value=said.confidence,
        grounds=tuple(spoken[slot] for slot in sorted(spoken)),
        unknown=_unknown(work, tuple(waits)),
        fault=WhyFault(
            said=said,
            prior=fault.prior,
            prior_now=prior_now(work, fault),
            shifts=tuple(
                _shift(work, name, number, shift.times) for number, shift in enumerate(fault.shifts)
            ),
            rank=kin.index(name) + 1,
            none=verdict.none[said.kind],
        ),
    )


def _family_awaits(asked: Told, family: str) -> tuple[str, ...]:
    members = asked.work.model.families.get(family)
    names = (family,) if members is None else members.members
    return tuple(slot for name in names for slot in _finding_awaits(asked, name))


def _shift(work: Workings, fault: str, number: int, times: float) -> WhyShift:
    name = shift_slot(fault, number)
    return WhyShift(steps_of(work, name), times, _truth(work.derived[name]))


def _truth(value: Value) -> bool | None:
    return value if isinstance(value, bool) else None


def _interlock(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    interlock = work.model.interlocks[name]
    said = _interlock_said(asked.verdict, name)
    gate = applies_slot("interlock", name)
    gated = gate in work.rulebook.program.definitions
    bare = replace(
        _answer(ThingKind.INTERLOCK, name, interlock.says, None),
        rule=rule_at(interlock.place.file, interlock.place.line, interlock.revision),
        basis=_basis(interlock.basis),
        applies=_truth(work.derived[gate]) if gated else True,
        applies_steps=steps_of(work, gate) if gated else (),
        steps=steps_of(work, interlock_slot(name), work.trusted),
    )
    if said is None:  # no action needs it
        return bare
    return replace(
        bare,
        value=said.state.value,
        grounds=said.grounds,
        interlock=said,
        unknown=_interlock_unknown(work, interlock, said),
    )


def _interlock_unknown(
    work: Workings, interlock: Interlock, said: InterlockSaid
) -> tuple[WhyUnknown, ...]:
    """What it waits for; where the pack names the checks to ask for, those stand first."""
    asked = tuple(_check_said(work.model.checks[name]) for name in interlock.ask)
    return tuple(
        replace(unknown, checks=tuple(dict.fromkeys((*asked, *unknown.checks))))
        for unknown in _unknown(work, said.awaits)
    )


def _interlock_said(verdict: Verdict, name: str) -> InterlockSaid | None:
    for permission in verdict.permissions:
        for said in (*permission.interlocks, *permission.named):
            if said.id == name:
                return said
    return None


def _action(asked: Told, name: str) -> WhyAnswer:
    action = asked.work.model.actions[name]
    said = next(p for p in asked.verdict.permissions if p.action == name)
    open_ones = [i for i in (*said.interlocks, *said.named) if i.state is not Permitted.CLEAR]
    grounds = {g.slot: g for i in open_ones for g in i.grounds}
    waits = sorted({slot for i in open_ones for slot in i.awaits})
    return replace(
        _answer(ThingKind.ACTION, name, action.does, said.state.value),
        rule=rule_at(action.place.file, action.place.line, ""),
        permission=said,
        grounds=tuple(grounds[slot] for slot in sorted(grounds)),
        unknown=_unknown(asked.work, tuple(waits)),
    )


def _limit(asked: Told, name: str) -> WhyAnswer:
    limit = asked.work.model.limits[name]
    used = next(u for u in asked.verdict.limits if u.id == name)
    return replace(
        _answer(ThingKind.LIMIT, name, limit.label, used.value),
        unit=limit.unit,
        rule=rule_at(limit.place.file, limit.place.line, ""),
        basis=_basis(limit.basis),
        limit=used,
    )


def _check(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    check = work.model.checks[name]
    gate = applies_slot("check", name)
    gated = gate in work.rulebook.program.definitions
    given = tuple(s for s in check.gives if missing_of(work, s) is not None)
    return replace(
        _answer(ThingKind.CHECK, name, check.does, None),
        rule=rule_at(check.place.file, check.place.line, ""),
        applies=_truth(work.derived[gate]) if gated else True,
        applies_steps=steps_of(work, gate) if gated else (),
        check=_check_said(check),
        unknown=_unknown(work, given),
    )


def _unknown(work: Workings, slots: tuple[str, ...]) -> tuple[WhyUnknown, ...]:
    """Each unknown slot with the checks that give it; the cheapest to settle first."""
    found = []
    for slot in slots:
        missing = missing_of(work, slot)
        if missing is None:
            continue
        checks = sorted(
            (c for c in work.model.checks.values() if slot in c.gives),
            key=lambda c: (c.minutes, c.id),
        )
        said = tuple(_check_said(check) for check in checks)
        found.append(WhyUnknown(slot, label_of(work, slot), missing, said))
    never = float("inf")
    return tuple(sorted(found, key=lambda u: (u.checks[0].minutes if u.checks else never, u.slot)))


def _check_said(check: Check) -> WhyCheck:
    return WhyCheck(check.id, check.does, check.where.value, check.minutes, check.caution)


ANSWERS: dict[ThingKind, Callable[[Told, str], WhyAnswer]] = {
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
}
