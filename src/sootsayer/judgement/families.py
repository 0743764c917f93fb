"""One observation counts once: which member of a family speaks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from sootsayer.judgement.verdict import FamilySaid, FindingSaid
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import evidence_targets, levels_of, members_of

TOLERANCE = 1  # levels by which members may differ without disagreeing; binary ones not at all


class _Kin(NamedTuple):
    """A family's members, its levels, and what is said of it while none of them is known."""

    members: tuple[str, ...]
    levels: tuple[str, ...]
    silent: FamilySaid


def families(model: Model, findings: Sequence[FindingSaid]) -> tuple[FamilySaid, ...]:
    """Every family, by id, with its speaker: the first member that is known and not set aside.

    A finding that has evidence and no family is a family of its own.
    """
    return families_at(model, {finding.id: finding.level for finding in findings})


def families_at(model: Model, levels: Mapping[str, str | None]) -> tuple[FamilySaid, ...]:
    """The same of every finding's level, None where it is unknown or set aside."""
    every = remembered(model, "families", lambda: _every(model))
    return tuple([_family(kin, levels) for kin in every])


def _every(model: Model) -> tuple[_Kin, ...]:
    return tuple(
        _Kin(
            members_of(model, name),
            levels_of(model, name),
            FamilySaid(name, family_label(model, name), None, ()),
        )
        for name in sorted({*model.families, *evidence_targets(model)})
    )


def family_label(model: Model, name: str) -> str:
    """The family's own words, else those of its only member."""
    family = model.families.get(name)
    return model.findings[name].says if family is None else family.label


def _family(kin: _Kin, levels: Mapping[str, str | None]) -> FamilySaid:
    known = [member for member in kin.members if levels[member] is not None]
    if not known:
        return kin.silent
    first = levels[known[0]]
    apart = tuple(member for member in known[1:] if _apart(kin.levels, first, levels[member]))
    return FamilySaid(kin.silent.id, kin.silent.label, known[0], apart)


def _apart(levels: Sequence[str], one: str | None, other: str | None) -> bool:
    assert one is not None
    assert other is not None
    apart = abs(levels.index(one) - levels.index(other))
    return apart > (TOLERANCE if len(levels) > 2 else 0)
