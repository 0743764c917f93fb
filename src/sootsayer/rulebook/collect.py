"""First pass over all packs: which ids there are, and which are declared twice."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Listing, Mapping, Node, Place, Scalar
from sootsayer.documents.problems import WRITE_NAME
from sootsayer.rulebook.desk import Desk, Pack
from sootsayer.rulebook.names import RESERVED, Declared, Section, declaration

ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
POINT_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
CANNOT_BE_AN_ID = '"{id}" cannot be an id'
AN_ID = "write lower-case words joined by hyphens"
ALREADY = 'the {kind} "{id}" is already a {first} at {place}'


def collect_names(desk: Desk, packs: Sequence[Pack]) -> None:
    """Fill the desk's names from the packs; ids that are wrong or taken become problems."""
    for pack in packs:
        desk.names.packs.add(pack.id)
        for section in Section:
            for id_, place, node in items_of(pack, section):
                _declare(desk, declaration(id_, section, pack.id, place, node))
    for pack in packs:
        for id_, place, node in items_of(pack, Section.FAMILY):
            if desk.names.things[id_].place == place:
                _join(desk, id_, node)


def items_of(pack: Pack, section: Section) -> Iterator[tuple[str, Place, Node]]:
    """Id, place of the key, and body of everything in a section of the pack."""
    body = pack.document.root.get(section.value)
    if isinstance(body, Mapping):
        for id_, node in body.items.items():
            yield id_, body.key_places[id_], node


def _declare(desk: Desk, declared: Declared) -> None:
    pattern = POINT_ID if declared.section is Section.POINT else ID
    if pattern.fullmatch(declared.id) is None or declared.id in RESERVED:
        right = re.sub(r"[^a-z0-9]+", "-", declared.id.lower()).strip("-")
        usable = pattern.fullmatch(right) is not None and right not in RESERVED
        desk.wrong(
            declared.place,
            say(CANNOT_BE_AN_ID, id=declared.id),
            say(WRITE_NAME, name=right) if usable else say(AN_ID),
        )
    space = desk.names.space(declared.section)
    first = space.setdefault(declared.id, declared)
    if first is not declared:
        desk.names.twice.add(declared.id)
        # Nobody knows which is meant, so nothing that names it is held against either.
        space[declared.id] = replace(first, signal=None, levels=None, unit=None)
        desk.wrong(
            declared.place,
            say(
                ALREADY,
                kind=declared.section.word,
                id=declared.id,
                first=first.section.word,
                place=first.place,
            ),
            say("give one of them another id; ids are shared by all packs"),
        )


def _join(desk: Desk, family: str, node: Node) -> None:
    """Note the members of a family, and the levels that they share."""
    members = node if isinstance(node, Listing) else None
    if isinstance(node, Mapping):
        listed = node.get("members")
        members = listed if isinstance(listed, Listing) else None
    for each in members if members is not None else ():
        if isinstance(each, Scalar):
            _join_one(desk, family, each)


def _join_one(desk: Desk, family: str, member: Scalar) -> None:
    names = desk.names
    taken = names.family_of.setdefault(member.text, family)
    if taken != family:
        desk.wrong(
            member.place,
            say(
                '"{id}" is also a member of "{family}" at {place}',
                id=member.text,
                family=taken,
                place=names.things[taken].place,
            ),
            say("let it belong to one family"),
        )
        return
    declared = names.things.get(member.text)
    if declared is not None and declared.section is Section.FINDING and declared.levels:
        names.family_levels.setdefault(family, declared.levels)
