"""Slots as packs write them: a signal, `signal@point`, or a finding."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Place, Scalar
from sootsayer.documents.problems import WRITE, did_you_mean
from sootsayer.rulebook.desk import Item
from sootsayer.rulebook.model import SignalKind
from sootsayer.rulebook.names import BINARY, Declared, Section

FACTS = (Section.SIGNAL,)
ANY = (Section.SIGNAL, Section.FINDING)


class Holds(Enum):
    """What a slot holds."""

    NUMBER = "number"
    CHOICE = "choice"
    YES_NO = "yes-no"
    LEVEL = "level"
    TRUTH = "truth"
    UNCLEAR = "unclear"

    @property
    def words(self) -> Said:
        """It, as a sentence says it."""
        return say(_HOLDS[self])


_HOLDS = {
    Holds.NUMBER: "a number",
    Holds.CHOICE: "a choice",
    Holds.YES_NO: "yes or no",
    Holds.LEVEL: "a level",
    Holds.TRUTH: "true or false",
    Holds.UNCLEAR: "something whose own declaration is broken",
}


@dataclass(frozen=True, slots=True)
class SlotShape:
    """A slot that exists. `words` are its choices or levels, `unit` that of its numbers."""

    name: str
    holds: Holds
    unit: str = ""
    words: tuple[str, ...] = ()


def slot_at(
    item: Item, name: str, place: Place, sections: tuple[Section, ...] = ANY
) -> SlotShape | None:
    """The slot called `name`; None, with a problem noted, if there is none."""
    signal, at, point = name.partition("@")
    node = Scalar(signal, signal, place)
    if _is_family(item, signal, place):
        return None
    declared = item.refer(node, *(FACTS if at else sections))
    if declared is None:
        return None
    if declared.section is Section.FINDING:
        return _finding_shape(declared)
    return _signal_slot(item, declared, point if at else None, place)


def is_computed(item: Item, slot: str) -> bool:
    """Whether the slot is one of a quantity, and of nothing else that has the id."""
    names, name = item.desk.names, slot.partition("@")[0]
    declared = names.things.get(name)
    if declared is None or name in names.twice:
        return False
    return declared.section is Section.QUANTITY


def _is_family(item: Item, name: str, place: Place) -> bool:
    declared = item.desk.names.things.get(name)
    if declared is None or declared.section is not Section.FAMILY:
        return False
    what = say('"{name}" is a family, which has no value of its own', name=name)
    item.wrong(place, what, say("name a member of it"))
    return True


def _finding_shape(declared: Declared) -> SlotShape:
    if declared.levels is None:
        return SlotShape(declared.id, Holds.UNCLEAR)
    holds = Holds.TRUTH if declared.levels == BINARY else Holds.LEVEL
    return SlotShape(declared.id, holds, words=declared.levels)


def _signal_slot(
    item: Item, declared: Declared, point: str | None, place: Place
) -> SlotShape | None:
    shape = declared.signal
    name = declared.id if point is None else f"{declared.id}@{point}"
    if shape is None:
        return SlotShape(name, Holds.UNCLEAR)
    if not _point_is_right(item, declared.id, shape.points, point, place):
        return None
    holds = {
        SignalKind.NUMBER: Holds.NUMBER,
        SignalKind.CHOICE: Holds.CHOICE,
        SignalKind.YES_NO: Holds.YES_NO,
    }[shape.kind]
    return SlotShape(name, holds, shape.unit, shape.choices)


def _point_is_right(
    item: Item, signal: str, points: tuple[str, ...], point: str | None, place: Place
) -> bool:
    if point is None and not points:
        return True
    if point in points:
        return True
    slots = ", ".join(f"{signal}@{each}" for each in points)
    if point is None:
        what = say('"{signal}" is read at a point, and none is named', signal=signal)
        item.wrong(place, what, say(WRITE, right=slots))
        return False
    if not points:
        what = say('"{signal}" has no points', signal=signal)
        item.wrong(place, what, say("write `{signal}` alone", signal=signal))
        return False
    guess = did_you_mean(point, points)
    what = say('"{signal}" is not read at "{point}"', signal=signal, point=point)
    item.wrong(place, what, guess or say(WRITE, right=slots))
    return False
