"""Numbers with an uncertainty, and what becomes of it in a formula.

After JCGM 100:2008 (GUM): independent inputs, first order, combined in quadrature (5.1.2);
the sensitivity to each input by moving it one standard deviation either way (5.1.3, note 2);
a number known only to lie in an interval by its width over sqrt(12) (4.3.7).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

_HALVINGS = 30


@dataclass(frozen=True, slots=True)
class Measured:
    """A value and its standard deviation, both in one unit.

    `sd` is 0 for what is exact. Raises ValueError if one is not finite or `sd` is negative.
    """

    value: float
    sd: float = 0.0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.value) and math.isfinite(self.sd)) or self.sd < 0:
            raise ValueError(f"no measured value: {self.value} with standard deviation {self.sd}")

    @property
    def band(self) -> tuple[float, float]:
        """Two standard deviations either way: the band in which a limit is borderline."""
        return self.value - 2 * self.sd, self.value + 2 * self.sd


def reading(value: float, error: float = 0.0, step: float = 0.0) -> Measured:
    """A reading of an instrument whose standard deviation is `error` and whose last digit moves
    by `step` (both in the unit of `value`, at least 0): the step adds step/sqrt(12)."""
    if error < 0 or step < 0:
        raise ValueError(f"error {error} and step {step} must not be negative")
    return Measured(value, math.hypot(error, step / math.sqrt(12.0)))


def interval(low: float, high: float) -> Measured:
    """Somewhere from `low` to `high`, nothing else known: the middle, width/sqrt(12)."""
    if high < low:
        raise ValueError(f"interval from {low} to {high} is empty")
    return Measured((low + high) / 2.0, (high - low) / math.sqrt(12.0))


def propagate(formula: Callable[..., float], *inputs: Measured) -> Measured:
    """`formula` of the inputs' values, with the standard deviation that theirs give it.

    `formula` takes as many floats as there are inputs, in their order. Exact for a linear
    formula; the inputs are taken as independent, so a number used twice must be one input.
    Raises what the formula raises for the values themselves. Where it refuses (ValueError) a
    value one deviation away, the other side alone is used, then half the distance, and so on.
    """
    values = [measured.value for measured in inputs]
    middle = formula(*values)
    parts = [
        _effect(formula, values, at, middle, measured.sd)
        for at, measured in enumerate(inputs)
        if measured.sd > 0
    ]
    return Measured(middle, math.hypot(*parts))


def _effect(
    formula: Callable[..., float], values: list[float], at: int, middle: float, sd: float
) -> float:
    """What one deviation of one input does to the result."""
    step = sd
    for _ in range(_HALVINGS):
        up = _moved(formula, values, at, step)
        down = _moved(formula, values, at, -step)
        if up is not None and down is not None:
            return (up - down) / 2.0 * (sd / step)
        if up is not None:
            return (up - middle) * (sd / step)
        if down is not None:
            return (middle - down) * (sd / step)
        step /= 2.0
    raise ValueError("the formula holds at this point only; its uncertainty cannot be computed")


def _moved(
    formula: Callable[..., float], values: list[float], at: int, step: float
) -> float | None:
    moved = [value + step if i == at else value for i, value in enumerate(values)]
    try:
        return formula(*moved)
    except ValueError:
        return None
