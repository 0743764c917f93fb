"""Why of what is permitted, held to or to be done: interlocks, actions, limits, checks."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.judgement.grounds import rule_at
from sootsayer.judgement.verdict import InterlockSaid, Permitted, Verdict
from sootsayer.judgement.why_answer import ThingKind, WhyAnswer, WhyUnknown
from sootsayer.judgement.why_links import Told
from sootsayer.judgement.why_parts import bare_answer, basis_words, check_said, truth, unknowns
from sootsayer.judgement.why_steps import missing_of, steps_of
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, interlock_slot
from sootsayer.rulebook.model import Interlock
from sootsayer.rulebook.reads import slots_given


def of_interlock(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    interlock = work.model.interlocks[name]
    said = _interlock_said(asked.verdict, name)
    gate = applies_slot("interlock", name)
    gated = gate in work.rulebook.program.definitions
    bare = replace(
        bare_answer(ThingKind.INTERLOCK, name, interlock.says, None),
        rule=rule_at(interlock.place.file, interlock.place.line, interlock.revision),
        basis=basis_words(interlock.basis),
        applies=truth(work.derived[gate]) if gated else True,
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
    asked = tuple(check_said(work.model.checks[name]) for name in interlock.ask)
    return tuple(
        replace(unknown, checks=tuple(dict.fromkeys((*asked, *unknown.checks))))
        for unknown in unknowns(work, said.awaits)
    )


def _interlock_said(verdict: Verdict, name: str) -> InterlockSaid | None:
    for permission in verdict.permissions:
        for said in (*permission.interlocks, *permission.named):
            if said.id == name:
                return said
    return None


def of_action(asked: Told, name: str) -> WhyAnswer:
    action = asked.work.model.actions[name]
    said = next(p for p in asked.verdict.permissions if p.action == name)
    open_ones = [i for i in (*said.interlocks, *said.named) if i.state is not Permitted.CLEAR]
    grounds = {g.slot: g for i in open_ones for g in i.grounds}
    waits = sorted({slot for i in open_ones for slot in i.awaits})
    return replace(
        bare_answer(ThingKind.ACTION, name, action.does, said.state.value),
        rule=rule_at(action.place.file, action.place.line, ""),
        permission=said,
        grounds=tuple(grounds[slot] for slot in sorted(grounds)),
        unknown=unknowns(asked.work, tuple(waits)),
    )


def of_limit(asked: Told, name: str) -> WhyAnswer:
    limit = asked.work.model.limits[name]
    used = next(u for u in asked.verdict.limits if u.id == name)
    return replace(
        bare_answer(ThingKind.LIMIT, name, limit.label, used.value),
        unit=limit.unit,
        rule=rule_at(limit.place.file, limit.place.line, ""),
        basis=basis_words(limit.basis),
        limit=used,
    )


def of_check(asked: Told, name: str) -> WhyAnswer:
    work = asked.work
    check = work.model.checks[name]
    gate = applies_slot("check", name)
    gated = gate in work.rulebook.program.definitions
    given = tuple(s for s in slots_given(work.model, check) if missing_of(work, s) is not None)
    return replace(
        bare_answer(ThingKind.CHECK, name, check.does, None),
        rule=rule_at(check.place.file, check.place.line, ""),
        applies=truth(work.derived[gate]) if gated else True,
        applies_steps=steps_of(work, gate) if gated else (),
        check=check_said(check),
        unknown=unknowns(work, given),
    )
