"""Which number is in force where a vehicle or a shop may overrule the pack."""

from __future__ import annotations

from sootsayer.casework.model import Case
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import LimitDef, Model
from sootsayer.rulebook.shop import Shop


def in_force(case: Case, model: Model, shop: Shop | None) -> tuple[LimitUsed, ...]:
    """Every limit by id: the vehicle's own value before the shop's before the pack's default."""
    own = case.limits.keys() | (() if shop is None else shop.limits.keys())
    as_packed = remembered(model, "limits", lambda: tuple(map(_packed, model.limits.values())))
    if own.isdisjoint(model.limits):
        return as_packed
    return tuple(_used(limit, case, shop) for limit in model.limits.values())


def _packed(limit: LimitDef) -> LimitUsed:
    return LimitUsed(limit.id, limit.label, limit.default, limit.unit, "pack")


def _used(limit: LimitDef, case: Case, shop: Shop | None) -> LimitUsed:
    if limit.id in case.limits:
        value, origin = case.limits[limit.id].value, "vehicle"
    elif shop is not None and limit.id in shop.limits:
        value, origin = shop.limits[limit.id].value, "shop"
    else:
        return _packed(limit)
    return LimitUsed(limit.id, limit.label, value, limit.unit, origin)
