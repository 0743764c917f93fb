"""What a reading would mean at the flow that an engine of this size has at its point.

Used only to ask once more: the flow is that of the rule of thumb (physics.flow.air_by_rule),
unboosted, EGR shut, and everything is meant wide.
"""

from __future__ import annotations

from sootsayer.casework.facts import fact_in_force, fact_sheet
from sootsayer.commands.asking.state import Session
from sootsayer.physics.flow import air_by_rule, volume_flow
from sootsayer.rulebook.model import Model

_IDLE_RPM = 800.0  # common practice, of four-cylinder diesels
_UNBOOSTED = 1e5  # Pa
_GAS = {"idle": 423.0}  # K, hot before the filter; at a held speed 473 K (common practice)
_HELD = 473.0
_PER_HOUR = 3600.0


def speed_at(point: str) -> float | None:
    """rpm of a point that has one, None of any other."""
    if point.isascii() and point.isdigit():
        return float(point)
    return _IDLE_RPM if point == "idle" else None


def air_drawn(session: Session, point: str) -> float | None:
    """kg/h that the rule of thumb gives at the point; None without displacement or speed."""
    speed = speed_at(point)
    sheet = fact_sheet(session.case, session.model, in_round=session.round)
    taken = input_of(session.model, "air-ratio-to-rule", "engine-litres")
    litres = None if taken is None else fact_in_force(sheet, taken)
    size = session.case.vehicle.engine_litres
    if litres is not None and isinstance(litres.value, float):
        size = litres.value
    if speed is None or not 0 < speed <= 6000 or size is None or not 0.3 <= size <= 20:
        return None
    return air_by_rule(size, speed, _UNBOOSTED) * _PER_HOUR


def nominal_resistance(session: Session, point: str, pressure_mbar: float) -> float | None:
    """mbar per m3/h that this differential pressure would mean at the flow of the rule."""
    air = air_drawn(session, point)
    if air is None:
        return None
    gas = _GAS.get(point, _HELD)
    return pressure_mbar / (volume_flow(air / _PER_HOUR, gas) * _PER_HOUR)


def input_of(model: Model, formula: str, name: str) -> str | None:
    """The signal that the rulebook feeds into an input of a physics function."""
    found = (each.takes.get(name) for each in model.quantities.values() if each.formula == formula)
    return next((signal for signal in found if signal), None)
