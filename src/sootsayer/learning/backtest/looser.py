"""Whether a permission became looser. Pure."""

from __future__ import annotations

from typing import Final

from sootsayer.advice.permissions import DriveOn, Permitted
from sootsayer.judgement.brief import Brief
from sootsayer.judgement.permissions import DRIVE_ON
from sootsayer.learning.backtest.found import Moved

# The stricter the smaller. What was forbidden and is only unknown now is looser too.
PERMITTED: Final = (Permitted.BLOCKED, Permitted.NOT_YET_CLEAR, Permitted.CLEAR)
# What may be driven. Unknown is no permission, so that "to the workshop" is more than unknown.
DRIVING: Final = (
    DriveOn.NOT_TO_BE_STARTED,
    DriveOn.NOT_TO_BE_DRIVEN,
    DriveOn.NOT_YET_KNOWN,
    DriveOn.WORKSHOP_ONLY,
    DriveOn.MAY_BE_DRIVEN,
)
GONE: Final = "not watched"


def moved(before: Brief, after: Brief, entry: int) -> tuple[Moved, ...]:
    """Every permission that differs, by action; `drive-on` by its states, which say more."""
    found = []
    for action, state in sorted(before.permissions.items()):
        now = after.permissions.get(action)
        if now is None:
            found.append(Moved(action, state.value, GONE, entry, looser=True))
        elif action == DRIVE_ON:
            found += _driving(before, after, entry)
        elif now is not state:
            found.append(Moved(action, state.value, now.value, entry, _is_looser(state, now)))
    return tuple(found)


def _driving(before: Brief, after: Brief, entry: int) -> list[Moved]:
    """Looser by either measure: more may be driven, or a known reason against it is gone. From
    "to the workshop only" to unknown is the second, and back is the first: both are shown."""
    was, now = before.drive_on, after.drive_on
    if was is now:
        return []
    more = DRIVING.index(now) > DRIVING.index(was)
    looser = more or _is_looser(before.permissions[DRIVE_ON], after.permissions[DRIVE_ON])
    return [Moved(DRIVE_ON, was.value, now.value, entry, looser)]


def _is_looser(before: Permitted, after: Permitted) -> bool:
    return PERMITTED.index(after) > PERMITTED.index(before)
