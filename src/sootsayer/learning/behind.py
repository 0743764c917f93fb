"""The readings behind a computed quantity: proofs state the quantity, a workshop reads the rest."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import isnan
from typing import Final

from sootsayer.casework.quantities import Wanted, wanted
from sootsayer.engine.conditions import Value
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.physics.quantity import Input, answer
from sootsayer.physics.units import convert
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import readings_behind

REFERENCE: Final[Mapping[str, float]] = {
    "air@idle": 48.0,
    "air@2000": 120.0,
    "air@2500": 150.0,
    "air@3000": 180.0,
    "air@pull": 250.0,
    "exhaust-temperature@idle": 150.0,
    "exhaust-temperature@2000": 200.0,
    "exhaust-temperature@2500": 200.0,
    "exhaust-temperature@3000": 200.0,
    "exhaust-temperature@pull": 400.0,
    "barometer": 1013.0,
    "boost@2500": 1000.0,
    "engine-speed@2500": 2500.0,
    "engine-litres": 2.0,
    "filter-litres": 2.8,
    "cylinders": 4.0,
    "recirculated": 0.0,
}
"""The reference vehicle of the packs: 2.0 L, 2.8 L filter, sea level, hot, EGR shut."""
_HALVINGS = 50
_POINTS = 60
_FAR = 2.5
_REMEMBERED = 4096


class Behind:
    """Turns quantities into readings that give them; `usual` fills in what nobody stated."""

    def __init__(self, model: Model, usual: Mapping[str, float]) -> None:
        self._model, self._usual = model, usual
        self._wanted = {each.slot: each for each in wanted(model)}
        self._turned: dict[object, float | None] = {}  # what was solved, asked again and again

    def readings(self, slots: Iterable[str]) -> frozenset[str]:
        """The slots that are read, not computed, behind these."""
        return frozenset(r for slot in slots for r in readings_behind(self._model, slot))

    def facts(
        self, values: Mapping[str, Value], there: Mapping[str, Value]
    ) -> dict[str, Value] | None:
        """`values` and the readings behind every quantity among them; None where that cannot be,
        or where it contradicts what is already `there`."""
        found: dict[str, Value] = {}
        waiting = sorted(values.items(), key=lambda item: item[0] in self._wanted)
        while waiting:
            slot, value = waiting.pop(0)
            if (found.get(slot, there.get(slot, value))) != value:
                return None
            found[slot] = value
            each = self._wanted.get(slot)
            if each is None or not isinstance(value, float):
                continue
            more = self._inputs(each, value, {**there, **found})
            if more is None:
                return None
            waiting += [pair for pair in more.items() if pair[0] not in found]
        return found

    def _inputs(
        self, each: Wanted, value: float, known: Mapping[str, Value]
    ) -> dict[str, Value] | None:
        """Values of all inputs with which the quantity comes to `value`; None where none do."""
        formula = QUANTITIES[each.definition.formula]
        by_name = {at.name: at for at in formula.inputs}
        takes = {name: slot for name, slot in each.takes.items() if name in by_name}
        inputs = {name: known.get(slot, self._usual.get(slot)) for name, slot in takes.items()}
        free = [name for name, slot in takes.items() if slot not in known]
        if not free:
            return None if abs(self._came(each, inputs, by_name) - value) > 1e-9 else {}
        turned = next((name for name in free if inputs[name] is None), free[0])
        if any(inputs[name] is None for name in takes if name != turned):
            return None
        solved = self._solved(each, inputs, by_name, turned, value)
        if solved is None or not self._likely(takes[turned], solved):
            return None
        return {takes[name]: solved if name == turned else inputs[name] for name in takes}

    def _likely(self, slot: str, value: float) -> bool:
        """Whether a reading is what some vehicle might show, where a usual one is known."""
        usual = self._usual.get(slot)
        return usual is None or usual / _FAR <= value <= usual * _FAR

    def _came(
        self, each: Wanted, inputs: Mapping[str, Value], by_name: Mapping[str, Input]
    ) -> float:
        formula = QUANTITIES[each.definition.formula]
        given = {
            name: Measured(convert(value, self._unit(each.takes[name]), by_name[name].unit))
            for name, value in inputs.items()
            if isinstance(value, float)
        }
        result = answer(formula, given).value
        if result is None:
            return float("nan")
        return convert(result.value, formula.unit, self._unit(each.slot))

    def _solved(
        self,
        each: Wanted,
        inputs: Mapping[str, Value],
        by_name: Mapping[str, Input],
        turned: str,
        value: float,
    ) -> float | None:
        """The input `turned` with which the quantity comes to `value`; None where none does."""

        def off(x: float) -> float:
            return self._came(each, {**inputs, turned: x}, by_name) - value

        others = tuple((n, x) for n, x in inputs.items() if n != turned and isinstance(x, float))
        key = (each.slot, turned, value, others)
        if key not in self._turned:
            if len(self._turned) >= _REMEMBERED:
                self._turned.clear()
            signal = self._model.signals[each.takes[turned].partition("@")[0]]
            self._turned[key] = None if signal.possible is None else _halved(off, *signal.possible)
        return self._turned[key]

    def _unit(self, slot: str) -> str:
        return self._model.signals[slot.partition("@")[0]].unit or ""


def _halved(off: Callable[[float], float], low: float, high: float) -> float | None:
    """Where `off` is 0, by halving the range; None where no sign changes."""
    first, last = _where_defined(off, low, high)
    if first is None or last is None or off(first) * off(last) > 0:
        return None
    rising = off(last) > 0
    for _ in range(_HALVINGS):
        middle = (first + last) / 2.0
        if (off(middle) > 0) == rising:
            last = middle
        else:
            first = middle
    return last


def _where_defined(
    off: Callable[[float], float], low: float, high: float
) -> tuple[float | None, float | None]:
    """The outermost of some points of the range at which the formula answers."""
    steps = [low + (high - low) * i / _POINTS for i in range(_POINTS + 1)]
    answered = [x for x in steps if not isnan(off(x))]
    return (answered[0], answered[-1]) if answered else (None, None)
