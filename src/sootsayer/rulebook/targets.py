"""What evidence speaks of and what a fault hides: a family, or a finding without a family."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Node, Place, Scalar
from sootsayer.rulebook.desk import Item
from sootsayer.rulebook.names import Section


@dataclass(frozen=True, slots=True)
class Target:
    """`pack` owns it; `family` is the family of a member, "" else; `levels` None if unclear."""

    id: str
    pack: str
    family: str
    levels: tuple[str, ...] | None


def key_node(key: str, place: Place) -> Scalar:
    """A key that names something, as a node."""
    return Scalar(key, key, place)


def target(item: Item, node: Node, *, whole: bool) -> Target | None:
    """The family or finding that `node` names; None, with a problem noted, if it is none.

    `whole`: a member of a family will not do, its family must be named.
    """
    declared = item.refer(node, Section.FAMILY, Section.FINDING)
    if declared is None:
        return None
    names = item.desk.names
    if declared.section is Section.FAMILY:
        return Target(declared.id, declared.pack, "", names.family_levels.get(declared.id))
    family = names.family_of.get(declared.id, "")
    if family and whole:
        item.wrong(
            node.place,
            say('"{id}" is a member of the family "{family}"', id=declared.id, family=family),
            say('name the family: "{family}"', family=family),
        )
        return None
    return Target(declared.id, declared.pack, family, declared.levels)
