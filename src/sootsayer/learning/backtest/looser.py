"""Whether a permission became looser. Pure."""

from __future__ import annotations

from typing import Final

from sootsayer.advice.permissions import DriveOn, Permitted
from sootsayer.judgement.brief import Brief
from sootsayer.judgement.permissions import DRIVE_ON
from sootsayer.learning.backtest.found import Moved

# The stricter the smaller. What was forbidden and is only unknown now is looser too.
PERMITTED: Final = (Permitted.BLOCKED, Permitted.NOT_YET_CLEAR, Permitted.CLEAR)
DRIVING: Final = (
    DriveOn.NOT_TO_BE_STARTED,
    DriveOn.NOT_TO_BE_DRIVEN,
    DriveOn.NOT_YET_KNOWN,
    DriveOn.WORKSHOP_ONLY,
    DriveOn.MAY_BE_DRIVEN,
)
GONE: Final = "not watched any more"


def moved(before: Brief, after: Brief, entry: int) -> tuple[Moved, ...]:
    """Every permission that differs, by action; `drive-on` by its states, which say more."""
    found = []
    for action, state in sorted(before.permissions.items()):
        if action == DRIVE_ON:
            continue
        now = after.permissions.get(action)
        if now is None:
            found.append(Moved(action, state.value, GONE, entry, looser=True))
        elif now is not state:
            looser = PERMITTED.index(now) > PERMITTED.index(state)
            found.append(Moved(action, state.value, now.value, entry, looser))
    if before.drive_on is not after.drive_on:
        was, now_is = before.drive_on, after.drive_on
        looser = DRIVING.index(now_is) > DRIVING.index(was)
        found.append(Moved(DRIVE_ON, was.value, now_is.value, entry, looser))
    return tuple(sorted(found, key=lambda each: each.action))
