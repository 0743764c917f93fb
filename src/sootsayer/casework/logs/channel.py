"""One column while it streams by: cells to numbers, and what was wrong with them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from sootsayer.casework.logs.cells import is_doubtful, is_missing, is_over, number, with_unit
from sootsayer.casework.logs.j1979 import WORDS, decoder
from sootsayer.casework.logs.model import Column
from sootsayer.casework.logs.units import dimension, head_unit, line_to
from sootsayer.casework.logs.words import BY_ID, IDLE_WORDS, RPM, RUNNING_WORDS, STATUS, Role

FROZEN_SAMPLES = 20
FROZEN_SPAN = 500.0
"""rpm that the engine moved through while the value stayed the same."""
_MOST_STEPS = 64
_MOST_RUNS = 200


@dataclass(slots=True)
class Bad:
    """Cells of one kind that gave no number: how many, and the first."""

    count: int = 0
    line: int = 0
    text: str = ""
    row: str = ""

    def add(self, text: str, line: int, row: str) -> None:
        if not self.count:
            self.line, self.text, self.row = line, text[:40], row[:400]
        self.count += 1


@dataclass(frozen=True, slots=True)
class Frozen:
    """A run of one value while the engine moved: lines, and rpm from and to."""

    value: float
    first_line: int
    last_line: int
    low: float
    high: float


class Channel:
    """A column taken as a role. `read` gives numbers in `unit`."""

    def __init__(
        self,
        column: Column,
        possible: tuple[float, float] | None,
        decimal_comma: bool,
        parted: bool = False,
    ) -> None:
        self.column = column
        self.role: Role = BY_ID[column.role]
        stroke = dimension(column.unit) == "mass per stroke"
        self.unit = column.unit if stroke else self.role.unit
        self.low, self.high = self.role.possible if possible is None or stroke else possible
        self.comma, self.parted = decimal_comma, parted
        self.missing, self.unreadable, self.over = Bad(), Bad(), Bad()
        self.impossible, self.doubtful = Bad(), Bad()
        self.n = 0
        self.lowest, self.highest = float("inf"), float("-inf")
        self.frozen: list[Frozen] = []
        self._factor, self._offset = line_to(column.unit, self.unit) if column.unit else (1.0, 0.0)
        self._text: str | None = None
        self._value = 0.0
        self._distinct: set[float] | None = set()
        self._lively = self.role.lively and self.role.id != RPM
        self._run = _Run()
        self._parse: Callable[[str], float | None] = (
            decoder(WORDS[column.scaling], column.name) if column.scaling
            else _status if column.role == STATUS else self._number
        )  # fmt: skip

    def read(self, text: str, line: int, row: str, rpm: float | None) -> float | None:
        """The number of a cell in `unit`; None, counted, where there is none to be used."""
        if text != self._text:
            value = self._parse(text)
            if value is None:
                self._note(text, line, row)
                return None
            value = value * self._factor + self._offset
            if not self.low <= value <= self.high:
                self.impossible.add(text, line, row)
                return None
            self._text, self._value = text, value
            if self._distinct is not None:
                self._distinct.add(value)
                if len(self._distinct) > _MOST_STEPS:
                    self._distinct = None
            self.lowest = min(self.lowest, value)
            self.highest = max(self.highest, value)
        self.n += 1
        value = self._value
        if self._lively and rpm is not None:
            self._watch(value, line, rpm)
        return value

    def end(self) -> None:
        """The log is over: the last run counts too."""
        self._close_run()

    @property
    def step(self) -> float:
        """The smallest difference between two readings, in `unit`; 0 where it is fine."""
        if self._distinct is None or len(self._distinct) < 2:
            return 0.0
        values = sorted(self._distinct)
        return min(b - a for a, b in pairwise(values))

    @property
    def still(self) -> bool:
        """It kept one value throughout, over enough samples to tell."""
        return self.n >= FROZEN_SAMPLES and self.lowest == self.highest

    def frozen_between(self, first: int, last: int) -> bool:
        """Whether a frozen run overlaps these lines."""
        return any(run.first_line <= last and run.last_line >= first for run in self.frozen)

    def _number(self, text: str) -> float | None:
        try:
            value = float(text.replace(",", ".", 1) if self.comma else text)
        except ValueError:
            return self._slowly(text)
        # NaN and infinity are no readings; neither is 1_000
        return value if value - value == 0.0 and "_" not in text else None

    def _slowly(self, text: str) -> float | None:
        found = number(text, self.comma, parted=self.parted)
        if found is not None:
            return found
        parts = with_unit(text)
        unit = head_unit(parts[1]) if parts else None
        if parts is None or unit is None or dimension(unit) != dimension(self.column.unit):
            return None
        value = self._before_unit(parts[0])
        if value is None:
            return None
        factor, offset = line_to(unit, self.column.unit)
        return value * factor + offset

    def _before_unit(self, digits: str) -> float | None:
        """The number before a unit; its comma is a decimal mark where it can be nothing else."""
        if self.parted or is_doubtful(digits):
            return number(digits, self.comma, parted=self.parted)
        return number(digits, "," in digits)

    def _note(self, text: str, line: int, row: str) -> None:
        if is_missing(text):
            self.missing.count += 1
        elif is_over(text):
            self.over.add(text, line, row)
        elif is_doubtful(text):
            self.doubtful.add(text, line, row)
        else:
            self.unreadable.add(text, line, row)

    def _watch(self, value: float, line: int, rpm: float) -> None:
        run = self._run
        if value == run.value:
            run.n += 1
            run.last = line
            if rpm < run.low:
                run.low = rpm
            elif rpm > run.high:
                run.high = rpm
            return
        self._close_run()
        self._run = _Run(value, 1, line, line, rpm, rpm)

    def _close_run(self) -> None:
        run = self._run
        moved = run.high - run.low >= FROZEN_SPAN
        if run.n >= FROZEN_SAMPLES and moved and len(self.frozen) < _MOST_RUNS:
            self.frozen.append(Frozen(run.value, run.first, run.last, run.low, run.high))


@dataclass(slots=True)
class _Run:
    value: float = float("nan")
    n: int = 0
    first: int = 0
    last: int = 0
    low: float = 0.0
    high: float = 0.0


def _status(text: str) -> float | None:
    """1 while a regeneration runs, 0 while none does."""
    word = " ".join(text.strip().lower().split())
    if word in RUNNING_WORDS:
        return 1.0
    return 0.0 if word in IDLE_WORDS else None
