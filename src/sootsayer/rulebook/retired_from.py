"""Section `retired`: ids that are not used any more, and what to use instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Place, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.rulebook.desk import Desk, Pack, retired_said
from sootsayer.rulebook.model import Retired
from sootsayer.rulebook.names import Gone

KEY = "retired"
NEVER_AGAIN = "give it another id; a retired id is never used again"
MEANT_NOW = 'give it another id; a retired id is never used again, and what it meant is now "{now}"'
RETIRED_TOO = '"{name}" is retired too ({place}), and nothing follows it'
IN_USE = "name an id that is in use, or leave `successor` out"


def collect_retired(desk: Desk, packs: Sequence[Pack]) -> None:
    """Fill the desk's retired ids; one that two packs retire is a problem."""
    for pack in packs:
        for id_, place, body in _items(pack):
            gone = Gone(_text(body.get("successor")), _text(body.get("why")), pack.id, place)
            first = desk.names.retired.setdefault(id_, gone)
            if first is not gone:
                what = say('"{id}" is already retired at {place}', id=id_, place=first.place)
                desk.wrong(place, what, say("retire it once"))


def retired(desk: Desk, packs: Sequence[Pack]) -> dict[str, Retired]:
    """Every retired id, sorted. Notes ids still declared, and successors that are not there.

    To be called when all names are collected.
    """
    for pack in packs:
        for id_, place, body in _items(pack):
            if desk.names.retired[id_].place == place:
                _is_gone(desk, id_)
                _successor_is_there(desk, pack, id_, body.get("successor"))
    return {
        id_: Retired(id_, gone.successor, gone.why, gone.pack, gone.place)
        for id_, gone in sorted(desk.names.retired.items())
    }


def _items(pack: Pack) -> Iterator[tuple[str, Place, Mapping]]:
    body = pack.document.root.get(KEY)
    if isinstance(body, Mapping):
        for id_, node in body.items.items():
            if isinstance(node, Mapping):
                yield id_, body.key_places[id_], node


def _is_gone(desk: Desk, id_: str) -> None:
    names, gone = desk.names, desk.names.retired[id_]
    for space in (names.things, names.points):
        declared = space.get(id_)
        if declared is not None:
            now = names.now_called(id_)
            instead = say(MEANT_NOW, now=now) if now else say(NEVER_AGAIN)
            desk.wrong(declared.place, retired_said(id_, gone), instead)


def _successor_is_there(desk: Desk, pack: Pack, id_: str, node: Node | None) -> None:
    if not isinstance(node, Scalar):
        return
    names, name = desk.names, node.text
    known = {*names.things, *names.points}
    if name in known:
        return
    if name in names.retired:
        if not names.now_called(id_):
            what = say(RETIRED_TOO, name=name, place=names.retired[name].place)
            desk.wrong(node.place, what, say(IN_USE))
        return
    if not pack.uses & names.unreadable:
        desk.wrong(
            node.place,
            say('there is no "{name}" to follow "{id}"', name=name, id=id_),
            did_you_mean(name, known) or say(IN_USE),
        )


def _text(node: Node | None) -> str:
    return node.text.strip() if isinstance(node, Scalar) else ""
