"""What two rulebooks have in common, so that it need not be worked out twice for one case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.rulebook.compiled import Rulebook, definitions_of
from sootsayer.rulebook.digests import logic
from sootsayer.rulebook.model import Model

# Everything by which facts are read, turned and trusted, beside the rules themselves.
_FACTS = ("signals", "points", "channels", "limits", "quantities", "codes", "remedies")


@dataclass(frozen=True, slots=True)
class SameParts:
    """`read`: a case file means the same to both; `derived`: all that the engine derives from it
    is the same; `permitted`: so is every permission."""

    read: bool
    derived: bool
    permitted: bool


def same_parts(before: Rulebook, after: Rulebook) -> SameParts:
    """What is the same by the logic of both, whatever the case."""
    one, other = before.model, after.model
    derived = (
        _alike(one, other, _FACTS)
        and _alike(one, other, ("findings",))
        and sorted(definitions_of(one), key=_name) == sorted(definitions_of(other), key=_name)
    )
    permitted = derived and _alike(one, other, ("interlocks", "actions", "checks"))
    return SameParts(_read_alike(one, other), derived, permitted)


def _read_alike(one: Model, other: Model) -> bool:
    """Whether every name and unit in a case means the same to both."""
    return (
        _alike(one, other, ("signals", "points"))
        and _units(one) == _units(other)
        and one.faults.keys() == other.faults.keys()
        and one.retired.keys() == other.retired.keys()
    )


def _units(model: Model) -> dict[str, str]:
    return {limit.id: limit.unit for limit in model.limits.values()}


def _name(definition: object) -> str:
    return str(getattr(definition, "name", ""))


def _alike(one: Model, other: Model, parts: Sequence[str]) -> bool:
    return all(logic(getattr(one, part)) == logic(getattr(other, part)) for part in parts)
