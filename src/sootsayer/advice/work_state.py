"""Whether work may be done: permitted, forbidden, or not yet clear."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from sootsayer.advice.permissions import Permitted


class WorkState(Enum):
    PERMITTED = "permitted"
    FORBIDDEN = "forbidden"
    NOT_YET_CLEAR = "not-yet-clear"


def work_state(actions: Iterable[Permitted]) -> WorkState:
    """The state of work that is done by these actions: the worst of theirs.

    Work that needs no action is permitted; unknown is never permission.
    """
    states = set(actions)
    if Permitted.BLOCKED in states:
        return WorkState.FORBIDDEN
    return WorkState.PERMITTED if states <= {Permitted.CLEAR} else WorkState.NOT_YET_CLEAR
