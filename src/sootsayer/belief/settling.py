"""Who hides what: all the ways to settle it, each a leaf to be solved by itself.

Each leaf settles just enough hiders for every piece of evidence to know its winner, or that
it has none. Leaves exclude each other and together cover everything, so sums over leaves are
exact, also where hiders of one channel hide different things. Two short cuts keep leaves few:
evidence that touches few faults is a table over them and its hiders, and needs no leaf; and
few hiders that hide the same evidence need two leaves: none present, or some of them, where
that evidence is a table over the hiders alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, cast

from sootsayer.belief.problem import Observed, Problem
from sootsayer.belief.tables import bits

# More leaves than this and the case counts as too wide.
MOST_LEAVES = 512

# Hidden evidence that touches no more faults than this, hiders included, is a table.
MOST_IN_TABLE = 2

# Hiders of a channel that are taken together, some or none, where there are no more of them.
MOST_TOGETHER = 10


class TooWide(Exception):  # noqa: N818 - not an error, a fork in the road
    """Exact elimination would need too large a table, or too many leaves.

    `drop`: the evidence that ties most of the knot, or None where none does.
    """

    def __init__(self, drop: str | None) -> None:
        super().__init__(drop)
        self.drop = drop


class Settled(NamedTuple):
    """One leaf: faults settled as `present` or `absent`, as bitmasks, and the bitmask of those
    channels (numbers as in `Hiding.channels`) of which at least one hider is present."""

    present: int
    absent: int
    some: int = 0


class Hiding(NamedTuple):
    """How each piece of hidden evidence is dealt with: `forked` over its hiders one by one;
    `channels`, bitmasks of hiders taken together; `channel_of`, evidence number to channel
    number. The rest becomes tables."""

    forked: tuple[Observed, ...]
    channels: tuple[int, ...]
    channel_of: dict[int, int]


def hiding(problem: Problem) -> Hiding:
    """How the hidden evidence of the problem is dealt with."""
    found = cast("Hiding | None", problem.memory.get("hiding"))
    if found is None:
        found = problem.memory["hiding"] = _sorted_out(problem)
    return found


def _sorted_out(problem: Problem) -> Hiding:
    forked: list[Observed] = []
    channels: list[int] = []
    channel_of: dict[int, int] = {}
    for one in problem.observed:
        if not one.hiders:
            continue
        if not problem.together:
            forked.append(one)
        elif len(one.hiders) + len(one.links) <= MOST_IN_TABLE:
            continue
        elif len(one.hiders) <= MOST_TOGETHER:
            hiders = sum(1 << hider for hider, _ in one.hiders)
            if hiders not in channels:
                channels.append(hiders)
            channel_of[one.number] = channels.index(hiders)
        else:
            forked.append(one)
    return Hiding(tuple(forked), tuple(channels), channel_of)


def leaves(problem: Problem, present: int = 0, absent: int = 0) -> Iterator[Settled]:
    """All ways to settle who hides what, given faults settled as `present` and `absent`
    (bitmasks); nearest hiders first."""
    plan = hiding(problem)
    stack = [(present, absent)]
    while stack:
        present, absent = stack.pop()
        fork = _undecided(plan.forked, present, absent)
        if fork is None:
            yield from _together(plan.channels, Settled(present, absent), 0)
        else:
            stack.append((present, absent | 1 << fork))
            stack.append((present | 1 << fork, absent))


def _undecided(forked: tuple[Observed, ...], present: int, absent: int) -> int | None:
    for one in forked:
        for hider, _ in one.hiders:
            if present >> hider & 1:
                break
            if not absent >> hider & 1:
                return hider
    return None


def _together(channels: tuple[int, ...], leaf: Settled, channel: int) -> Iterator[Settled]:
    if channel == len(channels):
        # A later channel may have settled all hiders of an earlier one as absent.
        if all(channels[i] & ~leaf.absent for i in bits(leaf.some)):
            yield leaf
        return
    hiders = channels[channel]
    present, absent, some = leaf
    still_open = hiders & ~absent
    if still_open:
        with_some = Settled(present, absent, some | 1 << channel)
        if still_open.bit_count() == 1:
            with_some = Settled(present | still_open, absent, some)
        yield from _together(channels, with_some, channel + 1)
    if not hiders & present:
        yield from _together(channels, Settled(present, absent | hiders, some), channel + 1)


def check_leaves(problem: Problem) -> None:
    """Raises TooWide where there are more leaves than `MOST_LEAVES`."""
    for count, _ in enumerate(leaves(problem), 1):
        if count > MOST_LEAVES:
            most = max(problem.observed, key=lambda one: len(one.hiders))
            raise TooWide(most.id)
