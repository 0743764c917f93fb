"""Keys `opening` and `order`: what is asked first, and the customary order of all checks.

One pack says each. A shop's own pack that says it stands instead of the shipped one.
"""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Place
from sootsayer.rulebook.collect import AN_ID, CANNOT_BE_AN_ID, ID
from sootsayer.rulebook.desk import Desk, Item, Malformed, Pack, listing_of, mapping_of
from sootsayer.rulebook.model import OpeningGroup
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.shops_packs import is_shops

OPENING, ORDER = "opening", "order"


def opening(desk: Desk, packs: Sequence[Pack]) -> tuple[OpeningGroup, ...]:
    """The opening groups, in the order in which they are asked."""
    pack = _who_says(desk, packs, OPENING)
    if pack is None:
        return ()
    groups: list[OpeningGroup] = []
    try:
        for node in listing_of(pack.document.root[OPENING]):
            group = _group(desk, pack, mapping_of(node))
            if any(each.id == group.id for each in groups):
                what = say('"{id}" is the group of two', id=group.id)
                desk.wrong(group.place, what, say("name it once"))
            groups.append(group)
    except Malformed as malformed:
        _has_wrong_shape(desk, pack, malformed)
    return tuple(groups)


def customary_order(desk: Desk, packs: Sequence[Pack]) -> tuple[str, ...]:
    """The checks in the customary order."""
    pack = _who_says(desk, packs, ORDER)
    if pack is None:
        return ()
    root = pack.document.root
    try:
        return Item(desk, pack, ORDER, root.key_places[ORDER], root).refer_all(ORDER, Section.CHECK)
    except Malformed as malformed:
        _has_wrong_shape(desk, pack, malformed)
        return ()


def _who_says(desk: Desk, packs: Sequence[Pack], key: str) -> Pack | None:
    """The pack whose `key` is in force; a second one of the same kind is a problem."""
    saying = [pack for pack in packs if key in pack.document.root]
    own = [pack for pack in saying if is_shops(pack.id)]
    if not saying:
        return None
    first, *others = own or saying
    for other in others:
        stands = first.document.root.key_places[key]
        desk.wrong(
            other.document.root.key_places[key],
            say(
                '`{key}` stands in the pack "{pack}" too ({place})',
                key=key,
                pack=first.id,
                place=stands,
            ),
            say("let one pack say it whole"),
        )
    return first


def _group(desk: Desk, pack: Pack, body: Mapping) -> OpeningGroup:
    item = Item(desk, pack, OPENING, body.place, body)
    name = item.text("group")
    if ID.fullmatch(name) is None:
        item.wrong(
            _at(body, "group"),
            say(CANNOT_BE_AN_ID, id=name),
            say(AN_ID),
        )
    elif name in desk.names.things:
        first = desk.names.things[name]
        item.wrong(
            _at(body, "group"),
            say(
                'the group "{id}" is already a {first} at {place}',
                id=name,
                first=first.section.word,
                place=first.place,
            ),
            say("give the group another id; ids are shared by all packs"),
        )
    checks = item.refer_all("asks", Section.CHECK)
    return OpeningGroup(name, item.text("says"), checks, pack.id, body.place)


def _at(body: Mapping, key: str) -> Place:
    node = body.get(key)
    return body.place if node is None else node.place


def _has_wrong_shape(desk: Desk, pack: Pack, malformed: Malformed) -> None:
    if pack.shape_is_right:
        desk.misshapen(malformed)
