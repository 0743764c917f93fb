"""Differential pressure against flow: the windows of a log as points, their fit, the bands.

Flow is brought to the viscosity of 200 C, where a filter is a straight line through the origin
whatever the temperature was; so points taken hot and less hot lie on one picture.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.casework.logs.model import Log, Window
from sootsayer.casework.logs.units import dimension
from sootsayer.casework.logs.words import AIR, BAROMETER, BEFORE, BOOST, DP, RPM
from sootsayer.casework.model import Case
from sootsayer.catalogue import say
from sootsayer.engine.conditions import Const, Limit, Operand
from sootsayer.physics.fit import LINEAR, ZERO, Fit, Point, fit
from sootsayer.physics.gas import (
    ATMOSPHERE,
    REFERENCE_TEMPERATURE,
    air_viscosity,
    viscosity_ratio,
)
from sootsayer.physics.measured import Measured, reading
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.physics.quantity import M3_H, MBAR, answer, kelvin
from sootsayer.physics.units import convert_air
from sootsayer.rulebook.model import FindingDef, Model

_DP_ERROR, _TEMPERATURE_ERROR, _AIR_ERROR = 1.0, 10.0, 0.03  # mbar, C, a share: from memory
_ASSUMED_BAROMETER = Measured(1013.25, 40.0)

NO_TEMPERATURE = "flow is not known: no exhaust temperature before the filter"
NO_AIR = "flow is not known: no air reading"
NO_CYLINDERS = "air per stroke needs the number of cylinders: give the case"
AIR_BY_RULE = "no air reading: air by displacement, speed and boost, within 15 per cent"
SEA_LEVEL = "air pressure is not in the log: sea level assumed"
_RESISTANCES = ("filter-resistance", "resistance-for-size")


@dataclass(frozen=True, slots=True)
class FlowPoint:
    """A window on the picture: `flow` m3/h at the viscosity of 200 C, `dp` mbar as shown, and
    the standard deviation of the latter."""

    number: int
    point: str
    flow: float
    dp: float
    sd: float
    fitted: Point


@dataclass(frozen=True, slots=True)
class Band:
    """From where a level begins: its `label`, and the slope in mbar/(m3/h) through the origin."""

    label: str
    slope: float


@dataclass(frozen=True, slots=True)
class FlowPicture:
    """`curve` (m3/h, mbar) of the fit, empty where there is none; `zero` mbar of the fit, else of
    the window at rest, else None; `remarks` on what was assumed or is missing."""

    points: tuple[FlowPoint, ...]
    bands: tuple[Band, ...]
    curve: tuple[tuple[float, float], ...]
    zero: float | None
    resistance: Measured | None
    remarks: tuple[str, ...]


def flow_picture(log: Log, model: Model, case: Case | None) -> FlowPicture:
    """The picture of a log; windows of a regeneration and of cold engines are left out."""
    remarks: dict[str, None] = {}  # templates, each said once, in the order met
    barometer = _barometer(log, remarks)
    points = [
        point
        for window in log.windows
        if not window.apart and window.point != "cold-idle"
        if (point := _point(window, barometer, case, remarks)) is not None
    ]
    running = [point for point in points if point.flow > 0]
    if not running:
        return FlowPicture(tuple(points), (), (), None, None, tuple(map(say, remarks)))
    found = fit([point.fitted for point in points])
    zero = found.parameter(ZERO)
    rest = next((point.dp for point in points if point.flow == 0), None)
    linear = found.parameter(LINEAR)
    return FlowPicture(
        tuple(points), _bands(model, case, running), _curve(found, running),
        zero.value / MBAR if zero is not None else rest, _as_resistance(linear),
        tuple(map(say, remarks)),
    )  # fmt: skip


def _point(
    window: Window, barometer: Measured, case: Case | None, remarks: dict[str, None]
) -> FlowPoint | None:
    dp = window.channels.get(DP)
    if dp is None:
        return None
    pressure = reading(dp.mean, math.hypot(_DP_ERROR, dp.spread / math.sqrt(dp.n)), dp.step)
    gas = window.channels.get(BEFORE)
    celsius = gas.mean if gas is not None else 150.0
    if window.point == "rest":
        at = Point(dp.mean * MBAR, pressure.sd * MBAR, 0.0, kelvin(celsius), barometer.value * MBAR)
        return FlowPoint(window.number, window.point, 0.0, dp.mean, pressure.sd, at)
    air = _air(window, case, remarks)
    if air is None or gas is None:
        remarks[NO_TEMPERATURE if gas is None else NO_AIR] = None
        return None
    known = {"dp": pressure, "air": air, "barometer": barometer,
             "exhaust-temperature": Measured(celsius, _TEMPERATURE_ERROR)}  # fmt: skip
    flow = answer(QUANTITIES["exhaust-flow"], known).value
    if flow is None or flow.value <= 0:
        return None
    absolute = (barometer.value + max(dp.mean, 0.0) / 2.0) * MBAR
    try:
        at = Point(dp.mean * MBAR, pressure.sd * MBAR, flow.value * M3_H, kelvin(celsius), absolute)
        scaled = flow.value * viscosity_ratio(kelvin(celsius))
    except ValueError:
        return None
    return FlowPoint(window.number, window.point, scaled, dp.mean, pressure.sd, at)


def _air(window: Window, case: Case | None, remarks: dict[str, None]) -> Measured | None:
    """kg/h: the reading, else what an engine of the case's size takes in at this boost."""
    air, rpm = window.channels.get(AIR), window.channels.get(RPM)
    vehicle = case.vehicle if case is not None else None
    if air is not None:
        value = air.mean
        if dimension(air.unit) == "mass per stroke":
            if rpm is None or vehicle is None or vehicle.cylinders is None:
                remarks[NO_CYLINDERS] = None
                return None
            value = convert_air(value, vehicle.cylinders, rpm.mean)
        return Measured(value, abs(value) * _AIR_ERROR)
    boost = window.channels.get(BOOST)
    if boost is None or rpm is None or vehicle is None or vehicle.engine_litres is None:
        return None
    known = {"engine-litres": Measured(vehicle.engine_litres), "engine-speed": Measured(rpm.mean),
             "boost": Measured(boost.mean, 15.0)}  # fmt: skip
    remarks[AIR_BY_RULE] = None
    return answer(QUANTITIES["air-by-rule"], known).value


def _barometer(log: Log, remarks: dict[str, None]) -> Measured:
    """Its column; else intake pressure with the engine stopped, which is the same; else assumed."""
    for window in log.windows:
        own = window.channels.get(BAROMETER)
        if own is not None:
            return Measured(own.mean, 5.0)
    for window in log.windows:
        boost = window.channels.get(BOOST)
        if window.point == "rest" and boost is not None and 500.0 <= boost.mean <= 1100.0:
            return Measured(boost.mean, 10.0)
    remarks[SEA_LEVEL] = None
    return _ASSUMED_BAROMETER


def _curve(found: Fit, running: list[FlowPoint]) -> tuple[tuple[float, float], ...]:
    """The fit from no flow to a little beyond the last point, at 200 C."""
    far = max(point.flow for point in running) * 1.05
    rows: list[tuple[float, float]] = []
    for i in range(41):
        flow = far * i / 40
        at = Point(0.0, 1.0, flow * M3_H, REFERENCE_TEMPERATURE, ATMOSPHERE)
        rows.append((flow, found.drop_at(at).value / MBAR))
    return tuple(rows)


def _as_resistance(linear: Measured | None) -> Measured | None:
    """A in 1/m3 as mbar/(m3/h) at the viscosity of 200 C."""
    if linear is None:
        return None
    scale = air_viscosity(REFERENCE_TEMPERATURE) * M3_H / MBAR
    return Measured(linear.value * scale, linear.sd * scale)


def _bands(model: Model, case: Case | None, running: list[FlowPoint]) -> tuple[Band, ...]:
    """The levels of the first finding that grades a resistance, else differential pressure at
    a point that the log has."""
    graded = [finding for finding in model.findings.values() if finding.of is not None]
    for finding in graded:
        signal = (finding.of or "").partition("@")[0]
        quantity = model.quantities.get(signal)
        if quantity is not None and quantity.formula in _RESISTANCES:
            return _slopes(finding, model, case, 1.0)
    flows: Mapping[str, float] = {point.point: point.flow for point in running}
    for point in ("2500", "2000", "3000", "1500"):
        for finding in graded:
            if finding.of == f"dp@{point}" and point in flows:
                return _slopes(finding, model, case, flows[point])
    return ()


def _slopes(finding: FindingDef, model: Model, case: Case | None, over: float) -> tuple[Band, ...]:
    bands: list[Band] = []
    for level, cut in zip(finding.levels[1:], finding.cuts, strict=True):
        value = _value(cut, model, case)
        if value is not None and value > 0:
            bands.append(Band(finding.level_words.get(level, level), value / over))
    return tuple(bands)


def _value(cut: Operand, model: Model, case: Case | None) -> float | None:
    if isinstance(cut, Const):
        return cut.value
    if isinstance(cut, Limit):
        own = case.limits.get(cut.name) if case is not None else None
        return own.value if own is not None else model.limits[cut.name].default
    return None
