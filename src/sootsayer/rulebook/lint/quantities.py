"""Quantities: none is computed from itself."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import quantity_inputs


def none_rests_on_itself(desk: Desk, model: Model) -> None:
    """Note each quantity from which a chain of inputs leads back to it, one for each ring."""
    said: set[str] = set()
    for quantity in model.quantities.values():
        for slot in [f"{quantity.id}@{point}" for point in quantity.points] or [quantity.id]:
            ring = _ring(model, slot)
            names = [each.partition("@")[0] for each in ring]
            if ring and not said & set(names):
                said.update(names)
                chain = " → ".join([*ring, ring[0]])
                desk.wrong(
                    quantity.place,
                    say("this is computed from itself: {chain}", chain=chain),
                    say("let one of them be computed from readings alone"),
                )


def _ring(model: Model, start: str) -> list[str]:
    """The shortest way from a slot over its inputs back to it; empty where there is none."""
    ways = [[start]]
    seen: set[str] = set()
    while ways:
        way = ways.pop(0)
        for slot in quantity_inputs(model, way[-1]):
            if slot == start:
                return way
            if slot not in seen:
                seen.add(slot)
                ways.append([*way, slot])
    return []
