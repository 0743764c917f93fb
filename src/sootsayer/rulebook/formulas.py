"""What a quantity may be computed by: the physics functions, and whether one fits.

The one place where packs meet the registry of physics: `known_formulas` hands it over, and
`check_formula` holds a quantity against it.
"""

from __future__ import annotations

from collections.abc import Mapping as Names
from dataclasses import dataclass

from sootsayer.documents.nodes import Node, Place
from sootsayer.documents.problems import did_you_mean
from sootsayer.rulebook.desk import Item, text_of
from sootsayer.rulebook.measures import linear, shown


@dataclass(frozen=True, slots=True)
class Formula:
    """A physics function of a quantity: input name to unit, optional inputs, unit of the result."""

    inputs: dict[str, str]
    unit: str
    optional: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Input:
    """What a quantity hands to an input: the slot, its unit (None: unclear), and where."""

    slot: str
    unit: str | None
    place: Place


def known_formulas() -> Names[str, Formula] | None:
    """Every formula by name; None while physics has no registry, then only shape is checked."""
    return None


def check_formula(item: Item, node: Node, takes: Names[str, Input], unit: str) -> None:
    """Note where the formula that `node` names does not fit what the quantity says."""
    formulas = known_formulas()
    if formulas is None:
        return
    name = text_of(node)
    formula = formulas.get(name)
    if formula is None:
        guess = did_you_mean(name, formulas)
        item.wrong(
            node.place,
            f'there is no formula "{name}"',
            guess or f"write one of {', '.join(sorted(formulas))}",
        )
        return
    _inputs_are_there(item, node.place, name, formula, takes)
    for key, given in takes.items():
        wanted = formula.inputs.get(key)
        if wanted is None or given.unit is None or linear(given.unit, wanted) is not None:
            continue
        item.wrong(
            given.place,
            f'"{given.slot}" is in {shown(given.unit)}, and "{name}" takes {key} in '
            f"{shown(wanted)}",
            f"name a fact that can be turned into {shown(wanted)}",
        )
    if linear(formula.unit, unit) is None:
        item.wrong(
            item.body["unit"].place,
            f'"{name}" gives {shown(formula.unit)}, not {shown(unit)}',
            f"write `unit: {formula.unit or 'none'}`",
        )


def _inputs_are_there(
    item: Item, place: Place, name: str, formula: Formula, takes: Names[str, Input]
) -> None:
    for key, given in takes.items():
        if key not in formula.inputs:
            guess = did_you_mean(key, formula.inputs)
            item.wrong(
                given.place,
                f'"{name}" takes no "{key}"',
                guess or f"it takes {', '.join(formula.inputs)}",
            )
    missing = [key for key in formula.inputs if key not in {*takes, *formula.optional}]
    if missing:
        item.wrong(
            place,
            f'"{name}" also takes {", ".join(missing)}',
            "name the fact for each of them under `takes`",
        )
