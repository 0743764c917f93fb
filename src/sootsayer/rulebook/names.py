"""Every id of every pack, with as much of its shape as another pack needs to name it.

Collected before anything is parsed in earnest, so that the order of packs and of items
never matters. A thing whose own declaration is broken keeps its id: naming it is no second
problem.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Listing, Mapping, Node, Place, Scalar
from sootsayer.physics.units import UnitError, parse_number
from sootsayer.rulebook.model import SignalKind


class Section(Enum):
    """The sections of a pack that declare ids: the key in the file."""

    POINT = "points"
    CHANNEL = "channels"
    SIGNAL = "signals"
    QUANTITY = "quantities"
    CHECK = "checks"
    LIMIT = "limits"
    FINDING = "findings"
    FAMILY = "families"
    FAULT = "faults"
    ACTION = "actions"
    INTERLOCK = "interlocks"
    REMEDY = "remedies"

    @property
    def word(self) -> Said:
        """One of them, as a sentence names it."""
        return say(_WORDS[self])


_WORDS = {
    Section.POINT: "point",
    Section.CHANNEL: "channel",
    Section.SIGNAL: "signal",
    Section.QUANTITY: "quantity",
    Section.CHECK: "check",
    Section.LIMIT: "limit",
    Section.FINDING: "finding",
    Section.FAMILY: "family",
    Section.FAULT: "fault",
    Section.ACTION: "action",
    Section.INTERLOCK: "interlock",
    Section.REMEDY: "remedy",
}
# Words of the condition language; an id that is one of them could never be named.
RESERVED = frozenset({"all", "any", "not", "at least", "of", "known", "code", "codes", "unknown"})
BINARY = ("false", "true")


@dataclass(frozen=True, slots=True)
class SignalShape:
    kind: SignalKind
    unit: str
    choices: tuple[str, ...]
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Declared:
    """One declared id. `signal` and `levels` are None for other sections and broken items."""

    id: str
    section: Section
    pack: str
    place: Place
    signal: SignalShape | None = None
    levels: tuple[str, ...] | None = None
    unit: str | None = None  # of a limit

    @property
    def graded(self) -> bool:
        return self.levels is not None and self.levels != BINARY

    def is_one_of(self, sections: tuple[Section, ...]) -> bool:
        """Whether it may stand where one of these is wanted: a quantity is a signal too."""
        if self.section is Section.QUANTITY and Section.SIGNAL in sections:
            return True
        return self.section in sections


@dataclass(frozen=True, slots=True)
class Gone:
    """An id that a pack has retired; `successor` "" where there is none."""

    successor: str
    why: str
    pack: str
    place: Place


@dataclass(slots=True)
class Names:
    """Ids in two spaces: points (they stand only after `@`) and everything else.

    `packs` are the readable packs, `unreadable` the names of files that could not be read:
    what only they declare is missing through no fault of the pack that names it. `twice` are
    ids whose owner is in doubt, `retired` those that no pack may declare or name any more.
    """

    points: dict[str, Declared] = field(default_factory=dict)
    things: dict[str, Declared] = field(default_factory=dict)
    twice: set[str] = field(default_factory=set)
    packs: set[str] = field(default_factory=set)
    unreadable: set[str] = field(default_factory=set)
    retired: dict[str, Gone] = field(default_factory=dict)
    family_of: dict[str, str] = field(default_factory=dict)
    family_levels: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def space(self, section: Section) -> dict[str, Declared]:
        return self.points if section is Section.POINT else self.things

    def of(self, *sections: Section) -> Iterator[str]:
        """The ids declared in these sections."""
        for declared in self.space(sections[0]).values():
            if declared.is_one_of(sections):
                yield declared.id

    def now_called(self, retired: str) -> str:
        """What stands for a retired id today, over several successors; "" if nothing does."""
        seen = {retired}
        name = self.retired[retired].successor
        while name in self.retired and name not in seen:
            seen.add(name)
            name = self.retired[name].successor
        return "" if name in seen else name


def declaration(id_: str, section: Section, pack: str, place: Place, node: Node) -> Declared:
    """What `node` under key `id_` declares, as far as it can be made out."""
    if section is Section.SIGNAL:
        return Declared(id_, section, pack, place, signal=_signal_shape(node))
    if section is Section.QUANTITY:
        return Declared(id_, section, pack, place, signal=_quantity_shape(node))
    if section is Section.FINDING:
        return Declared(id_, section, pack, place, levels=_levels(node))
    if section is Section.LIMIT:
        return Declared(id_, section, pack, place, unit=_limit_unit(node))
    return Declared(id_, section, pack, place)


def _signal_shape(node: Node) -> SignalShape | None:
    if not isinstance(node, Mapping):
        return None
    kind = _text(node.get("kind"))
    if kind not in {each.value for each in SignalKind}:
        return None
    unit = _text(node.get("unit")) or ""
    return SignalShape(
        SignalKind(kind),
        "" if unit == "none" else unit,
        _texts(node.get("choices")),
        _texts(node.get("at")),
    )


def _quantity_shape(node: Node) -> SignalShape | None:
    unit = _text(node.get("unit")) if isinstance(node, Mapping) else None
    if not isinstance(node, Mapping) or unit is None:
        return None
    return SignalShape(
        SignalKind.NUMBER, "" if unit == "none" else unit, (), _texts(node.get("at"))
    )


def _levels(node: Node) -> tuple[str, ...] | None:
    if not isinstance(node, Mapping):
        return None
    grade = node.get("grade")
    if grade is None:
        return BINARY if "when" in node else None
    return (_texts(grade.get("levels")) or None) if isinstance(grade, Mapping) else None


def _limit_unit(node: Node) -> str | None:
    default = _text(node.get("default")) if isinstance(node, Mapping) else None
    if default is None:
        return None
    try:
        return parse_number(default)[1] or ""
    except UnitError:
        return None


def _text(node: Node | None) -> str | None:
    """A scalar as typed (`2500` too: a point may look like a number)."""
    return node.text if isinstance(node, Scalar) else None


def _texts(node: Node | None) -> tuple[str, ...]:
    if not isinstance(node, Listing):
        return ()
    return tuple(item.text for item in node if isinstance(item, Scalar))
