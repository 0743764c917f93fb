"""Section `remedies`: work, what it cures, what it costs, and what follows it."""

from __future__ import annotations

from sootsayer.documents.nodes import Node
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition_under
from sootsayer.rulebook.desk import Item, Malformed, mapping_of, number_of
from sootsayer.rulebook.frequencies import frequency
from sootsayer.rulebook.model import Money, RemedyDef
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.readings_from import slots_under
from sootsayer.rulebook.targets import key_node


def remedy(item: Item) -> RemedyDef:
    return RemedyDef(
        id=item.id,
        label=item.text("label"),
        does=item.text("does"),
        cures=_cures(item),
        by_actions=item.refer_all("by action", Section.ACTION),
        minutes=item.number("minutes"),
        parts=_parts(item),
        then=item.texts("then"),
        verify_by=slots_under(item, "verify by"),
        voids=item.refer_all("voids", Section.CHANNEL),
        basis=basis_for(item),
        pack=item.pack.id,
        place=item.place,
        caution=item.text("caution"),
        applies=condition_under(item, "applies when", known=True),
    )


def _cures(item: Item) -> dict[str, float]:
    node = item.body.get("cures")
    if node is None:
        raise Malformed(item.place, "cures")
    body = mapping_of(node)
    found: dict[str, float] = {}
    for name in sorted(body.items):
        declared = item.refer(key_node(name, body.key_places[name]), Section.FAULT)
        share = frequency(item, body[name])
        if declared is not None and share is not None:
            found[name] = share
    return found


def _parts(item: Item) -> Money | None:
    node = item.body.get("parts")
    return None if node is None else money(item, node)


def money(item: Item, node: Node) -> Money:
    """A range of prices; the lowest first, or a problem. Raises Malformed."""
    body = mapping_of(node)
    lowest, highest = body.get("from"), body.get("to")
    if lowest is None or highest is None:
        raise Malformed(node.place, "from and to")
    price = Money(number_of(lowest), number_of(highest))
    if price.lowest > price.highest:
        item.wrong(
            node.place,
            f"the price goes from {price.lowest:g} down to {price.highest:g}",
            "write the lower price under `from`",
        )
    return price
