"""One observation counts once: which member of a family speaks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.judgement.verdict import FamilySaid, FindingSaid
from sootsayer.rulebook.model import Family, Model

TOLERANCE = 1  # levels by which members may differ without disagreeing; binary ones not at all


def families(model: Model, findings: Sequence[FindingSaid]) -> tuple[FamilySaid, ...]:
    """Every family with its speaker, the first member that is known and not set aside."""
    said = {finding.id: finding for finding in findings}
    return tuple(_family(family, said) for family in model.families.values())


def _family(family: Family, said: Mapping[str, FindingSaid]) -> FamilySaid:
    known = [member for member in family.members if said[member].level is not None]
    speaker = known[0] if known else None
    disagreeing = tuple(m for m in known[1:] if _apart(family, said[known[0]], said[m]))
    return FamilySaid(family.id, family.label, speaker, disagreeing)


def _apart(family: Family, one: FindingSaid, other: FindingSaid) -> bool:
    assert one.level is not None
    assert other.level is not None
    apart = abs(family.levels.index(one.level) - family.levels.index(other.level))
    return apart > (TOLERANCE if len(family.levels) > 2 else 0)
