"""Did the work help: one answer from all comparisons of two rounds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from sootsayer.advice.like_for_like import Change

ONLY_ACCUSES = frozenset({"idle"})
"""Points at which a filter can be accused and never acquitted: the flow is too small."""
_LOW, _WELL = "low", "normal"


class Helped(Enum):
    WORKED = "worked"
    PARTLY = "partly"
    NOT_SHOWN = "not-shown"
    WORSE = "worse"
    REFUSED = "refused"


class Because(Enum):
    """What keeps it from being `worked`, and why it is not shown."""

    STILL_RESTRICTED = "still-restricted"
    LEVEL_UNKNOWN = "level-unknown"
    TOO_CLOSE = "too-close"
    NOT_PROVEN = "not-proven"
    ONLY_IDLE = "only-idle"
    TOO_LOW = "too-low"
    WITHIN_NOISE = "within-noise"
    POINTS_DISAGREE = "points-disagree"
    NOTHING_COMPARED = "nothing-compared"


@dataclass(frozen=True, slots=True)
class Standing:
    """How the filter stands in the later round: `level` of its restriction (None: unknown),
    whether that is `borderline`, at which `point` it was read, and whether it came through
    instruments that are `settled` (proven or corrected); `of`: the finding that says it."""

    level: str | None
    borderline: bool = False
    point: str = ""
    settled: bool = False
    of: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """`leading`: the comparison that the answer rests on, None where nothing was compared."""

    helped: Helped
    because: tuple[Because, ...]
    leading: Change | None


def outcome(changes: Sequence[Change], after: Standing) -> Outcome:
    """The answer. `worked` only where a real fall ends at a filter that is well, seen at a point
    that can acquit and through instruments that are proven: a lie never acquits a filter."""
    if not changes:
        return Outcome(Helped.REFUSED, (Because.NOTHING_COMPARED,), None)
    real = [change for change in changes if change.real]
    falls = [change for change in real if change.difference.value < 0]
    leading = surest(real or changes)
    if not real:
        return Outcome(Helped.NOT_SHOWN, (Because.WITHIN_NOISE,), leading)
    if falls and len(falls) < len(real):
        return Outcome(Helped.NOT_SHOWN, (Because.POINTS_DISAGREE,), leading)
    if not falls:
        return Outcome(Helped.WORSE, (), leading)
    if after.level == _LOW and not after.borderline:
        return Outcome(Helped.NOT_SHOWN, (Because.TOO_LOW,), leading)
    short = tuple(_short_of_well(after, falls))
    return Outcome(Helped.PARTLY if short else Helped.WORKED, short, leading)


def surest(changes: Sequence[Change]) -> Change:
    """The one whose change stands out most from its uncertainty, points that acquit first."""

    def standing_out(change: Change) -> tuple[bool, float]:
        sd = change.difference.sd or 1e-9
        return change.after.point not in ONLY_ACCUSES, abs(change.difference.value) / sd

    return max(changes, key=standing_out)


def _short_of_well(after: Standing, falls: Sequence[Change]) -> Iterator[Because]:
    if after.level is None:
        yield Because.LEVEL_UNKNOWN
    elif after.level not in {_WELL, _LOW}:
        yield Because.STILL_RESTRICTED
    elif after.borderline:
        yield Because.TOO_CLOSE
    only_idle = all(change.after.point in ONLY_ACCUSES for change in falls)
    if only_idle or after.point in ONLY_ACCUSES:
        yield Because.ONLY_IDLE
    if not after.settled:
        yield Because.NOT_PROVEN
