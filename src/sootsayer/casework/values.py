"""From what was typed to a value in the signal's own unit."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.casework.collector import Collector, text_of, yes_no_of
from sootsayer.casework.model import Absence, Said, Vehicle
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import brief, figure, with_unit
from sootsayer.documents.nodes import Node
from sootsayer.documents.problems import did_you_mean
from sootsayer.engine.conditions import Value
from sootsayer.physics.units import (
    Typed,
    UnitError,
    UnknownUnit,
    WrongDimension,
    convert,
    convert_air,
    convert_difference,
    convert_reading,
    read_number,
    units_like,
)
from sootsayer.rulebook.model import Signal, SignalKind

_MASSES = ("mg", "g", "kg")
_PER_LITRE = {pair for mass in _MASSES for pair in ((mass, "g/L"), ("g/L", mass))}
_REASONS = {reason.value for reason in Absence}


def read_said(
    slot: str,
    node: Node,
    signal: Signal,
    vehicle: Vehicle,
    collector: Collector,
    signals: Mapping[str, Signal] | None = None,
) -> Said | None:
    """One fact as an entry says it, or None with the problem noted.

    `signals`: all of them, to name the one that a reading in another unit may belong to.
    """
    typed = text_of(node)
    if typed is None:
        return None  # the schema says so
    if typed in _REASONS and typed not in signal.choices:
        collector.add(
            node,
            say('"{typed}" is no value', typed=typed),
            say("write none: {{{slot}: {typed}}} beside the facts", slot=slot, typed=typed),
        )
        return None
    if signal.kind is SignalKind.NUMBER:
        others = _in_its_unit(typed, signal, signals or {})
        return _number(slot, typed, node, signal, vehicle, collector, others)
    value: Value = (
        yes_no_of(node)
        if signal.kind is SignalKind.YES_NO
        else _choice(typed, node, signal, collector)
    )
    if value is None:
        if signal.kind is SignalKind.YES_NO:
            what = say('{slot} is yes or no, not "{typed}"', slot=slot, typed=typed)
            collector.add(node, what, say("write yes or no"))
        return None
    return Said(slot, value, None, typed, node.place)


def _choice(typed: str, node: Node, signal: Signal, collector: Collector) -> str | None:
    if typed in signal.choices:
        return typed
    instead = did_you_mean(typed, signal.choices) or say(
        "write one of: {known}", known=", ".join(signal.choices)
    )
    what = say('{signal} has no choice "{typed}"', signal=signal.id, typed=typed)
    collector.lacks(node, what, instead)
    return None


def _in_its_unit(typed: str, signal: Signal, signals: Mapping[str, Signal]) -> list[str]:
    """The signals in the very unit typed, where it is volts or a per cent of the same thing."""
    try:
        unit = read_number(typed).unit
    except UnitError:
        return []
    if unit not in ("V", "%") or unit == signal.unit:
        return []
    thing = signal.id.partition("-")[0]
    kin = [each.id for each in signals.values() if each.unit == unit]
    return sorted(each for each in kin if unit == "V" or each.partition("-")[0] == thing)


def _number(
    slot: str,
    typed: str,
    node: Node,
    signal: Signal,
    vehicle: Vehicle,
    collector: Collector,
    others: list[str],
) -> Said | None:
    unit = signal.unit or ""
    try:
        number = read_number(typed)
        value, step = _in_unit(slot, number, unit, vehicle)
    except UnitError as error:
        instead = error.instead
        if isinstance(error, UnknownUnit) and not error.near and unit:
            instead = say("known here: {units}", units=", ".join(units_like(unit)))
        if others:
            signals = ", ".join(others)
            instead = say("{instead} (in that unit: {signals})", instead=instead, signals=signals)
        collector.add(node, say("{slot}: {what}", slot=slot, what=error.what), instead)
        return None
    if signal.possible is not None and not signal.possible[0] <= value <= signal.possible[1]:
        low, high = signal.possible
        shown = f"{value:.10g}" if abs(value) < 1000 else f"{value:.0f}"
        amount = with_unit(figure(shown), unit)
        converted = number.unit is not None and number.unit != unit
        collector.add(
            node,
            say("{slot}: {typed} is {value}", slot=slot, typed=typed, value=amount)
            if converted
            else say("{slot}: {value} is not possible", slot=slot, value=amount),
            say(
                "{label} lies between {low} and {high}; a slip?",
                label=signal.label,
                low=brief(low),
                high=with_unit(brief(high), unit),
            ),
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
    if vehicle.filter_litres and (number.unit, unit) in _PER_LITRE:
        litres = vehicle.filter_litres
        return (
            _by_litres(number.value, number.unit, unit, litres),
            _by_litres(number.step, number.unit, unit, litres),
        )
    return convert_reading(number.value, number.unit, unit), convert_difference(
        number.step, number.unit, unit
    )


def _by_litres(value: float, from_unit: str, to_unit: str, litres: float) -> float:
    """A mass from grams per litre of filter, or the other way about."""
    if from_unit == "g/L":
        return convert(value * litres, "g", to_unit)
    return convert(value, from_unit, "g") / litres


def _stroke_context(slot: str, unit: str, vehicle: Vehicle) -> tuple[int, float]:
    """Cylinders and speed for air per stroke: the speed is the point's, where it is one."""
    point = slot.partition("@")[2]
    if not (point.isascii() and point.isdigit()) or not vehicle.cylinders:
        raise WrongDimension("mg/stroke", unit)
    return vehicle.cylinders, float(point)
