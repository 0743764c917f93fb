"""The test of one slot: `{dp@rest: {outside: [-5, dp-rest-max]}}`, `{power-loss: sudden}`."""

from __future__ import annotations

from sootsayer.documents.nodes import Listing, Mapping, Node, Place, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.engine.conditions import All, Compare, Condition, Const, OneOf, Op
from sootsayer.rulebook.desk import Item, Malformed, listing_of
from sootsayer.rulebook.operands import operand
from sootsayer.rulebook.slots import Holds, SlotShape

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
        raise Malformed(node.place, "one value, or a comparison such as {above: 5}")
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
        raise Malformed(node.place, "a single value")
    if slot.holds in (Holds.YES_NO, Holds.TRUTH):
        truth = _truth(node, yes_no=slot.holds is Holds.YES_NO)
        if truth is None:
            right = "yes or no" if slot.holds is Holds.YES_NO else "true or false"
            item.wrong(
                node.place, f'"{slot.name}" is never "{node.text}"', f"compare it with {right}"
            )
        return truth
    if node.text in slot.words and slot.holds is not Holds.NUMBER:
        return node.text
    item.wrong(node.place, _never(slot, node), _instead(slot, node))
    return None


def _never(slot: SlotShape, node: Scalar) -> str:
    if isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return f'"{slot.name}" holds {slot.holds.value}, and {node.text} is a number'
    if slot.holds is Holds.NUMBER:
        return f'"{slot.name}" holds a number, and "{node.text}" is a word'
    return f'"{slot.name}" is never "{node.text}"'


def _instead(slot: SlotShape, node: Scalar) -> str:
    if slot.holds is Holds.NUMBER:
        return "compare it with a number, such as {above: 5}"
    return did_you_mean(node.text, slot.words) or f"write one of {', '.join(slot.words)}"


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
            f'"{key}" is no comparison',
            did_you_mean(key, known) or f"write one of {', '.join(known)}",
        )
        return None
    if slot.holds is Holds.NUMBER:
        return _number(item, slot, OPS[key], node)
    if slot.holds is Holds.LEVEL and key in BY_RANK:
        return _level(item, slot, key, node)
    item.wrong(
        place,
        f'"{slot.name}" holds {slot.holds.value}, which "{key}" cannot compare',
        _equality(slot),
    )
    return None


def _equality(slot: SlotShape) -> str:
    if slot.holds is Holds.CHOICE:
        return f"write {{{slot.name}: {{one of: [{', '.join(slot.words)}]}}}} with those you mean"
    if slot.holds is Holds.LEVEL:
        return "compare levels with below, at most, above, at least or one of"
    return f"write {{{slot.name}: {'yes' if slot.holds is Holds.YES_NO else 'true'}}}"


def _one_of(item: Item, slot: SlotShape, node: Node) -> Condition | None:
    nodes = listing_of(node)
    if slot.holds is Holds.NUMBER:
        item.wrong(
            node.place,
            f'"{slot.name}" holds a number, which "one of" cannot compare',
            "compare it with a number, such as {between: [1, 5]}",
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
            f'"{slot.name}" has no level {key} "{word}"',
            f"its levels are {', '.join(slot.words)}, lowest first",
        )
        return None
    return OneOf(slot.name, levels)


def _number(item: Item, slot: SlotShape, op: Op, node: Node) -> Condition | None:
    if op not in PAIRS:
        only = operand(item, node, slot.unit)
        return None if only is None else Compare(slot.name, op, (only,))
    nodes = listing_of(node)
    if len(nodes) != 2:
        raise Malformed(node.place, "a lower and an upper number")
    low, high = (operand(item, each, slot.unit) for each in nodes)
    if low is None or high is None:
        return None
    _rising(item, node.place, op, (low, high))
    return Compare(slot.name, op, (low, high))


def _rising(item: Item, place: Place, op: Op, ends: tuple[object, object]) -> None:
    low, high = ends
    if isinstance(low, Const) and isinstance(high, Const) and low.value > high.value:
        item.wrong(place, f"`{op.value}` has its upper end first", "write the lower number first")
