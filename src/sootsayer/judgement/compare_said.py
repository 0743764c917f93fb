"""The comparisons that a verdict refuses, with their reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sootsayer.casework.facts import rounds_read
from sootsayer.judgement.grounds import slot_label
from sootsayer.judgement.verdict import RefusedSaid
from sootsayer.judgement.workings import Workings

if TYPE_CHECKING:
    from sootsayer.judgement.compare import Comparison


def refused_said(work: Workings) -> tuple[RefusedSaid, ...]:
    """Of the first round that has readings and the newest; nothing where there is but one."""
    names = tuple(rounds_read(work.case, work.model, work.sheet.as_of))
    if len(names) < 2:
        return ()
    # Imported here: much of what a cold start imports, and most cases have one round.
    from sootsayer.judgement.compare import compare

    return refusals_of(work, compare(work, names[0], names[-1]))


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
