"""Packs say which other packs they name things of."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk

NOT_SAID = '"{name}" belongs to the pack "{pack}", which this pack does not say it uses'


def borrowed_ids(desk: Desk) -> None:
    """A pack that names an id of another pack says so under `uses`."""
    for (pack, owner), borrowed in sorted(desk.borrowed.items()):
        lacking = {other for one, other in desk.borrowed if one == pack}
        whole = ", ".join(sorted(borrowed.uses | lacking))
        desk.wrong(
            borrowed.place,
            say(NOT_SAID, name=borrowed.name, pack=owner),
            say("write `uses: [{packs}]` at the head of this pack", packs=whole),
        )
