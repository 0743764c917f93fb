"""What a plan has to choose among, as plain data: candidates, work, and looks.

A *candidate* is a set of faults that together explain what was found. A piece of *work* costs
something and cures each fault in its reach with some chance, once and for all: tried again it
does no better. A *look* (a check) costs something and changes nothing but what is known.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

# Work that would cover up a fault waits until that fault is no likelier than this.
HIDDEN_AT_MOST = 0.05


@dataclass(frozen=True, slots=True)
class Candidate:
    """A set of faults, none empty, and its probability."""

    faults: frozenset[str]
    probability: float


@dataclass(frozen=True, slots=True)
class Work:
    """`cost` in the problem's measure, above 0 or 0; `cures`: fault to its chance in (0, 1].

    `needs`: while one of these faults is there the work does nothing, and may be tried again
    once it is mended. `hides`: faults that it would cover up. `sees`: groups of faults of which
    it is known, after the work, whether any is left; that none at all is left is always known.
    """

    id: str
    cost: float
    cures: dict[str, float]
    needs: frozenset[str] = frozenset()
    hides: frozenset[str] = frozenset()
    sees: tuple[frozenset[str], ...] = ()


@dataclass(frozen=True, slots=True)
class Look:
    """`outcomes`: for each outcome its probability given each candidate, in their order.

    For every candidate the outcomes add to 1. Looks come before the work, each once, and given
    the candidate they are independent.
    """

    id: str
    cost: float
    outcomes: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """`unrepaired`: what it costs to stop with a fault left, tried or not."""

    candidates: tuple[Candidate, ...]
    work: tuple[Work, ...]
    unrepaired: float
    looks: tuple[Look, ...] = ()
    faults: tuple[str, ...] = field(init=False, default=())

    def __post_init__(self) -> None:
        _check(self)
        names = sorted({fault for each in self.candidates for fault in each.faults})
        object.__setattr__(self, "faults", tuple(names))


def _check(problem: Problem) -> None:
    """Raises ValueError for a problem that means nothing."""
    if not problem.candidates or any(not each.faults for each in problem.candidates):
        raise ValueError("every candidate is a set of faults, and there is at least one")
    _share("the probability of a candidate", (c.probability for c in problem.candidates))
    if abs(math.fsum(c.probability for c in problem.candidates) - 1.0) > 1e-9:
        raise ValueError("the probabilities of the candidates do not add to 1")
    if len({each.faults for each in problem.candidates}) < len(problem.candidates):
        raise ValueError("a candidate stands twice")
    moves: list[Work | Look] = [*problem.work, *problem.looks]
    if len({each.id for each in moves}) < len(moves):
        raise ValueError("two moves have one id")
    for cost in (*(each.cost for each in moves), problem.unrepaired):
        if not (math.isfinite(cost) and cost >= 0.0):
            raise ValueError(f"no cost: {cost}")
    for work in problem.work:
        _share(f"the chance of {work.id}", work.cures.values())
    for look in problem.looks:
        _look(look, len(problem.candidates))


def _look(look: Look, candidates: int) -> None:
    for outcome in look.outcomes:
        if len(outcome) != candidates:
            raise ValueError(f"{look.id} has not one share for each candidate")
        _share(f"an outcome of {look.id}", outcome)
    for shares in zip(*look.outcomes, strict=True):
        if abs(math.fsum(shares) - 1.0) > 1e-6:
            raise ValueError(f"the outcomes of {look.id} do not add to 1")


def _share(what: str, values: Iterable[float]) -> None:
    for value in values:
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{what} is {value}, not from 0 to 1")
