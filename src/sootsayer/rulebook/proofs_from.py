"""Proofs of findings, interlocks, shifts and of what applies: examples, as data."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Scalar
from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.rulebook.conditions_from import trouble_code
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, text_of
from sootsayer.rulebook.measures import in_unit
from sootsayer.rulebook.model import Proof
from sootsayer.rulebook.names import BINARY
from sootsayer.rulebook.slot_tests import word_for
from sootsayer.rulebook.slots import FACTS, Holds, SlotShape, slot_at


def proofs(item: Item, levels: tuple[str, ...] = BINARY) -> tuple[Proof, ...]:
    """Those under `proofs`; `levels` are the outcomes, besides unknown."""
    return proofs_in(item, item.body.get("proofs"), levels)


def applies_proofs(item: Item) -> tuple[Proof, ...]:
    """Those of the item's `applies when`, which they cannot do without."""
    node = item.body.get("applies proofs")
    if node is not None and "applies when" not in item.body:
        item.wrong(
            item.body.key_places["applies proofs"],
            say("`applies proofs` stands without `applies when`"),
            say("write the condition that they prove, or leave them out"),
        )
    return proofs_in(item, node)


def proofs_in(item: Item, node: Node | None, levels: tuple[str, ...] = BINARY) -> tuple[Proof, ...]:
    """Those in the list at `node`; none without it. Raises Malformed."""
    if node is None:
        return ()
    read = [_proof(item, mapping_of(each), levels) for each in listing_of(node)]
    return tuple(proof for proof in read if proof is not None)


def _proof(item: Item, body: Mapping, levels: tuple[str, ...]) -> Proof | None:
    given, then = body.get("given"), body.get("then")
    if given is None or then is None:
        raise Malformed(body.place, say("given and then"))
    facts = mapping_of(given)
    values: dict[str, Value] = {
        name: value
        for name in sorted(facts.items)
        if (value := _given(item, name, facts)) is not None
    }
    codes = _codes(item, body.get("codes"))
    holds = Holds.TRUTH if levels == BINARY else Holds.LEVEL
    if text_of(then) == "unknown":
        return Proof(values, None, body.place, codes)
    outcome = word_for(item, SlotShape(item.id, holds, words=levels), then)
    return None if outcome is None else Proof(values, outcome, body.place, codes)


def _given(item: Item, name: str, facts: Mapping) -> Value:
    node = facts[name]
    slot = slot_at(item, name, facts.key_places[name], FACTS)
    if slot is None or slot.holds is Holds.UNCLEAR:
        return None
    if isinstance(node, Scalar) and node.text == "not fitted":
        return NOT_FITTED
    if slot.holds is Holds.NUMBER:
        return in_unit(item, node, slot.unit)
    return word_for(item, slot, node)


def _codes(item: Item, node: Node | None) -> tuple[str, ...] | None:
    if node is None:
        return None
    codes = [trouble_code(item, each, named=False) for each in listing_of(node)]
    return tuple(sorted({code for code in codes if code is not None}))
