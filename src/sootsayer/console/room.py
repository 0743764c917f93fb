"""How much of each list the short page may show, and what is granted while it still fits.

Every part has its least from the start. Then one thing after another is granted, the weightier
first, each only if the page still fits; what stays out is counted, never cut.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

# The kinds of fault: no more faults than these lead.
_FAULTS = 3
_MOST = 1000


@dataclass(frozen=True, slots=True)
class Room:
    """How many of each list are shown.

    `fors`, `againsts`: of each fault that is weighed, the first first; one with
    nothing of either is left out. `checks`: which of the open
    checks, since a short one may fit where a long one does not; `whole`: which of those that have
    a caution are told with it, the others only being named. `unknown`: of the interlocks of
    driving that are not known. `aside`: findings named for each distrusted instrument; `tests`:
    why it is distrusted. `tells`: what a check is said to tell. `others`: what speaks against a
    kind that does not lead. `blocked`: with reasons and cautions, else only named.
    """

    reasons: int = 1
    unknown: int = 2
    differ: int = 1
    aside: int = 1
    tests: bool = False
    instruments: bool = False
    well: bool = False
    fors: tuple[int, ...] = (1, 1, 0)
    againsts: tuple[int, ...] = (0, 0, 0)
    others: int = 0
    checks: frozenset[int] = frozenset()
    whole: frozenset[int] = frozenset()
    tells: int = 0
    shut: int = 0
    blocked: bool = False
    after: bool = False
    blanks: bool = False


def grants(checks: int) -> Iterator[tuple[str, object]]:
    """The field to be raised and to what, one after another. `checks`: how many are open."""
    yield from [("fors", (2, 1)), ("reasons", 2), ("tells", 1), ("unknown", 4)]
    yield from [("after", True), ("aside", 2)]
    yield from _each("fors", 2)
    yield from _each("againsts", 1)
    yield from [("checks", 1), ("tests", True), ("instruments", True), ("whole", 0), ("others", 1)]
    yield from _each("fors", 3)
    yield from [("aside", 4), ("whole", 1), ("blocked", True), ("well", True)]
    yield from [("shut", 1)]
    yield from [("tells", 1), ("checks", 2), ("unknown", 8), ("reasons", 3), ("differ", 3)]
    yield from [("tells", 2), ("others", 2)]
    for index in range(2, min(checks, 12)):
        yield from [("checks", index), ("whole", index)]
    yield from [("blanks", True), ("shut", 3)]
    for many in (4, 5, 6):
        yield from _each("fors", many)
        yield from _each("againsts", many - 2)
    yield from [(name, _MOST) for name in ("reasons", "aside", "unknown", "shut", "others")]


def least(checks: int) -> Iterator[Room]:
    """The rooms to begin with, the best first: with one open check, though less be said of the
    rest, else with none."""
    tight = Room(fors=(1, 0, 0))
    for room in (Room(), tight, replace(tight, unknown=1), replace(tight, unknown=1, aside=0)):
        yield from (replace(room, checks=frozenset({index})) for index in range(min(checks, 12)))
    yield Room()


def granted(room: Room, name: str, value: object) -> Room:
    """The room with one thing more."""
    if name in {"checks", "whole"}:
        if name == "whole" and value not in room.checks:
            return room
        return replace(room, **{name: getattr(room, name) | {value}})
    if isinstance(value, tuple):
        index, many = value
        raised = list(getattr(room, name))
        raised[index] = many
        return replace(room, **{name: tuple(raised)})  # type: ignore[arg-type]
    return replace(room, **{name: value})  # type: ignore[arg-type]


def _each(name: str, many: int) -> Iterator[tuple[str, object]]:
    for index in range(_FAULTS):
        yield name, (index, many)
