"""What belongs to a shop is told by its ids: they begin with `shop-`, and no others do."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Place
from sootsayer.documents.problems import WRITE_NAME
from sootsayer.rulebook.collect import items_of
from sootsayer.rulebook.desk import Desk, Pack, groups_of
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.shop import PACKS, SHOP_FILE

PREFIX = "shop-"


def is_shops(id_: str) -> bool:
    """Whether an id, of a pack or of anything else, is a shop's own."""
    return id_.startswith(PREFIX)


def ids_are_told_apart(desk: Desk, packs: Sequence[Pack]) -> None:
    """Note shipped packs with a shop's ids, and shops' packs with others."""
    for pack in packs:
        _pack_stands_right(desk, pack)
        for section in Section:
            for id_, place, _ in items_of(pack, section):
                _id_is_right(desk, pack, id_, place)
        for group in groups_of(pack):
            _id_is_right(desk, pack, group.text, group.place)
        gone = pack.document.root.get("retired")
        if isinstance(gone, Mapping):
            for id_, place in gone.key_places.items():
                _id_is_right(desk, pack, id_, place)


def _pack_stands_right(desk: Desk, pack: Pack) -> None:
    folder = Path(pack.document.file).parent
    place = pack.document.root["pack"].place
    if is_shops(pack.id):
        if folder.resolve() == shipped_rules().resolve():
            desk.wrong(
                place,
                say(
                    '"{pack}" lies among the shipped packs and has the id of a shop\'s own',
                    pack=pack.id,
                ),
                say("move it into the folder packs/ of the shop"),
            )
    elif folder.name == PACKS and (folder.parent / SHOP_FILE).is_file():
        desk.wrong(
            place,
            say('"{pack}" is a shop\'s own pack, and its id does not say so', pack=pack.id),
            say('name it "{name}", and its file {name}.yaml', name=f"{PREFIX}{pack.id}"),
        )


def _id_is_right(desk: Desk, pack: Pack, id_: str, place: Place) -> None:
    if is_shops(pack.id) == is_shops(id_):
        return
    if is_shops(pack.id):
        desk.wrong(
            place,
            say(
                '"{id}" is an id of a shop\'s own pack and does not begin with `{prefix}`',
                id=id_,
                prefix=PREFIX,
            ),
            say(WRITE_NAME, name=f"{PREFIX}{id_}"),
        )
    else:
        desk.wrong(
            place,
            say(
                '"{id}" begins with `{prefix}`, which only ids of a shop\'s own packs do',
                id=id_,
                prefix=PREFIX,
            ),
            say("give it an id without that beginning"),
        )
