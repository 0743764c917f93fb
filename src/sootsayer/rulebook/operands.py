"""What a number is compared with: a number, a limit, another fact, or a line through one."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Place, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.engine.conditions import Const, Limit, Linear, Operand, Slot
from sootsayer.rulebook.desk import Item, Malformed
from sootsayer.rulebook.measures import in_unit, linear, looks_like_number, shown
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.slots import FACTS, Holds, slot_at

UNLIKE = '"{name}" is in {have} and is compared with {want}'


def operand(item: Item, node: Node, unit: str | None) -> Operand | None:
    """The operand, brought to `unit` (None: any unit will do, as for a factor).

    None, with a problem noted, where it is none. Raises Malformed.
    """
    if isinstance(node, Mapping):
        return _line(item, node, unit)
    if not isinstance(node, Scalar):
        raise Malformed(node.place, say("a number, a limit or a fact"))
    if not isinstance(node.value, str) or looks_like_number(node.value):
        value = in_unit(item, node, unit or "")
        return None if value is None else Const(value)
    return _named(item, node, unit)


def _named(item: Item, node: Scalar, unit: str | None) -> Operand | None:
    name = node.text
    declared = item.desk.names.things.get(name)
    if declared is not None and declared.section is Section.LIMIT:
        item.refer(node, Section.LIMIT)
        return _brought(item, Limit(name), name, declared.unit, unit, node.place)
    if "@" in name or (declared is not None and declared.is_one_of(FACTS)):
        slot = slot_at(item, name, node.place, FACTS)
        if slot is None or slot.holds is Holds.UNCLEAR:
            return None
        if slot.holds is not Holds.NUMBER:
            item.wrong(
                node.place,
                say('"{name}" holds {holds}, not a number', name=name, holds=slot.holds.words),
                say("compare with a number, a limit or a fact that is a number"),
            )
            return None
        return _brought(item, Slot(slot.name), name, slot.unit, unit, node.place)
    if name in item.desk.names.retired:
        item.say_retired(name, node.place)
    elif not item.pack.uses & item.desk.names.unreadable:
        guess = did_you_mean(name, item.desk.names.of(Section.LIMIT, Section.SIGNAL))
        item.wrong(
            node.place,
            say('there is no limit or fact "{name}"', name=name),
            guess or say("write a number, a limit id or a fact"),
        )
    return None


def _brought(
    item: Item, value: Operand, name: str, have: str | None, want: str | None, place: Place
) -> Operand | None:
    if have is None or want is None or have == want:
        return value
    line = linear(have, want)
    if line is None:
        item.wrong(
            place,
            say(UNLIKE, name=name, have=shown(have), want=shown(want)),
            say("compare with a number in {unit}", unit=shown(want)),
        )
        return None
    return Linear(Const(line[0]), value, Const(line[1]))


def _line(item: Item, body: Mapping, unit: str | None) -> Operand | None:
    of = body.get("of")
    if of is None:
        raise Malformed(body.place, say("`of`, a limit or a fact"))
    times, plus = body.get("times"), body.get("plus")
    factor = Const(1.0) if times is None else operand(item, times, None)
    # A factor with a unit turns one kind of number into another: then any kind will do.
    plain = factor is None or isinstance(factor, Const) or _unitless(item, factor)
    base = operand(item, of, unit if plain else None)
    offset = Const(0.0) if plus is None else operand(item, plus, unit)
    if factor is None or base is None or offset is None:
        return None
    return Linear(factor, base, offset)


def _unitless(item: Item, factor: Operand) -> bool:
    declared = item.desk.names.things.get(factor.name) if isinstance(factor, Limit) else None
    return declared is not None and declared.unit == ""
