"""A case as frozen data: a header and an append-only list of entries."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from enum import Enum
from functools import lru_cache

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value


class Source(Enum):
    """Where a fact came from; the order of definition is the order of rank, best first."""

    COMPUTED = "computed"
    GAUGE = "gauge"
    SCAN = "scan"
    TECHNICIAN = "technician"
    CUSTOMER = "customer"


class Absence(Enum):
    """Why there is no value. The first three are unknown to logic."""

    NOT_ASKED = "not asked"
    DO_NOT_KNOW = "do not know"
    CANNOT = "cannot"
    NOT_FITTED = "not fitted"


@dataclass(frozen=True, slots=True)
class Said:
    """One fact as an entry says it: a value in the signal's unit, or why there is none.

    `typed` is it as written in the file; `place` where. `step` is the coarseness of the
    number as typed, in the signal's unit, where it is coarser than the signal's own step.
    """

    slot: str
    value: Value
    absence: Absence | None
    typed: str
    place: Place
    step: float | None = None


@dataclass(frozen=True, slots=True)
class CodeList:
    """A reading of the trouble-code memory.

    `distance_km` and `warm_ups` since the last clearing, `monitors_run`: None if unknown.
    """

    complete: bool
    codes: tuple[str, ...]
    place: Place
    monitors_run: bool | None = None
    distance_km: float | None = None
    warm_ups: int | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was confirmed in the end; closes the case."""

    faults: tuple[str, ...]
    cured_by: tuple[str, ...]
    proved_by: str


@dataclass(frozen=True, slots=True)
class Entry:
    """What was said, read, done or found at one moment. `number` counts from 1.

    Of a correction, `round` and `source` are already those of the entry it corrects.
    """

    number: int
    at: datetime
    by: str
    round: str | None
    source: Source
    said: tuple[Said, ...]
    place: Place
    codes: CodeList | None = None
    corrects: int | None = None
    work: str | None = None
    note: str | None = None
    outcome: Outcome | None = None


@dataclass(frozen=True, slots=True)
class Vehicle:
    """The header's vehicle: litres and km, None if unknown; `fitted`: yes, no or unknown (None).

    `places`: where each of these stands, by its key (`filter litres`) or what is fitted.
    """

    label: str
    engine_litres: float | None = None
    cylinders: int | None = None
    filter_litres: float | None = None
    fitted: dict[str, bool | None] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    odometer_km: float | None = None


@dataclass(frozen=True, slots=True)
class LimitSaid:
    """This vehicle's own value of a limit, in the limit's unit."""

    value: float
    typed: str
    place: Place


@dataclass(frozen=True, slots=True)
class Case:
    """`torn`: text of a last line that was not whole and was left out, else None."""

    id: str
    file: str
    vehicle: Vehicle
    limits: dict[str, LimitSaid]
    entries: tuple[Entry, ...]
    story: str = ""
    torn: str | None = None

    @property
    def closed(self) -> bool:
        return any(entry.outcome is not None for entry in self.entries)


_NO_CHANNEL: frozenset[str] = frozenset()


@lru_cache(maxsize=256)
def _one(channel: str) -> frozenset[str]:
    return frozenset((channel,))


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact in force, with where it came from.

    `sd`: one standard deviation of a number (error and step together), in the signal's
    unit, 0 for words. `channel` is "" where the signal has none. Of a computed fact
    `came_from` are the facts it was computed from, and `channel` is "".
    """

    slot: str
    value: Value
    absence: Absence | None
    unit: str | None
    source: Source
    round: str | None
    entry: int
    at: datetime
    place: Place
    typed: str
    sd: float = 0.0
    channel: str = ""
    came_from: tuple[Fact, ...] = ()

    @property
    def channels(self) -> frozenset[str]:
        """The channels that it came through, itself or the facts it was computed from."""
        own = _one(self.channel) if self.channel else _NO_CHANNEL
        return own if not self.came_from else own.union(*(fact.channels for fact in self.came_from))

    @property
    def read(self) -> tuple[Fact, ...]:
        """The facts that were really read: itself, or those it was computed from."""
        if not self.came_from:
            return (self,)
        return tuple(fact for one in self.came_from for fact in one.read)


@dataclass(frozen=True, slots=True)
class FactSheet:
    """All facts in force as of one entry, for one round.

    `by_source`: slot, sorted, to facts, best source first, one fact a source (the later entry).
    `round` is the newest round that has readings, None before the first.
    """

    as_of: int
    round: str | None
    by_source: dict[str, tuple[Fact, ...]]
