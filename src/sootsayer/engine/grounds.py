"""What decides a derived slot: a minimal set of known slots."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.engine.conditions import Value
from sootsayer.engine.program import Program
from sootsayer.engine.waiting import Waits, awaits

__all__ = ["Waits", "awaits", "minimal_grounds"]


def minimal_grounds(
    program: Program, values: Mapping[str, Value], limits: Mapping[str, float], name: str
) -> tuple[str, ...]:
    """A set of known slots that alone decides the present value of `name`, and none to spare.

    They are input slots, and derived slots that are given in `values`. Found by leaving
    out one after another in sorted order, for which `known` of a slot left out is unknown:
    the set decides the value whatever the others hold. What is unknown in `values` stays
    unknown. Empty if `name` is unknown, or known whatever the inputs are. Raises KeyError
    for an unknown name or a missing limit.
    """
    layout, only = program.layout, (name,)
    goal = layout.slot[name]
    cells = program.load(values, limits, only)
    start = cells.copy()
    program.evaluate(cells, only)
    value = cells[goal]
    if value is None:
        return ()
    for slot, blank in layout.blanks.items():
        if cells[layout.slot[slot]] is not None:
            start[blank] = None
    kept: list[str] = []
    for slot in sorted(program.cone_given(name, values)):
        i = layout.slot[slot]
        if start[i] is None:
            continue
        saved, start[i] = start[i], None
        trial = start.copy()
        program.evaluate(trial, only)
        if trial[goal] != value:
            start[i] = saved
            kept.append(slot)
    return tuple(kept)
