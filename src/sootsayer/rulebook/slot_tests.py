"""The test of one slot: `{dp@rest: {outside: [-5, dp-rest-max]}}`, `{power-loss: sudden}`."""

from __future__ import annotations

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Listing, Mapping, Node, Place, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.engine.conditions import All, Compare, Condition, Const, OneOf, Op
from sootsayer.rulebook.desk import Item, Malformed, listing_of
from sootsayer.rulebook.operands import operand
from sootsayer.rulebook.slots import Holds, SlotShape

IS_NEVER = '"{slot}" is never "{word}"'
IS_A_NUMBER = '"{slot}" holds {holds}, and {number} is a number'
IS_A_WORD = '"{slot}" holds a number, and "{word}" is a word'
CANNOT_COMPARE = '"{slot}" holds {holds}, which "{key}" cannot compare'
THOSE_YOU_MEAN = "write {{{slot}: {{one of: [{words}]}}}} with those you mean"
WRITE_ONE_OF = "write one of {known}"
PAIRS = (Op.BETWEEN, Op.OUTSIDE)
OPS = {op.value: op for op in Op}
# A comparison of levels holds for these levels, given the place of the level compared with.
BY_RANK = {
    "below": lambda rank, of: rank < of,
    "at most": lambda rank, of: rank <= of,
    "above": lambda rank, of: rank > of,
    "at least": lambda rank, of: rank >= of,
}


def slot_test(item: Item, slot: SlotShape, node: Node) -> Condition | None:
    """What is asked of the slot; None, with problems noted, where it cannot be asked of it."""
    if slot.holds is Holds.UNCLEAR:
        return None
    if isinstance(node, Listing):
        raise Malformed(node.place, say("one value, or a comparison such as {{above: 5}}"))
    if isinstance(node, Scalar):
        return _equal(item, slot, node)
    parts = [_compared(item, slot, key, node) for key in sorted(node.items)]
    whole = [part for part in parts if part is not None]
    if not whole or len(whole) != len(parts):
        return None
    return whole[0] if len(whole) == 1 else All(tuple(whole))


def _equal(item: Item, slot: SlotShape, node: Scalar) -> Condition | None:
    if slot.holds is Holds.NUMBER:
        exact = operand(item, node, slot.unit)
        return None if exact is None else Compare(slot.name, Op.BETWEEN, (exact, exact))
    value = word_for(item, slot, node)
    return None if value is None else OneOf(slot.name, (value,))


def word_for(item: Item, slot: SlotShape, node: Node) -> str | bool | None:
    """The word or boolean that `node` means for this slot; None, with a problem, if none."""
    if not isinstance(node, Scalar):
        raise Malformed(node.place, say("a single value"))
    if slot.holds in (Holds.YES_NO, Holds.TRUTH):
        truth = _truth(node, yes_no=slot.holds is Holds.YES_NO)
        if truth is None:
            what = say(IS_NEVER, slot=slot.name, word=node.text)
            item.wrong(node.place, what, say("compare it with {right}", right=slot.holds.words))
        return truth
    if node.text in slot.words and slot.holds is not Holds.NUMBER:
        return node.text
    item.wrong(node.place, _never(slot, node), _instead(slot, node))
    return None


def _never(slot: SlotShape, node: Scalar) -> Said:
    if isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return say(IS_A_NUMBER, slot=slot.name, holds=slot.holds.words, number=node.text)
    if slot.holds is Holds.NUMBER:
        return say(IS_A_WORD, slot=slot.name, word=node.text)
    return say(IS_NEVER, slot=slot.name, word=node.text)


def _instead(slot: SlotShape, node: Scalar) -> Said:
    if slot.holds is Holds.NUMBER:
        return say("compare it with a number, such as {{above: 5}}")
    return did_you_mean(node.text, slot.words) or say(WRITE_ONE_OF, known=", ".join(slot.words))


def _truth(node: Scalar, *, yes_no: bool) -> bool | None:
    if isinstance(node.value, bool):
        return node.value
    return {"yes": True, "no": False}.get(node.text) if yes_no else None


def _compared(item: Item, slot: SlotShape, key: str, body: Mapping) -> Condition | None:
    node, place = body[key], body.key_places[key]
    if key == "one of":
        return _one_of(item, slot, node)
    if key not in OPS:
        known = ["one of", *OPS]
        item.wrong(
            place,
            say('"{key}" is no comparison', key=key),
            did_you_mean(key, known) or say(WRITE_ONE_OF, known=", ".join(known)),
        )
        return None
    if slot.holds is Holds.NUMBER:
        return _number(item, slot, OPS[key], node)
    if slot.holds is Holds.LEVEL and key in BY_RANK:
        return _level(item, slot, key, node)
    item.wrong(
        place,
        say(CANNOT_COMPARE, slot=slot.name, holds=slot.holds.words, key=key),
        _equality(slot),
    )
    return None


def _equality(slot: SlotShape) -> Said:
    if slot.holds is Holds.CHOICE:
        return say(THOSE_YOU_MEAN, slot=slot.name, words=", ".join(slot.words))
    if slot.holds is Holds.LEVEL:
        return say("compare levels with below, at most, above, at least or one of")
    word = "yes" if slot.holds is Holds.YES_NO else "true"
    return say("write {{{slot}: {word}}}", slot=slot.name, word=word)


def _one_of(item: Item, slot: SlotShape, node: Node) -> Condition | None:
    nodes = listing_of(node)
    if slot.holds is Holds.NUMBER:
        item.wrong(
            node.place,
            say(CANNOT_COMPARE, slot=slot.name, holds=slot.holds.words, key="one of"),
            say("compare it with a number, such as {{between: [1, 5]}}"),
        )
        return None
    values = [word_for(item, slot, each) for each in nodes]
    whole = [value for value in values if value is not None]
    if not whole or len(whole) != len(values):
        return None
    return OneOf(slot.name, tuple(sorted(set(whole), key=str)))


def _level(item: Item, slot: SlotShape, key: str, node: Node) -> Condition | None:
    word = word_for(item, slot, node)
    if not isinstance(word, str):
        return None
    of = slot.words.index(word)
    levels = tuple(level for rank, level in enumerate(slot.words) if BY_RANK[key](rank, of))
    if not levels:
        item.wrong(
            node.place,
            say('"{slot}" has no level {key} "{word}"', slot=slot.name, key=key, word=word),
            say("its levels are {levels}, lowest first", levels=", ".join(slot.words)),
        )
        return None
    return OneOf(slot.name, levels)


def _number(item: Item, slot: SlotShape, op: Op, node: Node) -> Condition | None:
    if op not in PAIRS:
        only = operand(item, node, slot.unit)
        return None if only is None else Compare(slot.name, op, (only,))
    nodes = listing_of(node)
    if len(nodes) != 2:
        raise Malformed(node.place, say("a lower and an upper number"))
    low, high = (operand(item, each, slot.unit) for each in nodes)
    if low is None or high is None:
        return None
    _rising(item, node.place, op, (low, high))
    return Compare(slot.name, op, (low, high))


def _rising(item: Item, place: Place, op: Op, ends: tuple[object, object]) -> None:
    low, high = ends
    if isinstance(low, Const) and isinstance(high, Const) and low.value > high.value:
        what = say("`{key}` has its upper end first", key=op.value)
        item.wrong(place, what, say("write the lower number first"))
