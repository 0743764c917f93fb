"""Which number is in force where a vehicle or a shop may overrule the pack."""

from __future__ import annotations

from sootsayer.casework.model import Case
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.rulebook.model import Model


def in_force(case: Case, model: Model) -> tuple[LimitUsed, ...]:
    """Every limit, the vehicle's own value before the pack's default; by id."""
    used = []
    for limit in model.limits.values():
        own = case.limits.get(limit.id)
        value, origin = (limit.default, "pack") if own is None else (own.value, "vehicle")
        used.append(LimitUsed(limit.id, limit.label, value, limit.unit, origin))
    return tuple(used)
