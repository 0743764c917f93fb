"""What a questionnaire needs after every answer, without what only a whole verdict shows."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime

from sootsayer.belief.inference import Solved, beliefs_of, solve
from sootsayer.belief.network import Beliefs, Evidence, Network
from sootsayer.casework.model import Case
from sootsayer.interview.deciding import Worth, worth
from sootsayer.interview.open_checks import open_checks
from sootsayer.interview.opening import DRIVE_ON, OpeningStep, driving_left, opening_left
from sootsayer.interview.orders import by_custom
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import Situation
from sootsayer.interview.work_first import clearing
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.next_checks import said, useful, waited_for
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.verdict import (
    DriveOn,
    DriveOnSaid,
    FamilySaid,
    FindingSaid,
    NextCheckSaid,
    PermissionSaid,
)
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Where
from sootsayer.rulebook.shop import Shop


@dataclass(frozen=True, slots=True)
class Leader:
    """Of one kind, the more probable of `none` and its first fault, and its probability."""

    kind: str
    fault: str
    confidence: float


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


@dataclass(frozen=True, slots=True)
class Looked:
    """A case looked at far enough to ask on."""

    work: Workings
    found: tuple[FindingSaid, ...]
    kin: tuple[FamilySaid, ...]
    permitted: tuple[PermissionSaid, ...]
    network: Network
    evidence: Evidence
    solved: Solved
    now: Situation
    scorer: Scorer


def look(
    case: Case,
    rulebook: Rulebook,
    *,
    now: datetime,
    shop: Shop | None = None,
    stage: Where | None = None,
    later: Collection[str] = (),
) -> Looked:
    """The case as it stands. `stage`: where the technician is, None: where the newest answer was
    given; `later`: checks put off in this session."""
    work = work_out(case, rulebook, now, None, shop)
    found = findings(work)
    kin = families(work.model, found)
    permitted = permissions(work)
    network, evidence = network_of(work, kin)
    solved = solve(network, evidence)
    at = situation(work, found, kin, permitted, stage=stage, later=frozenset(later))
    scorer = scorer_for(network, evidence, solved)
    return Looked(work, found, kin, permitted, network, evidence, solved, at, scorer)


def questions(seen: Looked, actions: Collection[str] | None = None) -> Questions:
    """What to ask next. `actions`: those that work is to be chosen among, None for all; what
    they wait for is in `clearing`."""
    waited = waited_for(seen.permitted)
    wanted = waited_for([p for p in seen.permitted if actions is None or p.action in actions])
    drive = waited_for([p for p in seen.permitted if p.action == DRIVE_ON])
    order = useful(seen.now, seen.scorer)
    return Questions(
        stage=seen.now.stage,
        leaders=leaders(beliefs_of(seen.network, seen.solved), _kinds(seen.network)),
        drive_on=drive_on(seen.work, seen.permitted),
        permissions=seen.permitted,
        opening=opening_left(seen.now),
        driving=driving_left(seen.now, drive),
        next_checks=said(seen.work.model, order, waited),
        clearing=clearing(seen.now, wanted),
        fixed=by_custom(seen.now, frozenset(open_checks(seen.now))),
        worth=worth(seen.scorer, order),
    )


def leaders(beliefs: Beliefs, kinds: Mapping[str, str]) -> tuple[Leader, ...]:
    """What leads of each kind; between equals `none`, then the first by id."""
    found = []
    for kind, none in beliefs.none.items():
        best = Leader(kind.value, "none", none)
        for fault, p in sorted(beliefs.posteriors.items()):
            if kinds[fault] == kind.value and p > best.confidence:
                best = Leader(kind.value, fault, p)
        found.append(best)
    return tuple(found)


def _kinds(network: Network) -> dict[str, str]:
    return {fault.id: fault.kind.value for fault in network.faults}
