"""In which state an engine is, told from the readings of one moment and the one before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.casework.logs.model import RAISED_IDLE
from sootsayer.casework.logs.words import BEFORE, COOLANT, LOAD, PEDAL, RPM, SPEED, STATUS

# rpm. Common practice; a band is wider for the state that the engine is already in, so that
# a hunting engine does not cut a window into pieces.
_STOPPED = 50.0
_IDLE = (500.0, 950.0)
_RAISED = (950.0, 1300.0)
_HELD = (1500.0, 2000.0, 2500.0, 3000.0)
_BAND, _WIDER = 100.0, 40.0
_ROAD = (85.0, 95.0)  # km/h
_STANDING = 3.0  # km/h
_COOLER = 5.0  # C below hot before it counts as cold again
_LESS_HOT = 50.0  # C below burning before a regeneration counts as over
_HEAVY_PEDAL, _HEAVY_LOAD = 60.0, 70.0  # %

HELD_FOR = {RPM: 3.0, SPEED: 5.0, BEFORE: 15.0, COOLANT: 60.0, PEDAL: 3.0, LOAD: 3.0,
            STATUS: 60.0}  # fmt: skip
"""s for which a reading still holds when none follows."""

State = tuple[str, bool]
"""A point (or raised-idle), and whether a regeneration runs."""


@dataclass(frozen=True, slots=True)
class Levels:
    """C: coolant from which the engine is hot; exhaust that only a regeneration reaches at
    light load."""

    hot: float = 80.0
    burning: float = 450.0


class Engine:
    """Keeps the last readings; `state` after each row."""

    def __init__(self, roles: Sequence[str], levels: Levels, slowest: float) -> None:
        """`slowest`: s between samples of the log, which a reading must outlast."""
        self._places = [(i, role) for i, role in enumerate(roles) if role in HELD_FOR]
        self._held: dict[str, tuple[float, float]] = {}
        self._ages = {role: max(age, 3.0 * slowest) for role, age in HELD_FOR.items()}
        self._levels = levels
        self._hot = False
        self._burning = False
        self._now: State | None = None

    def take(self, time: float, values: Sequence[float | None]) -> None:
        """The readings of one row."""
        held = self._held
        for index, role in self._places:
            value = values[index]
            if value is not None:
                held[role] = (value, time)

    def reading(self, role: str, time: float) -> float | None:
        """The last reading of `role`, None where it is too old."""
        held = self._held.get(role)
        return held[0] if held is not None and time - held[1] <= self._ages[role] else None

    def state(self, time: float) -> State | None:
        """The state at `time`, None where it is none that readings are taken in."""
        self._now = self._state(time)
        return self._now

    def forget(self) -> None:
        """After a gap nothing holds any more."""
        self._held.clear()
        self._now = None

    def _state(self, time: float) -> State | None:
        rpm = self.reading(RPM, time)
        if rpm is None:
            return None
        if rpm < _STOPPED:
            self._burning = False
            return "rest", False
        burning = self._burns(time)
        speed = self.reading(SPEED, time)
        if speed is not None and speed > _STANDING:
            return ("road", burning) if _ROAD[0] <= speed <= _ROAD[1] else None
        point = self._standing(rpm, time)
        return (point, burning) if point else None

    def _standing(self, rpm: float, time: float) -> str:
        now = self._now[0] if self._now else ""
        at_idle = now in ("idle", "cold-idle")
        if _IDLE[0] <= rpm <= _IDLE[1] + (_WIDER if at_idle else 0.0):
            return "idle" if self._is_hot(time) is not False else "cold-idle"
        if _RAISED[0] - (_WIDER if now == RAISED_IDLE else 0.0) < rpm < _RAISED[1]:
            return RAISED_IDLE
        for nominal in _HELD:
            name = f"{nominal:.0f}"
            if abs(rpm - nominal) <= _BAND + (_WIDER if now == name else 0.0):
                return name
        return ""

    def _is_hot(self, time: float) -> bool | None:
        coolant = self.reading(COOLANT, time)
        if coolant is None:
            return None
        self._hot = coolant >= self._levels.hot - (_COOLER if self._hot else 0.0)
        return self._hot

    def _burns(self, time: float) -> bool:
        """By the log's own word, else by gas hotter than light load makes it."""
        status = self.reading(STATUS, time)
        temperature = self.reading(BEFORE, time)
        if status == 1.0:
            self._burning = True
        elif temperature is None:
            self._burning = False
        elif temperature > self._levels.burning and self._light(time):
            self._burning = True
        elif temperature < self._levels.burning - _LESS_HOT:
            self._burning = False
        return self._burning

    def _light(self, time: float) -> bool:
        pedal, load = self.reading(PEDAL, time), self.reading(LOAD, time)
        return (pedal or 0.0) < _HEAVY_PEDAL and (load or 0.0) < _HEAVY_LOAD
