"""From a window to what an entry says: slots of the rulebook with numbers as typed."""

from __future__ import annotations

import math
from collections.abc import Mapping

from sootsayer.casework.logs.model import Summary, Window
from sootsayer.casework.logs.units import dimension
from sootsayer.casework.logs.words import (
    AIR,
    BAROMETER,
    BEFORE,
    BOOST,
    BY_ID,
    COOLANT,
    DP,
    RPM,
    SPEED,
    STATUS,
    VOLTS,
)
from sootsayer.physics.units import UnitError, convert
from sootsayer.rulebook.model import Model, Signal, SignalKind

# What signals a role may give, the first that the rulebook has.
SIGNALS: Mapping[str, tuple[str, ...]] = {
    DP: ("dp",),
    AIR: ("air", "air-flow", "air-mass"),
    BEFORE: ("exhaust-temperature", "exhaust-before"),
    COOLANT: ("coolant",),
    BOOST: ("boost", "boost-absolute", "intake-pressure"),
    BAROMETER: ("barometer",),
    VOLTS: ("sensor-volts",),
    RPM: ("engine-speed", "rpm"),
    SPEED: ("road-speed", "speed"),
}
NOT_RUNNING = "not running"
_COARSE = 10.0
"""mbar: a step that is best said in kPa, whose last digit then shows it."""


def possible_ranges(model: Model) -> dict[str, tuple[float, float]]:
    """Role to (lowest, highest) in the role's unit, where the rulebook has such a signal."""
    found: dict[str, tuple[float, float]] = {}
    for role in SIGNALS:
        signal = _signal(role, model)
        if signal is None or signal.possible is None or signal.unit is None:
            continue
        unit = BY_ID[role].unit
        try:
            low, high = (convert(value, signal.unit, unit) for value in signal.possible)
        except UnitError:
            continue
        found[role] = (low, high)
    return found


def facts_of(window: Window, model: Model) -> dict[str, str]:
    """Slot to typed text: each channel of the window for which the rulebook has a signal that
    is read at this point (or, at rest, one without point). Nothing of a window kept apart."""
    facts: dict[str, str] = {}
    if window.apart:
        return facts
    for role, summary in window.channels.items():
        signal = _signal(role, model)
        if signal is None or signal.kind is not SignalKind.NUMBER:
            continue
        if window.point in signal.points:
            facts[f"{signal.id}@{window.point}"] = typed(summary, signal)
        elif not signal.points and role == BAROMETER:
            facts[signal.id] = typed(summary, signal)
    status = window.channels.get(STATUS)
    if window.point == "idle" and status is not None and status.highest == 0.0:
        facts.update(_not_running(model))
    return dict(sorted(facts.items()))


def _not_running(model: Model) -> dict[str, str]:
    """The log's own word that no regeneration runs, where the rulebook has that word."""
    signal = model.signals.get(STATUS)
    known = signal is not None and not signal.points and NOT_RUNNING in signal.choices
    return {STATUS: NOT_RUNNING} if known else {}


def typed(summary: Summary, signal: Signal) -> str:
    """The mean as a number with its unit. Its last digit is as coarse as the log was, where
    that is coarser than the signal's own step, since a coarse step counts as error."""
    unit = summary.unit
    value, step = summary.mean, summary.step
    if dimension(unit) == "pressure" and unit == "mbar" and step >= _COARSE:
        return f"{_plain(value / 10.0, 0)} kPa"
    finest = max(min(signal.step or 0.1, 1.0) / 10.0, 0.001)
    decimals = max(0, round(-math.log10(finest)))
    if step >= 1.0 and step > (signal.step or 0.0):
        decimals = 0
    return f"{_plain(value, decimals)} {unit}".strip()


def _plain(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text[1:] if text.startswith("-") and float(text) == 0 else text


def _signal(role: str, model: Model) -> Signal | None:
    names = SIGNALS.get(role, ())
    return next((model.signals[name] for name in names if name in model.signals), None)
