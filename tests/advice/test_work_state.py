"""Work is as permitted as the worst of its actions."""

from __future__ import annotations

from sootsayer.advice.permissions import Permitted
from sootsayer.advice.work_state import WorkState, work_state

CLEAR, BLOCKED, OPEN = Permitted.CLEAR, Permitted.BLOCKED, Permitted.NOT_YET_CLEAR


def test_the_worst_counts() -> None:
    """One blocked action forbids, one that is not yet clear keeps it from being permitted."""
    assert work_state([CLEAR, CLEAR]) is WorkState.PERMITTED
    assert work_state([CLEAR, OPEN]) is WorkState.NOT_YET_CLEAR
    assert work_state([OPEN, BLOCKED]) is WorkState.FORBIDDEN
    assert work_state([]) is WorkState.PERMITTED
