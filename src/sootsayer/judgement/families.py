"""One observation counts once: which member of a family speaks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.judgement.verdict import FamilySaid, FindingSaid
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import evidence_targets, levels_of, members_of

TOLERANCE = 1  # levels by which members may differ without disagreeing; binary ones not at all


def families(model: Model, findings: Sequence[FindingSaid]) -> tuple[FamilySaid, ...]:
    """Every family, by id, with its speaker: the first member that is known and not set aside.

    A finding that has evidence and no family is a family of its own.
    """
    said = {finding.id: finding for finding in findings}
    names = sorted({*model.families, *evidence_targets(model)})
    return tuple(_family(model, name, said) for name in names)


def family_label(model: Model, name: str) -> str:
    """The family's own words, else those of its only member."""
    family = model.families.get(name)
    return model.findings[name].says if family is None else family.label


def _family(model: Model, name: str, said: Mapping[str, FindingSaid]) -> FamilySaid:
    known = [member for member in members_of(model, name) if said[member].level is not None]
    levels = levels_of(model, name)
    apart = tuple(m for m in known[1:] if _apart(levels, said[known[0]], said[m]))
    return FamilySaid(name, family_label(model, name), known[0] if known else None, apart)


def _apart(levels: Sequence[str], one: FindingSaid, other: FindingSaid) -> bool:
    assert one.level is not None
    assert other.level is not None
    apart = abs(levels.index(one.level) - levels.index(other.level))
    return apart > (TOLERANCE if len(levels) > 2 else 0)
