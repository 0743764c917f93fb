"""Section `quantities`: facts that are computed from other facts."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Place
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.desk import Item, Malformed, mapping_of, text_of
from sootsayer.rulebook.formulas import Given, check_formula
from sootsayer.rulebook.model import Lasts, QuantityDef, Signal, SignalKind
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.readings_from import possible_range, unit_word
from sootsayer.rulebook.slots import FACTS, Holds, SlotShape, slot_at
from sootsayer.rulebook.targets import key_node

NOT_READ_THERE = '"{signal}" is not read at {points}, where "{id}" is computed'
NO_NUMBER = '"{slot}" holds {holds}, and a formula takes numbers'


def quantity_and_signal(item: Item) -> tuple[QuantityDef, Signal]:
    """The quantity, and the signal that it declares by itself: a number, through no channel."""
    formula = item.body.get("formula")
    takes_node = item.body.get("takes")
    if formula is None or takes_node is None or "unit" not in item.body:
        raise Malformed(item.place, say("formula, takes and unit"))
    unit = unit_word(item)
    points = item.refer_all("at", Section.POINT)
    takes = mapping_of(takes_node)
    # A point that is not there has been noted; what is read at it cannot be told.
    inputs = _inputs(item, takes, points) if points or "at" not in item.body else {}
    if len(inputs) == len(takes.items):
        check_formula(item, formula, inputs, unit)
    possible = possible_range(item)
    if possible is None:
        raise Malformed(item.place, say("`possible`, a lowest and a highest number"))
    quantity = QuantityDef(
        id=item.id,
        label=item.text("label"),
        formula=text_of(formula),
        takes={name: given.slot for name, given in inputs.items()},
        points=points,
        unit=unit,
        basis=basis_for(item),
        pack=item.pack.id,
        place=item.place,
    )
    signal = Signal(
        id=item.id,
        label=quantity.label,
        kind=SignalKind.NUMBER,
        lasts=Lasts.ROUND,
        pack=item.pack.id,
        place=item.place,
        unit=unit,
        possible=possible,
        points=points,
    )
    return quantity, signal


def _inputs(item: Item, body: Mapping, points: tuple[str, ...]) -> dict[str, Given]:
    found = {name: _input(item, body[name], points) for name in sorted(body.items)}
    return {name: given for name, given in found.items() if given is not None}


def _input(item: Item, node: Node, points: tuple[str, ...]) -> Given | None:
    """A signal, read at the quantity's own points or without any; or a signal@point."""
    name = text_of(node)
    if "@" in name or not points:
        slot = slot_at(item, name, node.place, FACTS)
        return None if slot is None else _number(item, slot, node.place)
    declared = item.refer(key_node(name, node.place), *FACTS)
    if declared is None:
        return None
    if declared.signal is None:
        return Given(name, None, node.place)
    if not declared.signal.points:
        slot = slot_at(item, name, node.place, FACTS)
        return None if slot is None else _number(item, slot, node.place)
    missing = [point for point in points if point not in declared.signal.points]
    if missing:
        item.wrong(
            node.place,
            say(NOT_READ_THERE, signal=name, points=", ".join(missing), id=item.id),
            say(
                "leave {points} out of `at`, or name one point: {slot}",
                points=", ".join(missing),
                slot=f"{name}@{declared.signal.points[0]}",
            ),
        )
        return None
    slot = slot_at(item, f"{name}@{points[0]}", node.place, FACTS)
    given = None if slot is None else _number(item, slot, node.place)
    return None if given is None else Given(name, given.unit, node.place)


def _number(item: Item, slot: SlotShape, place: Place) -> Given | None:
    if slot.holds is Holds.UNCLEAR:
        return Given(slot.name, None, place)
    if slot.holds is not Holds.NUMBER:
        item.wrong(
            place,
            say(NO_NUMBER, slot=slot.name, holds=slot.holds.words),
            say("name a fact that is a number"),
        )
        return None
    return Given(slot.name, slot.unit, place)
