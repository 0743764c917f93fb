"""`basis`: how we know."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node
from sootsayer.rulebook.desk import Desk, Item, Malformed, listed, mapping_of, text_of
from sootsayer.rulebook.model import Basis, BasisKind

NEED_SOURCE = {
    BasisKind.PUBLISHED: "add `source:` and name the publication",
    BasisKind.COMPUTED: "add `source:` and name the function, its ranges and its seed",
    BasisKind.SHOP: "add `source:` and name the cases it was learned from",
}


def read_basis(desk: Desk, node: Node) -> Basis | None:
    """A basis as written, None (with a problem noted) where it is none. Raises Malformed."""
    body = mapping_of(node)
    kind_node = body.get("kind")
    if kind_node is None:
        return None  # the schema has said so
    word = text_of(kind_node)
    if word not in {kind.value for kind in BasisKind}:
        raise Malformed(kind_node.place, listed(kind.value for kind in BasisKind))
    basis = Basis(BasisKind(word), _text(body, "source"), _text(body, "note"))
    if basis.kind in NEED_SOURCE and not basis.source:
        desk.wrong(
            body.place,
            say("the basis is `{kind}` but names no source", kind=word),
            say(NEED_SOURCE[basis.kind]),
        )
    return basis


def basis_for(item: Item) -> Basis:
    """The item's own basis, else its pack's. Raises Malformed."""
    node = item.body.get("basis")
    basis = read_basis(item.desk, node) if node is not None else item.pack.basis
    if basis is not None:
        return basis
    if node is None and "basis" not in item.pack.document.root:
        item.wrong(
            item.place,
            say('"{id}" says nowhere how we know it', id=item.id),
            say("add `basis: {{kind: common practice}}` here or at the head of the pack"),
        )
    return Basis(BasisKind.MEMORY)


def _text(body: Mapping, key: str) -> str:
    node = body.get(key)
    return "" if node is None else text_of(node).strip()
