"""What a live-data log holds, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer.documents.problems import Problem

PULL = "pull"
RAISED_IDLE = "raised-idle"


@dataclass(frozen=True, slots=True)
class Shape:
    """How a log is written. `first` is the line of its first row, counted from 1.

    `encoding` and `delimiter` as Python names them; `names` and `units` one for each column
    ("" where there is none); `long` when a row names its channel and gives one value; `parted` when
    somebody said that decimals have a point, so that commas part thousands.
    """

    encoding: str
    delimiter: str
    decimal_comma: bool
    names: tuple[str, ...]
    units: tuple[str, ...]
    first: int
    head: tuple[str, ...] = ()
    long: bool = False
    header: int = 0
    parted: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """One column of the log taken as `role`; `score` from 0 to 1, 1 when a person said so.

    `index` counts columns from 0 (in a long log: the names in the order met). `unit` is that
    of the numbers in the file; `scaling` names the standard-data scaling of words, else "".
    """

    role: str
    index: int
    name: str
    unit: str
    score: float
    said: bool = False
    scaling: str = ""


@dataclass(frozen=True, slots=True)
class Summary:
    """One channel over one window, in `unit`: mean, standard deviation of the samples,
    lowest, highest, how many, and the change over the whole window along its straight line.

    `step` is the coarseness of the numbers in the log, 0 where it does not show.
    """

    mean: float
    spread: float
    lowest: float
    highest: float
    n: int
    drift: float
    unit: str
    step: float = 0.0


@dataclass(frozen=True, slots=True)
class Window:
    """A steady stretch. `point` as in the rulebook, or "raised-idle". Times in s from the
    first row; lines of the log. `apart`: why it is not to be taken, "" where it may be.
    """

    number: int
    point: str
    regeneration: bool
    begins: float
    ends: float
    first_line: int
    last_line: int
    channels: dict[str, Summary]
    apart: str = ""
    doubts: tuple[str, ...] = ()

    @property
    def duration(self) -> float:
        """s"""
        return self.ends - self.begins


@dataclass(frozen=True, slots=True)
class Trace:
    """One channel over the whole log for a picture: (time s, lowest, highest) a stretch."""

    role: str
    unit: str
    stretches: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class Log:
    """A log as read. `digest` is the SHA-256 of its bytes, `rows` its rows with a time.

    `begun` is the moment of the first row where the log has a date (without offset from
    UTC); `odometer` km and `litres` where the log says them, else None.
    """

    file: str
    digest: str
    shape: Shape
    columns: tuple[Column, ...]
    unused: tuple[str, ...]
    rows: int
    length: float
    windows: tuple[Window, ...]
    warnings: tuple[Problem, ...]
    traces: tuple[Trace, ...] = ()
    begun: datetime | None = None
    odometer: float | None = None
    litres: float | None = None

    def column(self, role: str) -> Column | None:
        """The column taken as `role`."""
        return next((column for column in self.columns if column.role == role), None)
