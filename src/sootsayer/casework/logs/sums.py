"""Mean, spread and drift in one pass, in memory that does not grow."""

from __future__ import annotations

import math

from sootsayer.casework.logs.model import Summary


class Sums:
    """Of one channel over one window. Sums are of differences to the first sample, so that
    they stay exact where numbers are large and spread is small."""

    __slots__ = ("_t", "_tt", "_tv", "_v", "_vv", "highest", "lowest", "n", "t0", "v0")

    def __init__(self) -> None:
        self.n = 0
        self.t0 = self.v0 = 0.0
        self._t = self._v = self._tt = self._vv = self._tv = 0.0
        self.lowest, self.highest = math.inf, -math.inf

    def add(self, time: float, value: float) -> None:
        """One sample at `time` s."""
        if not self.n:
            self.t0, self.v0 = time, value
        t, v = time - self.t0, value - self.v0
        self.n += 1
        self._t += t
        self._v += v
        self._tt += t * t
        self._vv += v * v
        self._tv += t * v
        if value < self.lowest:
            self.lowest = value
        if value > self.highest:
            self.highest = value

    def summary(self, unit: str, step: float, duration: float) -> Summary:
        """Raises ZeroDivisionError without a sample. `duration` s is what drift is told over."""
        n = self.n
        spread = math.sqrt(max(self._vv - self._v * self._v / n, 0.0) / (n - 1)) if n > 1 else 0.0
        across = self._tt - self._t * self._t / n
        slope = (self._tv - self._t * self._v / n) / across if across > 1e-9 and n > 2 else 0.0
        return Summary(
            self.v0 + self._v / n, spread, self.lowest, self.highest, n, slope * duration, unit,
            step,
        )  # fmt: skip
