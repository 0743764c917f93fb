"""Which rules differ between two rulebooks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from enum import Enum
from typing import Any

from sootsayer.documents.nodes import Place
from sootsayer.rulebook.digests import NO_LOGIC, logic
from sootsayer.rulebook.model import EvidenceDef, Model


class How(Enum):
    NEW = "new"
    GONE = "gone"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class RuleChange:
    """One rule that differs. `part`: what it is, a field of the model (`findings`, ...), or
    `links` of evidence, or `numbers` of a fault; `link`: of a link, the fault ("" is otherwise).
    """

    part: str
    of: str
    how: How
    place: Place
    link: str | None = None

    @property
    def name(self) -> str:
        """The id, and of a link both ends."""
        if self.link is None:
            return self.of
        return f"{self.of}: {self.link or 'otherwise'}"


def changes(before: Model, after: Model) -> tuple[RuleChange, ...]:
    """Every rule whose logic is not the same, in the order of the model, ids sorted."""
    found: list[RuleChange] = []
    for each in fields(Model):
        one, other = getattr(before, each.name), getattr(after, each.name)
        if each.name in NO_LOGIC or not isinstance(one, dict):
            continue
        if each.name == "evidence":
            found += _links(one, other)
        else:
            found += _things(each.name, one, other)
    return tuple(found)


def _things(part: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> Iterator[RuleChange]:
    for name in sorted({*before, *after}):
        if name not in after:
            yield RuleChange(part, name, How.GONE, before[name].place)
        elif name not in before:
            yield RuleChange(part, name, How.NEW, after[name].place)
        elif logic(before[name]) != logic(after[name]):
            yield RuleChange(part, name, How.CHANGED, after[name].place)


def _links(
    before: Mapping[str, EvidenceDef], after: Mapping[str, EvidenceDef]
) -> Iterator[RuleChange]:
    for name in sorted({*before, *after}):
        one, other = _spreads(before.get(name)), _spreads(after.get(name))
        for fault in sorted({*one, *other}):
            if one.get(fault) == other.get(fault):
                continue
            if fault not in other:
                how, place = How.GONE, before[name].places[fault]
            else:
                how = How.CHANGED if fault in one else How.NEW
                place = after[name].places[fault]
            yield RuleChange("links", name, how, place, fault)


def _spreads(block: EvidenceDef | None) -> dict[str, tuple[float, ...]]:
    """Fault to spread; "" is otherwise."""
    return {} if block is None else {"": block.otherwise, **block.seen_with}
