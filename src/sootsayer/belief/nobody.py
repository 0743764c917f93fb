"""How probable it is that none of some faults is present, from the problem already solved."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.belief.elimination import Piece, solved_of
from sootsayer.belief.problem import Problem
from sootsayer.belief.settling import TooWide
from sootsayer.belief.solving import (
    LeafSolved,
    Scaled,
    add_up,
    hanging,
    over,
    solve_leaves,
    times,
    total,
)
from sootsayer.belief.tables import bits
from sootsayer.belief.tree import Change, raised


def nobody(problem: Problem, absent: int, whole: Scaled) -> float:
    """The probability, given the evidence, that all faults in the bitmask are absent. `whole`:
    the probability of the evidence."""
    try:
        leaves = solve_leaves(problem, hanging(problem))
    except TooWide:  # with the conditions on which nothing observed depends
        return over(total(problem, absent), whole)
    parts = [_in_leaf(problem, leaf, absent) for leaf in leaves]
    return over(
        add_up(part for part in parts if part is not None), add_up(e.weight for e in leaves)
    )


def _in_leaf(problem: Problem, leaf: LeafSolved, absent: int) -> Scaled | None:
    if leaf.leaf.settled.present & absent:
        return None
    odds, share = _odds(problem, leaf, absent)
    weight = times(leaf.weight, (share, 0))
    for piece in leaf.split:
        here = {fault: ratio for fault, ratio in odds.items() if piece.members >> fault & 1}
        if here:
            weight = times(weight, (_share(problem, piece, here), 0))
    return weight


def _odds(problem: Problem, leaf: LeafSolved, absent: int) -> tuple[dict[int, float], float]:
    """What the leaf's faults are multiplied by where present, and what is left of the faults
    that nothing in the leaf depends on."""
    tied = 0
    for piece in leaf.split:
        tied |= piece.members
    known = tied | leaf.leaf.settled.present | leaf.leaf.settled.absent
    odds = dict.fromkeys(bits(absent & tied), 0.0)
    share, loose = 1.0, dict[int, float]()
    for fault in bits(absent & ~known):
        share *= 1.0 - problem.priors[fault]
        for cause, spared in problem.parents[fault].items():  # no more than one
            if leaf.leaf.settled.present >> cause & 1:
                share *= spared
            elif tied >> cause & 1:
                odds[cause] = odds.get(cause, 1.0) * spared
            elif not (absent | known) >> cause & 1:
                loose[cause] = loose.get(cause, 1.0) * spared
    for cause, spared in loose.items():
        share *= 1.0 - problem.priors[cause] * (1.0 - spared)
    return odds, share


def _share(problem: Problem, piece: Piece, odds: Mapping[int, float]) -> float:
    if not piece.factors:
        ((_, ratio),) = odds.items()
        absent, present = piece.weights[0]
        return (absent + present * ratio) / (absent + present) if absent + present else 0.0
    return max(0.0, raised(solved_of(problem, piece), Change(odds)).times)
