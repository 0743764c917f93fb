"""What every finding says of a drawn vehicle: members of a family see one thing, so that one
number decides them all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from random import Random

from sootsayer.belief.noisy import level_spread
from sootsayer.learning.draw import Drawn
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import observable_for
from sootsayer.rulebook.reads import evidence_targets, levels_of, members_of


def outcomes_of(model: Model, drawn: Drawn, random: Random) -> dict[str, str]:
    """Finding id to the word of its level, for every finding that has evidence.

    The family has the level drawn. A member with an evidence block of its own has the level at
    the same rank of its own spread: what is high for the family is high for the member.
    """
    found: dict[str, str] = {}
    for family in evidence_targets(model):
        levels, level = levels_of(model, family), drawn.levels[family]
        spread = level_spread(
            observable_for(model, family, members_of(model, family)[0]), drawn.faults
        )
        rank = _rank(spread, level, random.random())
        for member in members_of(model, family):
            own = level
            if member in model.evidence and member != family:
                mine = level_spread(observable_for(model, family, member), drawn.faults)
                own = _level(mine, rank)
            found[member] = levels[own]
    return found


def _rank(spread: Sequence[float], level: int, share: float) -> float:
    """A place (0 to 1) inside the level's part of the spread, `share` of the way up."""
    return sum(spread[:level]) + share * spread[level]


def _level(spread: Sequence[float], rank: float) -> int:
    for level, up_to in enumerate(accumulate(spread)):
        if rank < up_to:
            return level
    return len(spread) - 1
