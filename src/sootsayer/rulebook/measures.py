"""Numbers with units, as packs write them."""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say
from sootsayer.catalogue import shown as made_visible
from sootsayer.documents.nodes import Node, Scalar
from sootsayer.physics.units import (
    UnitError,
    convert,
    convert_difference,
    convert_reading,
    parse_number,
)
from sootsayer.rulebook.desk import Item, Malformed

MINUTES = {"minute": 1, "hour": 60, "day": 24 * 60}
AGE_FORMS = "write it as `60 minutes`, `2 hours` or `1 day`"
_AGE = re.compile(r"(\d{1,6}(?:\.\d{1,3})?) (minute|hour|day)s?", re.ASCII)


def minutes_in(text: str) -> float | None:
    """The minutes of a length of time such as `2 hours`; None where it is none above 0."""
    age = _AGE.fullmatch(text)
    return float(age[1]) * MINUTES[age[2]] if age is not None and float(age[1]) > 0 else None


def shown(unit: str) -> Said:
    """A unit as a sentence names it."""
    return made_visible(unit) if unit else say("no unit")


def linear(from_unit: str, to_unit: str) -> tuple[float, float] | None:
    """`times` and `plus` that bring a number from one unit to another; None if none do."""
    if from_unit == to_unit:
        return 1.0, 0.0
    if not from_unit or not to_unit:
        return None
    try:
        plus = convert(0.0, from_unit, to_unit)
        return convert_difference(1.0, from_unit, to_unit), plus
    except UnitError:
        return None


def quantity(node: Node) -> tuple[float, str | None] | None:
    """The number that a scalar holds, and its unit if one is written; None if it is no number."""
    if not isinstance(node, Scalar):
        raise Malformed(node.place, say("a number"))
    if isinstance(node.value, bool) or node.value is None:
        return None
    if isinstance(node.value, int | float):
        return float(node.value), None
    try:
        value, unit = parse_number(node.value)
    except UnitError:
        return None
    return value, unit


def looks_like_number(text: str) -> bool:
    """Whether the text can only be meant as a number: ids begin with a letter."""
    return text.strip()[:1] in set("+-.,0123456789")


def in_unit(item: Item, node: Node, unit: str) -> float | None:
    """A number in `unit`; one without a unit is already in it. Notes what is wrong."""
    if not isinstance(node, Scalar):
        raise Malformed(node.place, say("a number"))
    if isinstance(node.value, bool) or node.value is None:
        item.wrong(node.place, say('"{text}" is not a number', text=node.text), _example(unit))
        return None
    if isinstance(node.value, int | float):
        return float(node.value)
    try:
        value, written = parse_number(node.value)
        return value if written is None else convert_reading(value, written, unit)
    except UnitError as error:
        item.wrong(node.place, error.what, error.instead)
    return None


def _example(unit: str) -> Said:
    if not unit:
        return say("write a plain number")
    return say("write a number in {unit}, such as `12 {unit}`", unit=unit)
