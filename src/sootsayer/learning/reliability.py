"""How far confidence comes true: tenths of confidence, and the Brier score in three parts.

Murphy 1973: reliability - resolution + uncertainty. That holds exactly where all forecasts of a
tenth are alike; what is left where they are not is `within` (Stephenson, Coelho & Jolliffe 2008),
so that the four always add to the score. Sums are taken in the order of the cases.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from sootsayer.learning.intervals import Interval, wilson

TENTHS = 10


@dataclass(frozen=True, slots=True)
class Tenth:
    """Of one tenth of confidence: how many, their mean confidence, and how often it came true."""

    low: float
    high: float
    count: int
    said: float
    true: int
    interval: Interval

    @property
    def came(self) -> float:
        return self.true / self.count


@dataclass(frozen=True, slots=True)
class Brier:
    """The mean squared distance between confidence and what was so, and what it is made of."""

    count: int
    score: float
    reliability: float
    resolution: float
    uncertainty: float
    within: float


@dataclass(slots=True)
class Reliability:
    """Takes forecasts one by one; needs no more memory for many than for few."""

    counts: list[int] = field(default_factory=lambda: [0] * TENTHS)
    said: list[float] = field(default_factory=lambda: [0.0] * TENTHS)
    true: list[int] = field(default_factory=lambda: [0] * TENTHS)
    squared: float = 0.0

    def add(self, confidence: float, came_true: bool) -> None:
        """One forecast (0 to 1), and whether it was so."""
        tenth = min(int(confidence * TENTHS), TENTHS - 1)
        self.counts[tenth] += 1
        self.said[tenth] += confidence
        self.true[tenth] += came_true
        self.squared += (confidence - came_true) ** 2

    @property
    def count(self) -> int:
        return sum(self.counts)

    def tenths(self) -> tuple[Tenth, ...]:
        """Those that anything fell into, lowest first."""
        return tuple(
            Tenth(
                low=i / TENTHS,
                high=(i + 1) / TENTHS,
                count=n,
                said=self.said[i] / n,
                true=self.true[i],
                interval=wilson(self.true[i], n),
            )
            for i, n in enumerate(self.counts)
            if n
        )

    def brier(self) -> Brier | None:
        """The score and its parts; None of nothing."""
        n = self.count
        if not n:
            return None
        share = sum(self.true) / n
        found = self.tenths()
        reliability = sum(t.count * (t.said - t.came) ** 2 for t in found) / n
        resolution = sum(t.count * (t.came - share) ** 2 for t in found) / n
        uncertainty = share * (1 - share)
        score = self.squared / n
        within = score - (reliability - resolution + uncertainty)
        return Brier(n, score, reliability, resolution, uncertainty, within)

    def expected_error(self) -> float:
        """Mean distance between confidence and how often it came true, weighted by count."""
        n = self.count
        return sum(t.count * abs(t.said - t.came) for t in self.tenths()) / n if n else 0.0
