"""What a named quantity is: a formula of physics in the units and with the errors of a workshop."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from sootsayer.physics.measured import Measured, propagate
from sootsayer.physics.ranges import ZERO_CELSIUS

MBAR = 100.0
"""Pa"""
KG_H = 1.0 / 3600.0
"""kg/s"""
M3_H = 1.0 / 3600.0
"""m3/s"""
LITRE = 1e-3
"""m3"""
GRAM = 1e-3
"""kg"""


def kelvin(celsius: float) -> float:
    """K of C."""
    return celsius + ZERO_CELSIUS


@dataclass(frozen=True, slots=True)
class Input:
    """One input: `name`, `unit` ("" for a bare number), what it `says`, and the value that is
    `assumed` with its wider standard deviation where nothing is known; None: must be known."""

    name: str
    unit: str
    says: str
    assumed: Measured | None = None


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity that packs can name.

    `function` takes one Measured per input, in their order and units, and gives a Measured in
    `unit`; it raises ValueError, naming what and the range, outside the `validity`. A
    `difference` is one of temperatures: its unit converts without offset.
    """

    name: str
    says: str
    function: Callable[..., Measured]
    inputs: tuple[Input, ...]
    unit: str
    validity: str
    reference: str
    difference: bool = False

    def __call__(self, *measured: Measured) -> Measured:
        """The quantity of its inputs in order; trailing ones left out are assumed.

        Raises ValueError for too many or too few, and what the function raises.
        """
        rest = [at.assumed for at in self.inputs[len(measured) :]]
        known = [value for value in rest if value is not None]
        if len(measured) > len(self.inputs) or len(known) < len(rest):
            names = ", ".join(at.name for at in self.inputs)
            raise ValueError(f"{self.name} takes {names}, and {len(measured)} were given")
        return self.function(*measured, *known)

    def missing(self, known: Collection[str]) -> tuple[str, ...]:
        """Names of the inputs that are not among `known` and cannot be assumed, in order."""
        return tuple(at.name for at in self.inputs if at.name not in known and at.assumed is None)


@dataclass(frozen=True, slots=True)
class Answer:
    """`value` of a quantity, or None with the names that are `missing` or why it was `refused`
    (input outside the validity); `assumed` names the inputs that were taken as assumed."""

    value: Measured | None
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    refused: str = ""


def answer(quantity: Quantity, known: Mapping[str, Measured]) -> Answer:
    """The quantity from what is known by input name (in the inputs' units); raises nothing for
    values outside the validity, and ValueError for a name that is no input."""
    names = {at.name for at in quantity.inputs}
    if strange := sorted(set(known) - names):
        raise ValueError(f"{quantity.name} has no input {', '.join(strange)}")
    if missing := quantity.missing(known):
        return Answer(None, missing)
    assumed = tuple(at.name for at in quantity.inputs if at.name not in known)
    taken = [known.get(at.name, at.assumed) for at in quantity.inputs]
    try:
        value = quantity.function(*(value for value in taken if value is not None))
    except ValueError as error:
        return Answer(None, assumed=assumed, refused=str(error))
    return Answer(value, assumed=assumed)


def by(formula: Callable[..., float], own: float = 0.0) -> Callable[..., Measured]:
    """`formula` on floats as a function on Measured; `own` is the formula's own standard
    deviation as a share of its value, added to that of the inputs."""

    def function(*inputs: Measured) -> Measured:
        found = propagate(formula, *inputs)
        return Measured(found.value, math.hypot(found.sd, own * found.value))

    return function
