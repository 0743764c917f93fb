"""What `Grounds` has worked out of a slot: every set of known slots that decides it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from sootsayer.engine.grounds import Grounds
from sootsayer.engine.sufficient import ALWAYS, Several

Slots = frozenset[str]


def least_of(grounds: Grounds, name: str) -> set[Slots] | None:
    """The sets that decide `name` and hold no other that does; None where too many to be told."""
    grounds.of(name)
    program, form = grounds._program, grounds._form
    goal = program.layout.slot[name]
    sets = grounds._seen[goal]
    if goal in grounds._wide or (isinstance(sets, Several) and sets.more):
        return None
    if form.either is not None:
        told = (sets,) if isinstance(sets, int) else sets.sets
        return {_slots(~each, form.slots) for each in told}
    assert isinstance(sets, int)
    every = {
        _slots(number, form.slots)
        for number in range(1 << len(form.slots))
        if sets == ALWAYS or sets >> number & 1
    }
    return {each for each in every if not any(other < each for other in every)}


def _slots(number: int, slots: Sequence[str]) -> Slots:
    return frozenset(slot for bit, slot in enumerate(reversed(slots)) if number >> bit & 1)


def subsets(slots: tuple[str, ...]) -> list[Slots]:
    """Every set of some of these."""
    return [frozenset(s) for size in range(len(slots) + 1) for s in combinations(slots, size)]
