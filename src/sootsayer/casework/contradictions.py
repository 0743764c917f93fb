"""Two sources that tell different things of one fact, as data; worded elsewhere, without blame."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from sootsayer.casework.model import Fact, FactSheet
from sootsayer.rulebook.model import Model


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two facts of one slot that disagree; `counts` is of the better source.

    `difference` and `band` (twice both errors in quadrature) are in the signal's unit, None
    for words.
    """

    slot: str
    counts: Fact
    other: Fact
    difference: float | None
    band: float | None


def contradictions(sheet: FactSheet, model: Model) -> list[Contradiction]:
    """Every two sources that disagree beyond their errors, by slot, better sources first."""
    found = []
    for slot in sorted(sheet.by_source):
        if slot.partition("@")[0] not in model.signals:
            continue
        told = [fact for fact in sheet.by_source[slot] if fact.value is not None]
        for better, other in combinations(told, 2):
            contradiction = _disagree(slot, better, other)
            if contradiction is not None:
                found.append(contradiction)
    return found


def _disagree(slot: str, better: Fact, other: Fact) -> Contradiction | None:
    ours, theirs = better.value, other.value
    if isinstance(ours, float) and isinstance(theirs, float):
        difference = ours - theirs
        band = 2 * math.hypot(better.sd, other.sd)
        if abs(difference) <= band:
            return None
        return Contradiction(slot, better, other, difference, band)
    if ours == theirs:
        return None
    return Contradiction(slot, better, other, None, None)
