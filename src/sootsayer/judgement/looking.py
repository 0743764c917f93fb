"""A case looked at far enough to ask on: no more of it than that takes."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from sootsayer.belief.inference import Solved, solve
from sootsayer.belief.network import Evidence, Network
from sootsayer.casework.model import Case
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import Situation
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.permissions import permissions
from sootsayer.judgement.verdict import FamilySaid, FindingSaid, PermissionSaid
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Where
from sootsayer.rulebook.shop import Shop


@dataclass(frozen=True, slots=True)
class Looked:
    """What is known, believed, permitted and open, and what checks are weighed against."""

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
