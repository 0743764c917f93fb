"""Like for like: what two readings of one thing are, and what a comparison of them says.

A reading is compared only with one taken in the same state of the vehicle. All numbers are in
the units of the physics of a workshop: mbar, kg/h, C, rpm.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from sootsayer.physics.measured import Measured


class Warmth(Enum):
    """The temperature class of a reading: at equal mass flow hot gas reads about twice cold."""

    HOT = "hot"
    COLD = "cold"
    UNKNOWN = "unknown"


class Unlike(Enum):
    """Why two readings may not be compared."""

    NOT_READ_BEFORE = "not-read-before"
    NOT_READ_AFTER = "not-read-after"
    DISTRUSTED_BEFORE = "distrusted-before"
    DISTRUSTED_AFTER = "distrusted-after"
    BURNING_BEFORE = "burning-before"
    BURNING_AFTER = "burning-after"
    WET_BEFORE = "wet-before"
    WET_AFTER = "wet-after"
    PERHAPS_WET = "perhaps-wet"
    OTHER_EGR = "other-egr"
    RECIRCULATION_UNKNOWN = "recirculation-unknown"
    SENSOR_CHANGED = "sensor-changed"
    OTHER_INSTRUMENT = "other-instrument"
    COLD_BEFORE = "cold-before"
    COLD_AFTER = "cold-after"
    WARMTH_UNKNOWN_BEFORE = "warmth-unknown-before"
    WARMTH_UNKNOWN_AFTER = "warmth-unknown-after"
    TEMPERATURES_APART = "temperatures-apart"
    OTHER_SPEED = "other-speed"
    OUT_OF_RANGE = "out-of-range"


CANNOT_BE_MENDED = frozenset(
    {
        Unlike.NOT_READ_BEFORE,
        Unlike.DISTRUSTED_BEFORE,
        Unlike.BURNING_BEFORE,
        Unlike.WET_BEFORE,
        Unlike.WARMTH_UNKNOWN_BEFORE,
    }
)
"""What lies in the earlier round: no reading taken now can mend it."""


@dataclass(frozen=True, slots=True)
class Tolerances:
    """How unlike two readings may be, in C, rpm, mbar and shares.

    `dry` C from which resistance counts; `temperature` C and `speed` rpm that raw readings may
    be apart; `scatter` the standard deviation of a raw reading, as a share, that held speed and
    equal warmth leave open; `zero` mbar the standard deviation of a zero that nobody read.
    """

    dry: float = 120.0
    temperature: float = 30.0
    speed: float = 100.0
    scatter: float = 0.1
    zero: float = 3.0


@dataclass(frozen=True, slots=True)
class Taken:
    """One reading as it was taken: `shown` mbar at `point` in `round`, zero not removed.

    `zero` is what the same instrument showed at rest in that round. `air` kg/h, `exhaust` C,
    `barometer` mbar and `recirculated` (a share) are None where they are not known or not
    trusted; `speed` rpm. `burning`, `wet`: None where unknown. `leads_back`: low-pressure EGR is
    fitted. `distrusted`: the tests that its instrument failed.
    """

    slot: str
    point: str
    round: str
    entry: int
    shown: Measured
    channel: str
    warmth: Warmth
    zero: Measured | None = None
    air: Measured | None = None
    exhaust: Measured | None = None
    barometer: Measured | None = None
    recirculated: Measured | None = None
    speed: float | None = None
    burning: bool | None = None
    wet: bool | None = None
    egr: str | None = None
    leads_back: bool = False
    distrusted: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Between:
    """Work between two readings: `touched` channels, and whether any of it `wetted` the filter."""

    touched: frozenset[str] = frozenset()
    wetted: bool = False


@dataclass(frozen=True, slots=True)
class Change:
    """A comparison that could be made.

    `brought` mbar is the earlier reading, its zero removed, as it would have been in the
    conditions of the later; `now` mbar the later, its zero removed; `difference` = now - brought
    and `ratio` = now / brought (None where `brought` is within its error of 0), with all that
    both share counted once. `by_flow`: air and temperature were read, so that each is brought to
    the same flow; `resistance` mbar/(m3/h) and `flow` m3/h (at the viscosity of 200 C) of both,
    earlier first, where so. `zero_read`: the zero of each round was read. `real`: more than
    instruments and conditions explain, once all comparisons of the two rounds are told.
    """

    before: Taken
    after: Taken
    brought: Measured
    now: Measured
    difference: Measured
    ratio: Measured | None
    by_flow: bool
    resistance: tuple[Measured, Measured] | None = None
    flow: tuple[Measured, Measured] | None = None
    zero_read: tuple[bool, bool] = (False, False)
    real: bool = False


@dataclass(frozen=True, slots=True)
class Refusal:
    """A comparison that may not be made, every reason that was found, and the slots to read
    now instead; none where only the earlier round is at fault."""

    slot: str
    why: tuple[Unlike, ...]
    before: Taken | None
    after: Taken | None
    instead: tuple[str, ...] = field(default=())
