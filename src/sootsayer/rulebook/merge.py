"""All packs → the model."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any, TypeVar

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Listing, Mapping, Node, Place
from sootsayer.rulebook.collect import items_of
from sootsayer.rulebook.desk import Desk, Item, Malformed, Pack
from sootsayer.rulebook.digests import digests_of, logic, revision_in
from sootsayer.rulebook.evidence_from import Block, block, merged
from sootsayer.rulebook.faults_from import fault
from sootsayer.rulebook.findings_from import family, finding
from sootsayer.rulebook.model import Digests, Model
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.opening_from import customary_order, opening
from sootsayer.rulebook.permissions_from import action, interlock
from sootsayer.rulebook.quantities_from import quantity_and_signal
from sootsayer.rulebook.readings_from import channel, check, limit, point, signal
from sootsayer.rulebook.remedies_from import remedy
from sootsayer.rulebook.retired_from import retired

T = TypeVar("T")


PARSERS: dict[Section, Callable[[Item], Any]] = {
    Section.POINT: point,
    Section.CHANNEL: channel,
    Section.SIGNAL: signal,
    Section.QUANTITY: quantity_and_signal,
    Section.CHECK: check,
    Section.LIMIT: limit,
    Section.FINDING: finding,
    Section.FAMILY: family,
    Section.FAULT: fault,
    Section.ACTION: action,
    Section.INTERLOCK: interlock,
    Section.REMEDY: remedy,
}


def read_model(desk: Desk, packs: Sequence[Pack]) -> Model:
    """The model of everything that could be read; what could not is on the desk."""
    things: dict[Section, dict[str, Any]] = {
        section: _section(desk, packs, section) for section in Section
    }
    quantities = {id_: each[0] for id_, each in things[Section.QUANTITY].items()}
    computed = {id_: each[1] for id_, each in things[Section.QUANTITY].items()}
    blocks = [each for pack in packs for each in _blocks(desk, pack)]
    rules: dict[str, dict[str, Any]] = {
        "findings": things[Section.FINDING],
        "faults": things[Section.FAULT],
        "interlocks": things[Section.INTERLOCK],
        "quantities": quantities,
        "remedies": things[Section.REMEDY],
    }
    told = {name: {id_: logic(rule) for id_, rule in of.items()} for name, of in rules.items()}
    revised = {name: _revised(of, told[name]) for name, of in rules.items()}
    model = Model(
        signals=dict(sorted({**things[Section.SIGNAL], **computed}.items())),
        points=things[Section.POINT],
        channels=things[Section.CHANNEL],
        limits=things[Section.LIMIT],
        checks=things[Section.CHECK],
        families=things[Section.FAMILY],
        evidence=merged(desk, blocks),
        actions=things[Section.ACTION],
        codes=tuple(sorted(desk.codes)),
        digests=Digests("", ""),
        overrides=tuple(desk.overrides),
        retired=retired(desk, packs),
        opening=opening(desk, packs),
        customary_order=customary_order(desk, packs),
        **revised,
    )
    return replace(model, digests=digests_of(model, told))


def _section(desk: Desk, packs: Sequence[Pack], section: Section) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for pack in packs:
        for id_, place, node in items_of(pack, section):
            if desk.names.space(section)[id_].place != place:
                continue  # declared elsewhere already
            thing = _parsed(desk, pack, id_, place, node, PARSERS[section])
            if thing is not None:
                found[id_] = thing
    return dict(sorted(found.items()))


def _blocks(desk: Desk, pack: Pack) -> Iterator[Block]:
    body = pack.document.root.get("evidence")
    for number, node in enumerate(body if isinstance(body, Listing) else (), start=1):
        each = _parsed(desk, pack, f"evidence {number}", node.place, node, block)
        if each is not None:
            yield each


def _parsed(
    desk: Desk, pack: Pack, id_: str, place: Place, node: Node, parser: Callable[[Item], T]
) -> T | None:
    """What the parser makes of the item, None where its shape is wrong."""
    if isinstance(node, Listing):  # a family written as a plain list of members
        node = Mapping({"members": node}, {"members": node.place}, node.place)
    try:
        if not isinstance(node, Mapping):
            raise Malformed(node.place, say("a mapping"))
        return parser(Item(desk, pack, id_, place, node))
    except Malformed as malformed:
        # Where the schema has complained of this pack, it has said this already.
        if pack.shape_is_right:
            desk.misshapen(malformed)
        return None


def _revised(rules: dict[str, Any], told: dict[str, Any]) -> dict[str, Any]:
    """The rules with their revisions, from what is told of their logic."""
    return {id_: replace(rule, revision=revision_in(told[id_])) for id_, rule in rules.items()}
