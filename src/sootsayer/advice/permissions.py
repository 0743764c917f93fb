"""Permissions: hard logic in which unknown is not permission.

`clear` means that nothing entered forbids it; the technician decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from sootsayer.engine.conditions import Truth
from sootsayer.rulebook.model import DriveState


class Permitted(Enum):
    CLEAR = "clear"
    BLOCKED = "blocked"
    NOT_YET_CLEAR = "not-yet-clear"


class Reason(Enum):
    """Why an interlock stands as it stands."""

    HOLDS = "holds"
    NOT_NEEDED = "not-needed"
    DOES_NOT_HOLD = "does-not-hold"
    UNKNOWN = "unknown"
    UNPROVEN_INSTRUMENT = "unproven-instrument"
    TOO_OLD = "too-old"
    TOO_CLOSE = "too-close"


class DriveOn(Enum):
    MAY_BE_DRIVEN = "may-be-driven"
    WORKSHOP_ONLY = "workshop-only"
    NOT_TO_BE_DRIVEN = "not-to-be-driven"
    NOT_TO_BE_STARTED = "not-to-be-started"
    NOT_YET_KNOWN = "not-yet-known"


@dataclass(frozen=True, slots=True)
class Readings:
    """Whether an interlock's condition holds on ever stricter sets of facts.

    `trusted`: all that is not distrusted; `proven`: only what came through proven
    instruments or none; `fresh`: of that, only what is young enough; `ends`: on the fresh
    facts, with every reading near a threshold at the worse end of its error band.
    `applies`: false takes the interlock out.
    """

    applies: Truth
    trusted: Truth
    proven: Truth
    fresh: Truth
    ends: Truth


def weigh(readings: Readings) -> tuple[Permitted, Reason]:
    """The state of one interlock, and why.

    One forbidding fact is enough, through an unproven instrument too; a clear needs all.
    """
    if readings.applies is False:
        return Permitted.CLEAR, Reason.NOT_NEEDED
    if False in (readings.trusted, readings.proven, readings.fresh):
        return Permitted.BLOCKED, Reason.DOES_NOT_HOLD
    if readings.trusted is None:
        return Permitted.NOT_YET_CLEAR, Reason.UNKNOWN
    if readings.proven is not True:
        return Permitted.NOT_YET_CLEAR, Reason.UNPROVEN_INSTRUMENT
    if readings.fresh is not True:
        return Permitted.NOT_YET_CLEAR, Reason.TOO_OLD
    if readings.ends is not True:
        return Permitted.NOT_YET_CLEAR, Reason.TOO_CLOSE
    return Permitted.CLEAR, Reason.HOLDS


def permit(needs: Sequence[Permitted], heeds: Sequence[Permitted]) -> Permitted:
    """The state of an action: blocked by any that is blocked, clear when all needs are clear.

    What is only heeded blocks when it is known not to hold; while unknown it is named.
    """
    if Permitted.BLOCKED in (*needs, *heeds):
        return Permitted.BLOCKED
    return Permitted.CLEAR if all(n is Permitted.CLEAR for n in needs) else Permitted.NOT_YET_CLEAR


def drive_on_state(
    permitted: Permitted, interlocks: Mapping[str, Permitted], states: Sequence[DriveState]
) -> tuple[DriveOn, tuple[str, ...]]:
    """The customer's first question, and the interlocks that decided it.

    `states` come worst first: the first that enough blocked interlocks reach is the answer.
    A blocked interlock that no state names forbids driving all the same.
    """
    for state in states:
        blocked = tuple(i for i in state.blocked_by if interlocks[i] is Permitted.BLOCKED)
        if len(blocked) >= state.count:
            return DriveOn(state.state), blocked
    blocked = tuple(i for i, state in interlocks.items() if state is Permitted.BLOCKED)
    if blocked:
        return DriveOn.NOT_TO_BE_DRIVEN, blocked
    if permitted is Permitted.CLEAR:
        return DriveOn.MAY_BE_DRIVEN, ()
    return DriveOn.NOT_YET_KNOWN, ()
