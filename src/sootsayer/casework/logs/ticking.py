"""Time from row to row: it may stand still, be missing, jump, or run backwards."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from sootsayer.casework.logs.channel import Bad
from sootsayer.casework.logs.times import Clock, moment_of

_OUT_OF_ORDER = 5.0
_DAY = 86_400.0


class Ticking:
    """`at` turns a cell into seconds since the first row; None for a row to be left out."""

    def __init__(self, clock: Clock, samples: Sequence[str]) -> None:
        self.clock = clock
        self.missing, self.backwards, self.late = Bad(), Bad(), Bad()
        self.first: float | None = None
        self.last = 0.0
        self.moved = False
        self.step = _usual_step(clock, samples)
        self.gap_after = max(5.0, 4.0 * self.step)
        self.gap = False
        self._offset = 0.0
        self._raw = 0.0

    def at(self, text: str, line: int, row: str) -> float | None:
        """Sets `gap` where this row does not follow the one before it."""
        self.gap = False
        raw = self.clock.read(text)
        if raw is None:
            self.missing.add(text, line, row)
            return self.last if self.first is not None and not text.strip() else None
        if self.first is None:
            self.first = self._raw = raw
            return 0.0
        if raw < self._raw:
            back = self._raw - raw
            if self.clock.wraps and back > _DAY / 2:
                self._offset += _DAY
            elif back <= _OUT_OF_ORDER:
                self.late.add(text, line, row)
                return None
            else:
                self.backwards.add(text, line, row)
                self._offset += back + self.step
                self.gap = True
        self._raw = raw
        time = raw + self._offset - self.first
        if time - self.last > self.gap_after:
            self.gap = True
        if time > self.last:
            self.moved = True
        self.last = time
        return time

    @property
    def begun(self) -> float | None:
        """Seconds since 1970 of the first row, where the log has a date."""
        if self.first is None or not self.clock.epoch or moment_of(self.first) is None:
            return None
        return self.first


def _usual_step(clock: Clock, samples: Sequence[str]) -> float:
    """s between rows, by the middle of the first ones; 0.1 where they do not tell."""
    times = [time for time in map(clock.read, samples) if time is not None]
    steps = sorted(b - a for a, b in pairwise(times) if b > a)
    return min(max(steps[len(steps) // 2], 0.001), 3600.0) if steps else 0.1
