"""The comparisons that a verdict refuses, with their reasons."""

from __future__ import annotations

from sootsayer.judgement.compare import Comparison, compare, rounds_of
from sootsayer.judgement.grounds import slot_label
from sootsayer.judgement.verdict import RefusedSaid
from sootsayer.judgement.workings import Workings


def refused_said(work: Workings) -> tuple[RefusedSaid, ...]:
    """Of the first round that has readings and the newest; nothing where there is but one."""
    names = rounds_of(work)
    return refusals_of(work, compare(work, names[0], names[-1])) if len(names) > 1 else ()


def refusals_of(work: Workings, compared: Comparison) -> tuple[RefusedSaid, ...]:
    return tuple(
        RefusedSaid(
            slot=refusal.slot,
            label=slot_label(work.model, refusal.slot),
            from_round=compared.from_round,
            to_round=compared.to_round,
            why=tuple(reason.value for reason in refusal.why),
            instead=refusal.instead,
        )
        for refusal in compared.refusals
    )
