"""Why of a fault: its prior, what shifts it, and all that speaks for and against."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.judgement.beliefs import prior_now
from sootsayer.judgement.grounds import rule_at
from sootsayer.judgement.why_answer import ThingKind, WhyAnswer, WhyFault, WhyShift
from sootsayer.judgement.why_links import Told
from sootsayer.judgement.why_parts import bare_answer, basis_words, truth, unknowns
from sootsayer.judgement.why_readings import finding_awaits
from sootsayer.judgement.why_steps import steps_of
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, shift_slot
from sootsayer.rulebook.reads import members_of


def of_fault(asked: Told, name: str) -> WhyAnswer:
    work, verdict = asked.work, asked.verdict
    fault = work.model.faults[name]
    gate = applies_slot("fault", name)
    gated = gate in work.rulebook.program.definitions
    bare = replace(
        bare_answer(ThingKind.FAULT, name, fault.label, 0.0),
        rule=rule_at(fault.place.file, fault.place.line, fault.revision),
        basis=basis_words(fault.basis),
        applies=truth(work.derived[gate]) if gated else True,
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
        unknown=unknowns(work, tuple(waits)),
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
    names = members_of(asked.work.model, family)
    return tuple(slot for name in names for slot in finding_awaits(asked, name))


def _shift(work: Workings, fault: str, number: int, times: float) -> WhyShift:
    name = shift_slot(fault, number)
    return WhyShift(steps_of(work, name), times, truth(work.derived[name]))
