"""Sources that tell different things of one fact, as a verdict tells of them."""

from __future__ import annotations

from sootsayer.casework.contradictions import contradictions
from sootsayer.judgement.grounds import ground, slot_label
from sootsayer.judgement.verdict import ContradictionSaid
from sootsayer.judgement.workings import Workings


def contradictions_said(work: Workings) -> tuple[ContradictionSaid, ...]:
    """Every two sources that disagree beyond their errors, by slot. Without blame."""
    model = work.model
    return tuple(
        ContradictionSaid(
            each.slot,
            slot_label(model, each.slot),
            ground(model, each.counts),
            ground(model, each.other),
        )
        for each in contradictions(work.sheet, model)
    )
