"""Steady windows and firm pulls, found while the rows stream by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from sootsayer.casework.logs.model import PULL, RAISED_IDLE
from sootsayer.casework.logs.state import Engine, State
from sootsayer.casework.logs.sums import Sums
from sootsayer.casework.logs.words import LOAD, PEDAL, RPM, SPEED

# s: what is left out at the beginning until pressure and flow have settled, and the least
# that must follow it. Common practice: hoses and damping settle within seconds.
SETTLE = {"rest": 5.0, "idle": 5.0, "cold-idle": 5.0, RAISED_IDLE: 5.0, "road": 20.0}
_SETTLE_HELD = 8.0
LEAST = {"rest": 5.0, "idle": 15.0, "cold-idle": 15.0, RAISED_IDLE: 15.0, "road": 40.0}
_LEAST_HELD = 10.0
_LEAST_SAMPLES = 5
MOST_WINDOWS = 300

_PULL_PEDAL, _PULL_LOAD = 80.0, 85.0  # %
_PULL_SPEED = 10.0  # km/h
_PULL_FROM = 1300.0  # rpm
_PULL_RISE = 400.0  # rpm
_BLIND_RISE, _BLIND_RATE = 1000.0, 70.0  # rpm and rpm/s where neither pedal nor load is known
_MOST_PULL = 4000


@dataclass(slots=True)
class Found:
    """A window as found: one `Sums` a channel, over what came after settling."""

    point: str
    regeneration: bool
    begins: float
    ends: float
    first_line: int
    last_line: int
    sums: list[Sums] = field(default_factory=list)


class Steady:
    """Feed it rows; `found` has the windows, `left_out` how many were too many to keep."""

    def __init__(self, roles: Sequence[str], engine: Engine) -> None:
        self.found: list[Found] = []
        self.left_out = 0
        self._width = len(roles)
        self._rpm = list(roles).index(RPM)
        self._engine = engine
        self._state: State | None = None
        self._open: Found | None = None
        self._pull = _Pull(roles, engine)

    def feed(self, time: float, line: int, values: Sequence[float | None]) -> None:
        """One row at `time` s."""
        engine = self._engine
        engine.take(time, values)
        state = engine.state(time)
        if state != self._state:
            self._close()
            self._state = state
            if state is not None:
                sums = [Sums() for _ in range(self._width)]
                self._open = Found(state[0], state[1], time, time, line, line, sums)
        window = self._open
        if window is not None:
            window.ends, window.last_line = time, line
            if time - window.begins >= SETTLE.get(window.point, _SETTLE_HELD):
                for one, value in zip(window.sums, values, strict=True):
                    if value is not None:
                        one.add(time, value)
        self._keep(self._pull.feed(time, line, values))

    def gap(self) -> None:
        """Nothing was recorded for a while: what was open ends."""
        self._close()
        self._state = None
        self._engine.forget()
        self._keep(self._pull.close())

    def end(self) -> None:
        """The log is over."""
        self.gap()
        self.found.sort(key=lambda window: (window.begins, window.first_line))

    def _close(self) -> None:
        window, self._open = self._open, None
        if window is None:
            return
        settle = SETTLE.get(window.point, _SETTLE_HELD)
        least = settle + LEAST.get(window.point, _LEAST_HELD)
        if window.ends - window.begins >= least:
            window.begins += settle
            if window.sums[self._rpm].n >= _LEAST_SAMPLES:
                self._keep(window)

    def _keep(self, window: Found | None) -> None:
        if window is None:
            return
        if len(self.found) >= MOST_WINDOWS:
            self.left_out += 1
            return
        self.found.append(window)


class _Pull:
    """A firm pull: full pedal or load while speed of the engine rises, on the road."""

    def __init__(self, roles: Sequence[str], engine: Engine) -> None:
        self._width = len(roles)
        self._engine = engine
        self._tells = PEDAL in roles or LOAD in roles
        self._has_speed = SPEED in roles
        self._rows: list[tuple[float, int, float, Sequence[float | None]]] = []
        self._peak = (0.0, 0.0)

    def feed(self, time: float, line: int, values: Sequence[float | None]) -> Found | None:
        """A pull that ended with this row, if one did."""
        rpm = self._engine.reading(RPM, time)
        if rpm is None or rpm < _PULL_FROM or not self._pulls(rpm, time):
            return self.close() if self._rows else None
        if len(self._rows) < _MOST_PULL:
            self._rows.append((time, line, rpm, tuple(values)))
        if rpm > self._peak[0]:
            self._peak = (rpm, time)
        return None

    def close(self) -> Found | None:
        """What was open, if it was a pull."""
        rows, self._rows = self._rows, []
        peak, self._peak = self._peak[0], (0.0, 0.0)
        if len(rows) < _LEAST_SAMPLES:
            return None
        begins, ends = rows[0][0], rows[-1][0]
        rise, lasts = peak - rows[0][2], ends - begins
        if lasts < 2.0 or lasts > 60.0 or rise < (_PULL_RISE if self._tells else _BLIND_RISE):
            return None
        if not self._tells and rise / lasts < _BLIND_RATE:
            return None
        middle = begins + lasts / 2.0
        sums = [Sums() for _ in range(self._width)]
        for time, _, _, values in rows:
            if time >= middle:
                for one, value in zip(sums, values, strict=True):
                    if value is not None:
                        one.add(time, value)
        first = next(row[1] for row in rows if row[0] >= middle)
        return Found(PULL, False, middle, ends, first, rows[-1][1], sums)

    def _pulls(self, rpm: float, time: float) -> bool:
        engine = self._engine
        speed = engine.reading(SPEED, time)
        if self._has_speed and (speed is None or speed < _PULL_SPEED):
            return False
        if self._tells:
            pedal, load = engine.reading(PEDAL, time), engine.reading(LOAD, time)
            return (pedal or 0.0) >= _PULL_PEDAL or (load or 0.0) >= _PULL_LOAD
        if not self._has_speed:
            return False
        return not self._rows or (rpm >= self._peak[0] - 50.0 and time - self._peak[1] <= 1.5)
