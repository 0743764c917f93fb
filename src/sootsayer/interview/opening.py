"""The opening questions: what is asked first, in groups that make sense to say aloud."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sootsayer.interview.open_checks import is_open
from sootsayer.interview.situation import Situation
from sootsayer.rulebook.model import Where

DRIVE_ON = "drive-on"


@dataclass(frozen=True, slots=True)
class OpeningStep:
    """One check of the opening that is still open: the group it is asked in, what leads into
    the group, and whether it is the first one left of it."""

    group: str
    says: str
    check: str
    leads_in: bool


def opening_left(now: Situation) -> tuple[OpeningStep, ...]:
    """What is left of the opening, in its order."""
    return tuple(_steps(now))


def _steps(now: Situation) -> Iterator[OpeningStep]:
    for group in now.model.opening:
        open_ = [id_ for id_ in group.checks if is_open(now, now.model.checks[id_])]
        for id_ in open_:
            begun = len(open_) < len(group.checks)
            yield OpeningStep(group.id, group.says, id_, id_ == open_[0] and not begun)


def driving_left(now: Situation, waiting: Iterable[str]) -> tuple[str, ...]:
    """Of the checks that the permission to drive waits for (`waiting`), those that are open:
    the opening's in its order, then those at the counter, then by minutes."""
    asked = [id_ for group in now.model.opening for id_ in group.checks]
    checks = now.model.checks
    open_ = {id_ for id_ in waiting if is_open(now, checks[id_])}

    def rank(id_: str) -> tuple[int, bool, float, str]:
        place = asked.index(id_) if id_ in asked else len(asked)
        return place, checks[id_].where is not Where.COUNTER, checks[id_].minutes, id_

    return tuple(sorted(open_, key=rank))
