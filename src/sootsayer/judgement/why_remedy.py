"""Why of work: its state, the interlocks of what it is done by, what would clear them, what it
cures."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.judgement.grounds import rule_at
from sootsayer.judgement.verdict import Permitted
from sootsayer.judgement.why_answer import ThingKind, WhyAnswer, WhyRemedy
from sootsayer.judgement.why_links import Told
from sootsayer.judgement.why_parts import bare_answer, basis_words, check_said, truth, unknowns
from sootsayer.judgement.why_steps import steps_of
from sootsayer.rulebook.compiled import applies_slot


def of_remedy(asked: Told, name: str) -> WhyAnswer:
    """The answer for a remedy; its verdict has a plan. One that is ruled out has no state."""
    work, verdict = asked.work, asked.verdict
    remedy = work.model.remedies[name]
    gate = applies_slot("remedy", name)
    gated = gate in work.rulebook.program.definitions
    assert verdict.plan is not None
    said = next((each for each in verdict.plan.remedies if each.remedy == name), None)
    state = None if said is None else said.state.value
    bare = replace(
        bare_answer(ThingKind.REMEDY, name, remedy.label, state),
        rule=rule_at(remedy.place.file, remedy.place.line, ""),
        basis=basis_words(remedy.basis),
        applies=truth(work.derived[gate]) if gated else True,
        applies_steps=steps_of(work, gate) if gated else (),
    )
    if said is None:
        return bare
    permissions = tuple(p for p in verdict.permissions if p.action in remedy.by_actions)
    locks = {i.id: i for p in permissions for i in (*p.interlocks, *p.named)}
    open_ones = [i for i in locks.values() if i.state is not Permitted.CLEAR]
    grounds = {g.slot: g for i in open_ones for g in i.grounds}
    checks = dict.fromkeys(check for each in said.reasons for check in each.would_clear)
    return replace(
        bare,
        remedy=WhyRemedy(
            said=said,
            cures={fault: _confidence(asked, fault) for fault in said.cures},
            permissions=permissions,
            clears=tuple(check_said(work.model.checks[check]) for check in checks),
            currency=verdict.plan.currency,
        ),
        grounds=tuple(grounds[slot] for slot in sorted(grounds)),
        unknown=unknowns(work, tuple(sorted({s for i in open_ones for s in i.awaits}))),
    )


def _confidence(asked: Told, fault: str) -> float:
    value = asked.values.get(fault)
    return value if isinstance(value, float) else 0.0
