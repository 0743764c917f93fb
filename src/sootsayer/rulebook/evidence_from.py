"""Section `evidence`: blocks as written, and merged over all packs."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.catalogue import say, shown
from sootsayer.documents.nodes import Place
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.desk import Desk, Item, Malformed, mapping_of
from sootsayer.rulebook.frequencies import spread
from sootsayer.rulebook.model import Basis, EvidenceDef
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.targets import Target, key_node, target

Spread = tuple[float, ...]

MEMBER_ONLY = '"{id}" is a member of the family "{family}", which has no evidence'
NAME_THE_FAMILY = 'name the family: "{family}"; a block for a member only stands in for that one'
LINKED_TWICE = '"{id}" is linked with "{fault}" twice, first at {place}'


@dataclass(frozen=True, slots=True)
class Block:
    """One evidence block of one pack. `otherwise` and the links with where they stand."""

    about: Target
    pack: str
    place: Place
    basis: Basis
    otherwise: tuple[Spread | None, Place] | None  # the spread is None where it is wrong
    seen: dict[str, tuple[Spread, Place]]


def block(item: Item) -> Block | None:
    """An evidence block; None, with problems noted, where it speaks of nothing known."""
    node = item.body.get("finding")
    if node is None:
        raise Malformed(item.place, shown("finding"))
    basis = basis_for(item)
    about = target(item, node, whole=False)
    if about is None or about.levels is None:
        return None
    otherwise = item.body.get("otherwise")
    stated = None
    if otherwise is not None:
        place = item.body.key_places["otherwise"]
        stated = (spread(item, otherwise, about.levels), place)
    seen = _seen(item, about.levels)
    return Block(about, item.pack.id, node.place, basis, stated, seen)


def _seen(item: Item, levels: tuple[str, ...]) -> dict[str, tuple[Spread, Place]]:
    node = item.body.get("seen with")
    if node is None:
        return {}
    body = mapping_of(node)
    seen: dict[str, tuple[Spread, Place]] = {}
    for name in sorted(body.items):
        place = body.key_places[name]
        declared = item.refer(key_node(name, place), Section.FAULT)
        shares = spread(item, body[name], levels)
        if declared is not None and shares is not None:
            seen[name] = (shares, place)
    return seen


def merged(desk: Desk, blocks: list[Block]) -> dict[str, EvidenceDef]:
    """One definition for each family, lone finding or overriding member that has evidence."""
    by_target: dict[str, list[Block]] = {}
    # The owner's own blocks come first, so that a second link is the other pack's problem.
    for each in sorted(blocks, key=lambda it: (it.pack != it.about.pack, it.pack, it.place)):
        by_target.setdefault(each.about.id, []).append(each)
    found = {}
    for name in sorted(by_target):
        together = by_target[name]
        _member_has_family(desk, together[0], by_target)
        otherwise = _otherwise(desk, together)
        links = _links(desk, together)
        if otherwise is not None:
            found[name] = _definition(desk, name, otherwise, links)
    return found


def _member_has_family(desk: Desk, first: Block, by_target: dict[str, list[Block]]) -> None:
    family = first.about.family
    if family and family not in by_target:
        desk.wrong(
            first.place,
            say(MEMBER_ONLY, id=first.about.id, family=family),
            say(NAME_THE_FAMILY, family=family),
        )


def _otherwise(desk: Desk, blocks: list[Block]) -> tuple[Spread, Place, Basis] | None:
    """The one `otherwise`, stated by the pack that owns the finding."""
    about = blocks[0].about
    stated = [(each, *each.otherwise) for each in blocks if each.otherwise is not None]
    for each, _, place in stated:
        if each.pack != about.pack:
            desk.wrong(
                place,
                say(
                    '`otherwise` of "{id}" belongs to the pack "{pack}"',
                    id=about.id,
                    pack=about.pack,
                ),
                say("leave it out here; other packs add `seen with` only"),
            )
    own = [each for each in stated if each[0].pack == about.pack]
    for _, _, place in own[1:]:
        desk.wrong(
            place,
            say(
                '`otherwise` of "{id}" is stated twice, first at {place}',
                id=about.id,
                place=own[0][2],
            ),
            say("state it once"),
        )
    if not own:
        desk.wrong(
            blocks[0].place,
            say('"{id}" has evidence and no `otherwise`', id=about.id),
            say('let the pack "{pack}" state how often it is seen otherwise', pack=about.pack),
        )
        return None
    first, shares, place = own[0]
    return None if shares is None else (shares, place, first.basis)


def _links(desk: Desk, blocks: list[Block]) -> dict[str, tuple[Spread, Place, Basis]]:
    links: dict[str, tuple[Spread, Place, Basis]] = {}
    for each in blocks:
        for fault, (shares, place) in each.seen.items():
            if fault in links:
                first = links[fault][1]
                what = say(LINKED_TWICE, id=each.about.id, fault=fault, place=first)
                desk.wrong(place, what, say("state each link once"))
                continue
            links[fault] = (shares, place, each.basis)
    return dict(sorted(links.items()))


def _definition(
    desk: Desk,
    name: str,
    otherwise: tuple[Spread, Place, Basis],
    links: dict[str, tuple[Spread, Place, Basis]],
) -> EvidenceDef:
    everything = {"": otherwise, **links}
    return EvidenceDef(
        finding=name,
        otherwise=otherwise[0],
        seen_with={fault: link[0] for fault, link in links.items()},
        bases={key: _overriding(desk, name, key) or part[2] for key, part in everything.items()},
        places={key: part[1] for key, part in everything.items()},
    )


def _overriding(desk: Desk, name: str, fault: str) -> Basis | None:
    """The basis of a shop's own number for this link, or for `otherwise`."""
    path = ("seen with", fault) if fault else ("otherwise",)
    return desk.overriding_basis(name, *path)
