"""What a backtest comes to over an archive, added up case by case in flat memory."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from sootsayer.belief.network import Kind
from sootsayer.learning.archive.counted import Counted, once_each
from sootsayer.learning.archive.rows import Row
from sootsayer.learning.backtest.found import Compared, Moved

NAMED = 20  # cases named of each thing that changed


@dataclass(slots=True)
class Examples:
    """How many, and the first of them by name."""

    count: int = 0
    cases: list[str] = field(default_factory=list)

    def add(self, case: str) -> None:
        self.count += 1
        if len(self.cases) < NAMED:
            self.cases.append(case)


@dataclass(slots=True)
class KindTally:
    """Of one kind of fault: how often the leading one was right, before and after, and how often
    the pack made it right (`better`) or wrong (`worse`), or another of equal worth (`other`)."""

    right_before: int = 0
    right_after: int = 0
    better: Examples = field(default_factory=Examples)
    worse: Examples = field(default_factory=Examples)
    other: Examples = field(default_factory=Examples)


@dataclass(slots=True)
class BacktestTally:
    """`moves`: action, state before and after to the cases; `rules`: how many changed verdicts each
    changed rule has a hand in; `squared_*`: sums of each case's mean squared distance."""

    archive: Counted = field(default_factory=Counted)
    changed: Examples = field(default_factory=Examples)
    led_otherwise: Examples = field(default_factory=Examples)
    asked_otherwise: Examples = field(default_factory=Examples)
    found_otherwise: Examples = field(default_factory=Examples)
    kinds: dict[Kind, KindTally] = field(default_factory=lambda: {k: KindTally() for k in Kind})
    looser: dict[tuple[str, str, str], Examples] = field(default_factory=dict)
    stricter: dict[tuple[str, str, str], Examples] = field(default_factory=dict)
    findings: dict[str, Examples] = field(default_factory=dict)
    rules: Counter[str] = field(default_factory=Counter)
    squared_before: float = 0.0
    squared_after: float = 0.0
    moved_numbers: int = 0

    def take(self, case: str, found: Compared) -> None:
        """One more case."""
        self.squared_before += found.before.squared
        self.squared_after += found.after.squared
        self.moved_numbers += found.before.squared != found.after.squared
        self._leads(case, found)
        if not found.differs:
            return
        self.changed.add(case)
        self.rules.update(found.rules)
        if found.asked is not None:
            self.asked_otherwise.add(case)
        if found.findings:
            self.found_otherwise.add(case)
        for each in found.findings:
            self.findings.setdefault(each.finding, Examples()).add(case)
        for move in found.moved:
            self._move(case, move)

    def _move(self, case: str, move: Moved) -> None:
        side = self.looser if move.looser else self.stricter
        side.setdefault((move.action, move.before, move.after), Examples()).add(case)

    def _leads(self, case: str, found: Compared) -> None:
        if found.leads_differ:
            self.led_otherwise.add(case)
        for one, other in zip(found.before.leads, found.after.leads, strict=True):
            kind = self.kinds[one.kind]
            kind.right_before += one.right
            kind.right_after += other.right
            if one.fault == other.fault:
                continue
            if one.right == other.right:
                kind.other.add(case)
            else:
                (kind.better if other.right else kind.worse).add(case)

    @property
    def loosened(self) -> tuple[str, ...]:
        """Actions of which any permission became looser, sorted."""
        return tuple(sorted({action for action, _, _ in self.looser}))


def tallied(rows: Iterable[Row[Compared]]) -> BacktestTally:
    """All of them."""
    tally = BacktestTally()
    for case, found in once_each(rows, tally.archive):
        tally.take(case, found)
    return tally
