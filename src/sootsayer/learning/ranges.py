"""Ranges that numbers of simulated vehicles are drawn from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from random import Random


@dataclass(frozen=True, slots=True)
class Span:
    """From `low` to `high` in the knob's own unit: all alike, most of them near `most` (a
    triangle), or alike in their logarithm (`log`, both ends above 0). Raises ValueError where
    that makes no range."""

    low: float
    high: float
    most: float | None = None
    log: bool = False

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high)) or self.high < self.low:
            raise ValueError(f"no range from {self.low:g} to {self.high:g}")
        if self.most is not None and not self.low <= self.most <= self.high:
            raise ValueError(
                f"most of them at {self.most:g}, outside {self.low:g} to {self.high:g}"
            )
        if self.log and self.low <= 0:
            raise ValueError(f"a range from {self.low:g} on has no logarithm")

    def draw(self, random: Random) -> float:
        """One number of the range; always one call of the generator."""
        share = random.random()
        if self.log:
            return self.low * math.pow(self.high / self.low, share)
        if self.most is None or self.high == self.low:
            return self.low + (self.high - self.low) * share
        knee = (self.most - self.low) / (self.high - self.low)
        if share < knee:
            return self.low + math.sqrt(share * (self.high - self.low) * (self.most - self.low))
        return self.high - math.sqrt((1 - share) * (self.high - self.low) * (self.high - self.most))


@dataclass(frozen=True, slots=True)
class Either:
    """One of several ranges, each as often as its share (they add to 1)."""

    ways: tuple[tuple[float, Span], ...]

    def draw(self, random: Random) -> float:
        """One number; always two calls of the generator."""
        share = random.random()
        for weight, span in self.ways:
            share -= weight
            if share < 0:
                return span.draw(random)
        return self.ways[-1][1].draw(random)


Range = Span | Either
