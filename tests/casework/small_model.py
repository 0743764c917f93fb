"""A model of a few signals, so that tests of cases need no shipped pack."""

from __future__ import annotations

from sootsayer.belief.network import Kind
from sootsayer.documents.nodes import Place
from sootsayer.rulebook.model import (
    Basis,
    BasisKind,
    Digests,
    FaultDef,
    Lasts,
    LimitDef,
    Model,
    Point,
    Signal,
    SignalKind,
)

_PLACE = Place("rules/small.yaml", 1, 1)
_BASIS = Basis(BasisKind.MEMORY)


def _signal(name: str, kind: SignalKind, **more: object) -> Signal:
    return Signal(name, more.pop("label", name), kind, more.pop("lasts", Lasts.ROUND), "small", _PLACE, **more)  # type: ignore[arg-type]  # fmt: skip # noqa: E501


def _signals() -> list[Signal]:
    number, choice, yes_no = SignalKind.NUMBER, SignalKind.CHOICE, SignalKind.YES_NO
    points = ("rest", "idle", "2500")
    return [
        _signal(
            "dp", number, label="Differential pressure over the filter", unit="mbar",
            possible=(-100.0, 1000.0), step=1.0, error=2.0, points=points,
            channels={"scan": "dp-sensor", "gauge": "dp-gauge"},
        ),
        _signal("air", number, unit="kg/h", possible=(0.0, 1500.0), step=0.1, error=3.0,
                points=points, channels={"": "air-meter"}),
        _signal("egt", number, unit="C", possible=(-40.0, 1100.0), step=1.0, error=5.0,
                points=points),
        _signal("soot-shown", number, unit="g", possible=(0.0, 200.0), step=0.1, error=2.0),
        _signal("attempts", number, unit="", possible=(0.0, 100.0)),
        _signal("trip-length", number, unit="km", possible=(0.0, 1000.0), lasts=Lasts.VISIT),
        _signal("power-loss", choice, choices=("none", "gradual", "sudden"), lasts=Lasts.VISIT),
        _signal("oil-smells-of-fuel", yes_no, lasts=Lasts.VISIT),
        _signal("tailpipe-sooty", yes_no),
        _signal("fitted-additive", yes_no, lasts=Lasts.VISIT),
        _signal("fitted-low-pressure-recirculation", yes_no, lasts=Lasts.VISIT),
        _signal("engine-litres", number, unit="L", possible=(0.0, 30.0), lasts=Lasts.VISIT),
    ]  # fmt: skip


def small_model() -> Model:
    """Signals of every kind, three points, one limit, two faults, two trouble codes."""
    faults = [
        FaultDef("sensor-offset", "Sensor offset", Kind.MEASUREMENT, 0.1, _BASIS, "small", _PLACE),
        FaultDef("ash-full", "Filter full of ash", Kind.CONDITION, 0.1, _BASIS, "small", _PLACE),
    ]
    points = {name: Point(name, name, name, "small", _PLACE) for name in ("2500", "idle", "pull", "rest")}  # fmt: skip # noqa: E501
    limit = LimitDef("soot-in-place-max", "Most soot", 45.0, "g", _BASIS, "small", _PLACE)
    return Model(
        signals={signal.id: signal for signal in sorted(_signals(), key=lambda one: one.id)},
        points=points,
        channels={},
        limits={limit.id: limit},
        checks={},
        findings={},
        families={},
        faults={fault.id: fault for fault in sorted(faults, key=lambda one: one.id)},
        evidence={},
        actions={},
        interlocks={},
        codes=("P2453", "P2463"),
        digests=Digests("", ""),
    )


HEADER = """\
case: 2031-03-14-a
format: 1
vehicle: {label: 2.0 L panel van, engine litres: 2.0, cylinders: 4, fitted: {additive: no}}
entries:
"""
START = "{at: 2031-03-14T09:02+01:00, by: tech-1, "
ARRIVAL = START + "round: arrival, source: scan, "


def case_text(*entries: str, header: str = HEADER) -> str:
    """A case file: entries without their dash."""
    return header + "".join(f"- {entry}\n" for entry in entries)
