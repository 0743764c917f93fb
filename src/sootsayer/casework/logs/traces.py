"""A whole log in a few hundred points, for a picture, in memory that does not grow."""

from __future__ import annotations

from sootsayer.casework.logs.model import Trace

_MOST = 1200
_FIRST_WIDTH = 0.1


class Tracing:
    """Lowest and highest of one channel in stretches that double in width as the log grows."""

    def __init__(self, role: str, unit: str) -> None:
        self._role, self._unit = role, unit
        self._width = _FIRST_WIDTH
        self._stretches: list[tuple[int, float, float]] = []

    def add(self, time: float, value: float) -> None:
        at = int(time / self._width)
        rows = self._stretches
        if rows and rows[-1][0] == at:
            _, low, high = rows[-1]
            if not low <= value <= high:
                rows[-1] = (at, min(low, value), max(high, value))
            return
        rows.append((at, value, value))
        while len(self._stretches) > _MOST:
            self._halve()

    def trace(self) -> Trace:
        width = self._width
        return Trace(
            self._role, self._unit, tuple(((at + 0.5) * width, lo, hi) for at, lo, hi in
                                          self._stretches),
        )  # fmt: skip

    def _halve(self) -> None:
        self._width *= 2.0
        merged: list[tuple[int, float, float]] = []
        for at, low, high in self._stretches:
            if merged and merged[-1][0] == at // 2:
                _, other_low, other_high = merged[-1]
                merged[-1] = (at // 2, min(low, other_low), max(high, other_high))
            else:
                merged.append((at // 2, low, high))
        self._stretches = merged
