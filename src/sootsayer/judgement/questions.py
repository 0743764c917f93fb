"""What a questionnaire needs after every answer, without what only a whole verdict shows."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sootsayer.interview.deciding import Worth, worth
from sootsayer.interview.open_checks import open_checks
from sootsayer.interview.opening import DRIVE_ON, OpeningStep, driving_left, opening_left
from sootsayer.interview.orders import by_custom
from sootsayer.interview.work_first import clearing
from sootsayer.judgement.leaders import Leader, leaders
from sootsayer.judgement.looking import Looked
from sootsayer.judgement.next_checks import said, useful, waited_for
from sootsayer.judgement.permissions import drive_on
from sootsayer.judgement.verdict import (
    DriveOn,
    DriveOnSaid,
    NextCheckSaid,
    PermissionSaid,
)
from sootsayer.rulebook.model import Where


@dataclass(frozen=True, slots=True)
class Questions:
    """Where the asking stands.

    `leaders`: one for each kind. `drive_on`: as in a verdict. `danger`: it is not to be
    started, so that asking stops at once. `opening`: what is left of it; `driving`: the checks
    that "may be driven" still waits for. `next_checks`: the most useful first. `clearing`: the
    checks that interlocks of the wanted actions wait for, in the order of doing. `fixed`: all
    open checks in the customary order. `worth`: whether to go on, and what that would gain.
    """

    stage: Where
    leaders: tuple[Leader, ...]
    drive_on: DriveOnSaid
    permissions: tuple[PermissionSaid, ...]
    opening: tuple[OpeningStep, ...]
    driving: tuple[str, ...]
    next_checks: tuple[NextCheckSaid, ...]
    clearing: tuple[str, ...]
    fixed: tuple[str, ...]
    worth: Worth

    @property
    def danger(self) -> bool:
        return self.drive_on.state is DriveOn.NOT_TO_BE_STARTED


def questions(seen: Looked, actions: Collection[str] | None = None) -> Questions:
    """What to ask next. `actions`: those that work is to be chosen among, None for all; what
    they wait for is in `clearing`."""
    waited = waited_for(seen.permitted)
    wanted = waited_for([p for p in seen.permitted if actions is None or p.action in actions])
    drive = waited_for([p for p in seen.permitted if p.action == DRIVE_ON])
    order = useful(seen.now, seen.scorer)
    return Questions(
        stage=seen.now.stage,
        leaders=leaders(seen.network, seen.solved),
        drive_on=drive_on(seen.work, seen.permitted),
        permissions=seen.permitted,
        opening=opening_left(seen.now),
        driving=driving_left(seen.now, drive),
        next_checks=said(seen.work.model, order, waited),
        clearing=clearing(seen.now, wanted),
        fixed=by_custom(seen.now, frozenset(open_checks(seen.now))),
        worth=worth(seen.scorer, order),
    )
