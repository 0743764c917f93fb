"""Condition nodes → engine conditions."""

from __future__ import annotations

import re

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Place, Scalar
from sootsayer.engine.conditions import All, Any, AtLeast, Condition, Known, Not, OneOf
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, number_of, text_of
from sootsayer.rulebook.slot_tests import slot_test
from sootsayer.rulebook.slots import slot_at

TESTS_NOTHING = "a condition that tests nothing"
WRITE_A_TEST = "write at least one test"
NOT_BY_COUNTING = "at least {count} of {size} conditions can never be decided by counting"
CODE = re.compile(r"[PBCU][0-9A-F]{4}")


def condition(item: Item, node: Node, *, known: bool = False) -> Condition | None:
    """A condition as the engine takes it; None, with problems noted, where it is none.

    `known` says whether `{known: SLOT}` is allowed here. Keys are read in sorted order: the
    order in which a mapping is written means nothing. Raises Malformed.
    """
    body = mapping_of(node)
    parts: list[Condition | None] = []
    for key in sorted(body.items):
        if key == "of" and "at least" in body:
            continue
        parts.append(_one(item, body, key, known))
    if not parts:
        item.wrong(body.place, say(TESTS_NOTHING), say(WRITE_A_TEST))
    return _joined(parts)


def condition_under(item: Item, key: str, *, known: bool = False) -> Condition | None:
    """The condition under `key` of the item, None if there is none there."""
    node = item.body.get(key)
    return None if node is None else condition(item, node, known=known)


def _joined(parts: list[Condition | None]) -> Condition | None:
    whole = [part for part in parts if part is not None]
    if not whole or len(whole) != len(parts):
        return None
    return whole[0] if len(whole) == 1 else All(tuple(whole))


def _one(item: Item, body: Mapping, key: str, known: bool) -> Condition | None:
    node, place = body[key], body.key_places[key]
    if key in ("all", "any"):
        parts = _parts(item, node, known)
        if parts is None:
            return None
        return All(parts) if key == "all" else Any(parts)
    if key == "not":
        part = condition(item, node, known=known)
        return None if part is None else Not(part)
    if key == "at least":
        return _at_least(item, body, known)
    if key == "known":
        return _known(item, node, place, known)
    if key == "code":
        return _code(item, node)
    slot = slot_at(item, key, place)
    return None if slot is None else slot_test(item, slot, node)


def _parts(item: Item, node: Node, known: bool) -> tuple[Condition, ...] | None:
    parts = [condition(item, each, known=known) for each in listing_of(node)]
    if not parts:
        item.wrong(node.place, say(TESTS_NOTHING), say(WRITE_A_TEST))
    whole = tuple(part for part in parts if part is not None)
    return whole if whole and len(whole) == len(parts) else None


def _at_least(item: Item, body: Mapping, known: bool) -> Condition | None:
    of = body.get("of")
    if of is None:
        raise Malformed(body.place, say("`at least` needs `of`, a list of conditions"))
    parts = _parts(item, of, known)
    count = number_of(body["at least"])
    if parts is None:
        return None
    if count != int(count) or not 1 <= count <= len(parts):
        item.wrong(
            body["at least"].place,
            say(NOT_BY_COUNTING, count=f"{count:g}", size=len(parts)),
            say("write a whole number from 1 to {size}", size=len(parts)),
        )
        return None
    return AtLeast(int(count), parts)


def _known(item: Item, node: Node, place: Place, allowed: bool) -> Condition | None:
    slot = slot_at(item, text_of(node), node.place)
    if not allowed:
        item.wrong(
            place,
            say("`known` may not stand here: one more fact could undo what was decided"),
            say("use it only in `holds when` of an interlock and in `applies when`"),
        )
        return None
    return None if slot is None else Known(slot.name)


def _code(item: Item, node: Node) -> Condition | None:
    code = trouble_code(item, node)
    return None if code is None else OneOf(f"code:{code}", (True,))


def trouble_code(item: Item, node: Node, *, named: bool = True) -> str | None:
    """A trouble code in its five characters; None, with a problem noted, where it is none.

    `named`: a condition names it, so it is one of the rulebook's codes.
    """
    code = text_of(node)
    if not isinstance(node, Scalar) or CODE.fullmatch(code) is None:
        item.wrong(
            node.place,
            say('"{code}" is not a trouble code', code=code),
            say("write one of P, B, C or U and four digits or letters A to F, such as P2463"),
        )
        return None
    if named:
        item.desk.codes.add(code)
    return code
