"""From what was typed to a value in the signal's own unit."""

from __future__ import annotations

from sootsayer.casework.collector import Collector, text_of, yes_no_of
from sootsayer.casework.model import Absence, Said, Vehicle
from sootsayer.documents.nodes import Node
from sootsayer.documents.problems import did_you_mean
from sootsayer.engine.conditions import Value
from sootsayer.physics.units import (
    Typed,
    UnitError,
    WrongDimension,
    convert,
    convert_air,
    convert_difference,
    read_number,
)
from sootsayer.rulebook.model import Signal, SignalKind

_REASONS = {reason.value for reason in Absence}


def read_said(
    slot: str, node: Node, signal: Signal, vehicle: Vehicle, collector: Collector
) -> Said | None:
    """One fact as an entry says it, or None with the problem noted."""
    typed = text_of(node)
    if typed is None:
        return None  # the schema says so
    if typed in _REASONS and typed not in signal.choices:
        collector.add(
            node, f'"{typed}" is no value', f"write none: {{{slot}: {typed}}} beside the facts"
        )
        return None
    if signal.kind is SignalKind.NUMBER:
        return _number(slot, typed, node, signal, vehicle, collector)
    value: Value = (
        yes_no_of(node)
        if signal.kind is SignalKind.YES_NO
        else _choice(typed, node, signal, collector)
    )
    if value is None:
        if signal.kind is SignalKind.YES_NO:
            collector.add(node, f'{slot} is yes or no, not "{typed}"', "write yes or no")
        return None
    return Said(slot, value, None, typed, node.place)


def _choice(typed: str, node: Node, signal: Signal, collector: Collector) -> str | None:
    if typed in signal.choices:
        return typed
    instead = did_you_mean(typed, signal.choices) or f"write one of: {', '.join(signal.choices)}"
    collector.add(node, f'{signal.id} has no choice "{typed}"', instead)
    return None


def _number(
    slot: str, typed: str, node: Node, signal: Signal, vehicle: Vehicle, collector: Collector
) -> Said | None:
    unit = signal.unit or ""
    try:
        number = read_number(typed)
        value, step = _in_unit(slot, number, unit, vehicle)
    except UnitError as error:
        collector.add(node, f"{slot}: {error.what}", error.instead)
        return None
    if signal.possible is not None and not signal.possible[0] <= value <= signal.possible[1]:
        low, high = signal.possible
        shown = f"{value:.10g}" if abs(value) < 1000 else f"{value:.0f}"
        converted = number.unit is not None and number.unit != unit
        what = f"{typed} is {shown} {unit}" if converted else f"{shown} {unit}".strip()
        collector.add(
            node,
            f"{slot}: {what.strip()} is not possible" if not converted else f"{slot}: {what}",
            f"{signal.label} lies between {low:g} and {high:g} {unit}".rstrip() + "; a slip?",
        )
        return None
    coarse = unit != "" and step > signal.step  # a count is exact
    return Said(slot, value, None, typed, node.place, step if coarse else None)


def _in_unit(slot: str, number: Typed, unit: str, vehicle: Vehicle) -> tuple[float, float]:
    """The number and its step in `unit`; a bare number is in the signal's own unit."""
    if number.unit is None:
        return number.value, number.step
    if number.unit == "mg/stroke" and unit in ("kg/h", "g/s", "lb/min"):
        cylinders, rpm = _stroke_context(slot, unit, vehicle)
        return (
            convert(convert_air(number.value, cylinders, rpm), "kg/h", unit),
            convert(convert_air(number.step, cylinders, rpm), "kg/h", unit),
        )
    return convert(number.value, number.unit, unit), convert_difference(
        number.step, number.unit, unit
    )


def _stroke_context(slot: str, unit: str, vehicle: Vehicle) -> tuple[int, float]:
    """Cylinders and speed for air per stroke: the speed is the point's, where it is one."""
    point = slot.partition("@")[2]
    if not (point.isascii() and point.isdigit()) or not vehicle.cylinders:
        raise WrongDimension("mg/stroke", unit)
    return vehicle.cylinders, float(point)
