"""What every answer to why is made of: the bare answer, unknown facts, checks, basis."""

from __future__ import annotations

from sootsayer.engine.conditions import Value
from sootsayer.judgement.why_answer import ThingKind, WhyAnswer, WhyCheck, WhyUnknown
from sootsayer.judgement.why_steps import label_of, missing_of
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import Basis, Check
from sootsayer.rulebook.reads import slots_given


def basis_words(basis: Basis) -> str:
    return f"{basis.kind.value}: {basis.source}" if basis.source else basis.kind.value


def bare_answer(kind: ThingKind, thing: str, label: str, value: Value) -> WhyAnswer:
    """The bare answer; `why` fills in case, entry and links."""
    return WhyAnswer(thing=thing, kind=kind, label=label, case="", as_of_entry=0, value=value)


def truth(value: Value) -> bool | None:
    return value if isinstance(value, bool) else None


def unknowns(work: Workings, slots: tuple[str, ...]) -> tuple[WhyUnknown, ...]:
    """Each unknown slot with the checks that give it; the cheapest to settle first."""
    found = []
    for slot in slots:
        missing = missing_of(work, slot)
        if missing is None:
            continue
        checks = sorted(
            (c for c in work.model.checks.values() if slot in slots_given(work.model, c)),
            key=lambda c: (c.minutes, c.id),
        )
        said = tuple(check_said(check) for check in checks)
        found.append(WhyUnknown(slot, label_of(work, slot), missing, said))
    never = float("inf")
    return tuple(sorted(found, key=lambda u: (u.checks[0].minutes if u.checks else never, u.slot)))


def check_said(check: Check) -> WhyCheck:
    return WhyCheck(check.id, check.does, check.where.value, check.minutes, check.caution)
