"""The next checks as one walk round the vehicle, for a page to take along.

Pure order and grouping: a leg is a state of the vehicle, and the legs come in the order in
which a cold vehicle passes through them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from sootsayer.rulebook.model import CODES, Check, Model, Where


class Leg(Enum):
    """A state of the vehicle; the order of definition is that of the walk."""

    ASK = "ask"
    COLD = "cold"
    KEY_ON = "key on"
    WARM = "warm"
    HELD_SPEED = "held speed"
    HANDS_ON = "hands on"


LEGS = tuple(Leg)
COLD = "cold"  # points whose ids begin with it are read before the engine is warm
KEY_ON_POINTS = frozenset({"rest", "applied"})
WARM_POINTS = frozenset({"idle"})


@dataclass(frozen=True, slots=True)
class Blank:
    """One answer to be written down: its slot; the unit of a number; the words of a choice."""

    slot: str
    unit: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One check with its blanks, in the order in which their answers go in afterwards."""

    check: str
    blanks: tuple[Blank, ...]


@dataclass(frozen=True, slots=True)
class SheetLeg:
    """One part of the walk."""

    leg: Leg
    lines: tuple[SheetLine, ...]


def sheet(model: Model, checks: Iterable[str], asked: frozenset[str]) -> tuple[SheetLeg, ...]:
    """The checks as one walk. Each stands once; of a check only what was not asked has a blank.

    Within a leg, checks that take the same point stand together, then in the order given.
    """
    given = list(dict.fromkeys(checks))
    rank = {id_: number for number, id_ in enumerate(given)}
    by_leg: dict[Leg, list[str]] = {}
    for id_ in given:
        by_leg.setdefault(leg_of(model.checks[id_]), []).append(id_)
    return tuple(
        SheetLeg(leg, _lines(model, by_leg[leg], rank, asked)) for leg in LEGS if leg in by_leg
    )


def leg_of(check: Check) -> Leg:
    """The latest state of the vehicle that the check needs."""
    if check.where is Where.COUNTER:
        return Leg.ASK
    points = [slot.partition("@")[2] for slot in check.gives]
    legs = [_leg_at(point) for point in points if point]
    if check.where is Where.HANDS_ON:
        return Leg.HANDS_ON
    return max(legs, key=LEGS.index, default=Leg.KEY_ON)


def _leg_at(point: str) -> Leg:
    if point.startswith(COLD):
        return Leg.COLD
    if point in KEY_ON_POINTS:
        return Leg.KEY_ON
    return Leg.WARM if point in WARM_POINTS else Leg.HELD_SPEED


def _lines(
    model: Model, ids: list[str], rank: dict[str, int], asked: frozenset[str]
) -> tuple[SheetLine, ...]:
    first_of: dict[tuple[str, ...], int] = {}
    for id_ in ids:
        first_of.setdefault(_points(model.checks[id_]), rank[id_])
    ids = sorted(ids, key=lambda id_: (first_of[_points(model.checks[id_])], rank[id_]))
    return tuple(SheetLine(id_, _blanks(model, model.checks[id_], asked)) for id_ in ids)


def _points(check: Check) -> tuple[str, ...]:
    return tuple(sorted({slot.partition("@")[2] for slot in check.gives}))


def _blanks(model: Model, check: Check, asked: frozenset[str]) -> tuple[Blank, ...]:
    return tuple(_blank(model, slot) for slot in check.gives if slot not in asked)


def _blank(model: Model, slot: str) -> Blank:
    if slot == CODES:
        return Blank(CODES, "", ())
    signal = model.signals[slot.partition("@")[0]]
    return Blank(slot, signal.unit or "", signal.choices)
