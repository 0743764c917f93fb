"""Why of what is read and found: facts, findings, families, instruments."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from sootsayer.casework.quantities import missing_inputs
from sootsayer.judgement.grounds import awaited, ground, rule_at, slot_label, slot_unit
from sootsayer.judgement.verdict import FindingSaid
from sootsayer.judgement.why_answer import Missing, ThingKind, WhyAnswer
from sootsayer.judgement.why_links import Told
from sootsayer.judgement.why_parts import bare_answer, basis_words, unknowns
from sootsayer.judgement.why_steps import applies_steps_of, applies_truth, missing_of, steps_of


def of_slot(asked: Told, slot: str) -> WhyAnswer:
    work = asked.work
    kind = ThingKind.CODE if slot.startswith("code:") else ThingKind.SLOT
    fact = work.full.facts.get(slot)
    missing = missing_of(work, slot)
    aside = fact if missing is Missing.SET_ASIDE else None
    every = work.sheet.by_source.get(slot) or (() if fact is None else fact.read)
    lacking = missing_inputs(work.trusted.facts, work.model, slot) or (slot,)
    return replace(
        bare_answer(kind, slot, slot_label(work.model, slot), work.trusted.values.get(slot)),
        unit=slot_unit(work.model, slot),
        missing=missing,
        grounds=tuple(ground(work.model, f) for f in every if f.value is not None),
        set_aside=min(aside.channels) if aside is not None else None,
        would_be=aside.typed if aside is not None else None,
        unknown=unknowns(work, lacking) if missing is not None else (),
    )


def of_signal(asked: Told, name: str) -> WhyAnswer:
    return bare_answer(ThingKind.SIGNAL, name, asked.work.model.signals[name].label, None)


def of_finding(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    finding = work.model.findings[name]
    said = finding_said(asked, name)
    seen = None if said.set_aside is None else work.full
    return replace(
        bare_answer(ThingKind.FINDING, name, finding.says, work.derived[name]),
        rule=said.rule,
        basis=basis_words(finding.basis),
        applies=applies_truth(work, name),
        applies_steps=applies_steps_of(work, name),
        steps=steps_of(work, name, seen),
        grounds=said.grounds,
        borderline=said.borderline,
        set_aside=said.set_aside,
        would_be=said.would_be,
        unknown=unknowns(work, said.awaits),
    )


def of_family(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    family = next(f for f in asked.verdict.families if f.id == name)
    model = work.model.families[name]
    bare = bare_answer(ThingKind.FAMILY, name, family.label, asked.values.get(name))
    rule = rule_at(model.place.file, model.place.line, "")
    if family.speaker is None:
        waits = sorted({s for m in model.members for s in finding_awaits(asked, m)})
        bare = replace(bare, family=family, rule=rule, unknown=unknowns(work, tuple(waits)))
        aside = next(
            (f for f in map(partial(finding_said, asked), model.members) if f.set_aside), None
        )
        if aside is None:
            return bare
        silent = of_finding(asked, aside.id)
        return replace(
            bare,
            steps=silent.steps,
            grounds=silent.grounds,
            set_aside=aside.set_aside,
            would_be=aside.would_be,
        )
    speaker = of_finding(asked, family.speaker)
    return replace(
        bare,
        family=family,
        rule=rule,
        steps=speaker.steps,
        grounds=speaker.grounds,
        borderline=speaker.borderline,
    )


def finding_said(asked: Told, name: str) -> FindingSaid:
    return next(f for f in asked.verdict.findings if f.id == name)


def finding_awaits(asked: Told, name: str) -> tuple[str, ...]:
    return finding_said(asked, name).awaits


def of_channel(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    said = next(c for c in asked.verdict.channels if c.id == name)
    channel = work.model.channels[name]
    waits = sorted({slot for test in said.awaits for slot in awaited(work, test)})
    deciding = said.failed or tuple(t for t in channel.proven_by if t not in said.awaits)
    grounds = {g.slot: g for test in deciding for g in of_finding(asked, test).grounds}
    return replace(
        bare_answer(ThingKind.CHANNEL, name, said.label, said.state.value),
        rule=rule_at(channel.place.file, channel.place.line, ""),
        channel=said,
        grounds=tuple(grounds[slot] for slot in sorted(grounds)),
        unknown=unknowns(work, tuple(waits)),
    )
