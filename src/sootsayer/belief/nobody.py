"""How probable it is that none of some faults is present, from the problem already solved.

A condition on which nothing observed depends is absent where it is not there by itself and each
of its causes that is present spares it: a product over faults of the problem solved without it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress

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


def nobody(problem: Problem, absent: int) -> float:
    """The probability, given the evidence, that all faults in the bitmask are absent."""
    solved = solve_leaves(problem)
    found = _in_leaves(problem, solved, absent)
    if found is None:
        with suppress(TooWide):  # with the conditions on which nothing observed depends
            found = _in_leaves(problem, solve_leaves(problem, hanging(problem)), absent)
    return over(total(problem, absent), total(problem)) if found is None else found


def _in_leaves(problem: Problem, leaves: Sequence[LeafSolved], absent: int) -> float | None:
    parts = [_in_leaf(problem, leaf, absent) for leaf in leaves]
    known = [part for part in parts if part is not None]
    if len(known) < len(parts):
        return None
    return over(add_up(known), add_up(leaf.weight for leaf in leaves))


def _in_leaf(problem: Problem, leaf: LeafSolved, absent: int) -> Scaled | None:
    """The leaf's weight with the faults absent; None where it does not know all their causes."""
    if leaf.leaf.settled.present & absent:
        return 0.0, 0
    found = _odds(problem, leaf, absent)
    if found is None:
        return None
    odds, share = found
    weight = times(leaf.weight, (share, 0))
    for piece in leaf.split:
        here = {fault: ratio for fault, ratio in odds.items() if piece.members >> fault & 1}
        if here:
            weight = times(weight, (_share(problem, piece, here), 0))
    return weight


def _odds(problem: Problem, leaf: LeafSolved, absent: int) -> tuple[dict[int, float], float] | None:
    """What the leaf's faults are multiplied by where present, and what is left of the faults
    that nothing in the leaf depends on; None where a cause of these has causes of its own that
    the leaf does not know."""
    tied = 0
    for piece in leaf.split:
        tied |= piece.members
    known = tied | leaf.leaf.settled.present | leaf.leaf.settled.absent
    odds = dict.fromkeys(bits(absent & tied), 0.0)
    share, loose = 1.0, dict[int, float]()
    for fault in bits(absent & ~known):
        share *= 1.0 - problem.priors[fault]
        for cause, spared in problem.parents[fault].items():
            if leaf.leaf.settled.present >> cause & 1:
                share *= spared
            elif tied >> cause & 1:
                odds[cause] = odds.get(cause, 1.0) * spared
            elif not (absent | known) >> cause & 1:
                loose[cause] = loose.get(cause, 1.0) * spared
    if any(problem.parents[cause] for cause in loose):
        return None
    for cause, spared in loose.items():
        share *= 1.0 - problem.priors[cause] * (1.0 - spared)
    return odds, share


def _share(problem: Problem, piece: Piece, odds: Mapping[int, float]) -> float:
    if not piece.factors:
        ((_, ratio),) = odds.items()
        absent, present = piece.weights[0]
        return (absent + present * ratio) / (absent + present) if absent + present else 0.0
    return max(0.0, raised(solved_of(problem, piece), Change(odds)).times)
