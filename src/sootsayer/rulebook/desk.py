"""What the parsers of all sections share: the names, the problems, and how to take nodes apart.

Problems are always collected, never raised one by one. Only a node of quite the wrong shape
raises `Malformed`, which ends the reading of that one item; the schema has then said why.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Place, Scalar
from sootsayer.documents.problems import (
    LEAVE_IT_OUT,
    WRITE,
    WRITE_NAME,
    Problem,
    did_you_mean,
    either,
)
from sootsayer.rulebook.model import Basis, Override, Retired
from sootsayer.rulebook.names import Declared, Gone, Names, Section

NOT_OF_THIS_KIND = '"{name}" is a {kind} ({place}), not a {wanted}'
DECLARE_IT = "declare it under `{section}`, or add its pack to the folder"


class Malformed(Exception):  # noqa: N818 (says what the node is)
    """A node has not the shape that was wanted."""

    def __init__(self, place: Place, wanted: Said) -> None:
        self.place = place
        self.wanted = wanted
        super().__init__(wanted)


@dataclass(frozen=True, slots=True)
class Pack:
    """One readable pack file: its header, and its document for the sections."""

    id: str
    uses: frozenset[str]
    basis: Basis | None
    document: Document
    shape_is_right: bool


@dataclass(frozen=True, slots=True)
class Borrowed:
    """Where a pack first names something of another, and the packs that it says it uses."""

    place: Place
    name: str
    uses: frozenset[str]


@dataclass(slots=True)
class Desk:
    """Names and problems of one run over all packs.

    `places` remembers where parts of an item stand, keyed as the checks ask for them, for
    example ("hides", fault, family). `borrowed` is the first place where a pack (given with
    what it uses) names something of a pack that it does not say it uses. `overrides` are
    those in force. `unread`: a file or folder could not be read at all.
    """

    names: Names
    lines: dict[str, tuple[str, ...]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    places: dict[tuple[str, ...], Place] = field(default_factory=dict)
    borrowed: dict[tuple[str, str], Borrowed] = field(default_factory=dict)
    codes: set[str] = field(default_factory=set)
    overrides: list[Override] = field(default_factory=list)
    unread: bool = False

    def wrong(self, place: Place, what: Said, instead: Said, *, first: bool = False) -> None:
        """Note a problem, quoting its line; `first`: others may only follow from it."""
        lines = self.lines.get(place.file, ())
        line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
        self.problems.append(Problem(place, what, instead, line, first))

    def misshapen(self, malformed: Malformed) -> None:
        """Note a node of quite the wrong shape, and what was wanted there."""
        what = say("this has not the right shape")
        self.wrong(malformed.place, what, say(WRITE, right=malformed.wanted))

    def named_twice(self, place: Place, name: str, key: str) -> None:
        """Note what stands twice in the list under `key`."""
        what = say('"{name}" stands twice in `{key}`', name=name, key=key)
        self.wrong(place, what, say("name it once"))

    def overriding_basis(self, of: str, *path: str) -> Basis | None:
        """The basis of a shop's number at this path, None where the pack's own stands."""
        for each in self.overrides:
            if each.of == of and each.path == path:
                return each.basis
        return None


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that a pack says: its id, its body, and the desk it is read at."""

    desk: Desk
    pack: Pack
    id: str
    place: Place
    body: Mapping

    def wrong(self, place: Place, what: Said, instead: Said, *, first: bool = False) -> None:
        self.desk.wrong(place, what, instead, first=first)

    def text(self, key: str, default: str = "") -> str:
        node = self.body.get(key)
        return default if node is None else text_of(node)

    def number(self, key: str, default: float = 0.0) -> float:
        node = self.body.get(key)
        return default if node is None else number_of(node)

    def texts(self, key: str) -> tuple[str, ...]:
        node = self.body.get(key)
        return () if node is None else tuple(text_of(each) for each in listing_of(node))

    def refer(self, node: Node, *sections: Section) -> Declared | None:
        """The declared thing that `node` names; None, with a problem noted, if there is none."""
        name = text_of(node)
        names = self.desk.names
        declared = names.space(sections[0]).get(name)
        if declared is not None and declared.is_one_of(sections):
            self.borrow(declared.pack, declared.id, node.place)
            return declared
        wanted = either([section.word for section in sections])
        if declared is not None:
            kind, place = declared.section.word, declared.place
            self.wrong(
                node.place,
                say(NOT_OF_THIS_KIND, name=name, kind=kind, place=place, wanted=wanted),
                say("name a {wanted}", wanted=wanted),
            )
        elif name in names.retired:
            self.say_retired(name, node.place)
        elif not self.pack.uses & names.unreadable:
            guess = did_you_mean(name, names.of(*sections))
            self.wrong(
                node.place,
                say('there is no {wanted} "{name}"', wanted=wanted, name=name),
                guess or say(DECLARE_IT, section=sections[0].value),
            )
        return None

    def refer_all(self, key: str, *sections: Section) -> tuple[str, ...]:
        """The ids in the list under `key`, those that are declared; repeats are a problem."""
        node = self.body.get(key)
        found: list[str] = []
        for each in listing_of(node) if node is not None else ():
            declared = self.refer(each, *sections)
            if declared is None:
                continue
            if declared.id in found:
                self.desk.named_twice(each.place, declared.id, key)
                continue
            found.append(declared.id)
        return tuple(found)

    def say_retired(self, name: str, place: Place) -> None:
        """Note that a retired id is named, and what to write instead."""
        gone, now = self.desk.names.retired[name], self.desk.names.now_called(name)
        self.wrong(place, retired_said(name, gone), instead_of_retired(now))

    def borrow(self, owner: str, name: str, place: Place) -> None:
        """Note that something of the pack `owner` is named here."""
        if owner in {self.pack.id, *self.pack.uses} or name in self.desk.names.twice:
            return
        pair = (self.pack.id, owner)
        first = self.desk.borrowed.get(pair)
        if first is None or place < first.place:
            self.desk.borrowed[pair] = Borrowed(place, name, self.pack.uses)


def retired_said(name: str, gone: Gone | Retired) -> Said:
    """What is wrong with a retired id."""
    return say('"{name}" is retired ({place}): {why}', name=name, place=gone.place, why=gone.why)


def instead_of_retired(now: str) -> Said:
    """What would be right in its place; `now` is what stands for it today, "" if nothing does."""
    return say(WRITE_NAME, name=now) if now else say(LEAVE_IT_OUT)


def instead_of_format(known: int) -> Said:
    """What would be right for a file of a format that is not known."""
    return say("write `format: {known}`, or use a newer version of this program", known=known)


def groups_of(pack: Pack) -> list[Scalar]:
    """The ids of the pack's opening groups, as nodes."""
    body = pack.document.root.get("opening")
    bodies = body.items if isinstance(body, Listing) else ()
    ids = (each.get("group") for each in bodies if isinstance(each, Mapping))
    return [each for each in ids if isinstance(each, Scalar)]


def text_of(node: Node) -> str:
    """A scalar as typed. Raises Malformed."""
    if not isinstance(node, Scalar):
        raise Malformed(node.place, say("a text"))
    return node.text


def number_of(node: Node) -> float:
    """A plain number. Raises Malformed."""
    value = node.value if isinstance(node, Scalar) else None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Malformed(node.place, say("a number"))
    return float(value)


def mapping_of(node: Node) -> Mapping:
    if not isinstance(node, Mapping):
        raise Malformed(node.place, say("a mapping"))
    return node


def listing_of(node: Node) -> Listing:
    if not isinstance(node, Listing):
        raise Malformed(node.place, say("a list"))
    return node


def listed(words: Iterable[str]) -> Said:
    """`"a", "b" or "c"`, for a sentence that offers a choice."""
    return either([f'"{word}"' for word in words])
