"""Whether a quantity fits the physics function that it names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Node, Place
from sootsayer.documents.problems import did_you_mean
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.physics.quantity import Quantity
from sootsayer.rulebook.desk import Item, text_of
from sootsayer.rulebook.measures import linear, shown

UNITS_DIFFER = '"{slot}" is in {have}, and "{formula}" takes {name} in {want}'


@dataclass(frozen=True, slots=True)
class Given:
    """What a quantity hands to an input: the slot, its unit (None: unclear), and where."""

    slot: str
    unit: str | None
    place: Place


def check_formula(item: Item, node: Node, takes: Mapping[str, Given], unit: str) -> None:
    """Note where the formula that `node` names does not fit what the quantity says."""
    name = text_of(node)
    formula = QUANTITIES.get(name)
    if formula is None:
        guess = did_you_mean(name, QUANTITIES)
        item.wrong(
            node.place,
            say('there is no formula "{name}"', name=name),
            guess or say("write one of {known}", known=", ".join(sorted(QUANTITIES))),
        )
        return
    _inputs_are_there(item, node.place, formula, takes)
    _units_fit(item, formula, takes)
    # A difference of temperatures turned into another unit would take its offset along.
    fits = formula.unit == unit if formula.difference else linear(formula.unit, unit) is not None
    if not fits:
        item.wrong(
            item.body["unit"].place,
            say(
                '"{name}" gives {have}, not {want}',
                name=name,
                have=shown(formula.unit),
                want=shown(unit),
            ),
            say("write `unit: {unit}`", unit=formula.unit or "none"),
        )


def _inputs_are_there(
    item: Item, place: Place, formula: Quantity, takes: Mapping[str, Given]
) -> None:
    names = [each.name for each in formula.inputs]
    for key, given in takes.items():
        if key not in names:
            guess = did_you_mean(key, names)
            what = say('"{formula}" takes no "{key}"', formula=formula.name, key=key)
            item.wrong(given.place, what, guess or say("it takes {known}", known=", ".join(names)))
    missing = formula.missing(takes)
    if missing:
        item.wrong(
            place,
            say('"{formula}" also takes {names}', formula=formula.name, names=", ".join(missing)),
            say("name the fact for each of them under `takes`"),
        )


def _units_fit(item: Item, formula: Quantity, takes: Mapping[str, Given]) -> None:
    for each in formula.inputs:
        given = takes.get(each.name)
        if given is None or given.unit is None or linear(given.unit, each.unit) is not None:
            continue
        item.wrong(
            given.place,
            say(
                UNITS_DIFFER,
                slot=given.slot,
                have=shown(given.unit),
                formula=formula.name,
                name=each.name,
                want=shown(each.unit),
            ),
            say("name a fact that can be turned into {unit}", unit=shown(each.unit)),
        )
