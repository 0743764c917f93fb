"""What a verdict comes to, without its grounds: for many cases, where only that is compared.

The same road as `judge` and the same numbers; what takes long there and is not asked here (grounds,
contributions, candidates, the plan) is left out. `tests/judgement/test_brief.py` holds both
against each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from sootsayer.belief.inference import Solved, none_of_each, solve
from sootsayer.belief.network import Evidence, Network
from sootsayer.casework.model import Case
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import set_aside
from sootsayer.judgement.grounds import awaited
from sootsayer.judgement.next_checks import useful
from sootsayer.judgement.permissions import permission_states, permissions
from sootsayer.judgement.rounding import six
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.verdict import DriveOn, FamilySaid, FindingSaid, Permitted, RuleAt
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import FindingDef
from sootsayer.rulebook.shop import Shop

_NO_RULE: Final = RuleAt("", 0, "")


@dataclass(frozen=True, slots=True)
class FaultBrief:
    """One fault and its confidence, rounded as in a verdict."""

    id: str
    kind: str
    confidence: float


@dataclass(frozen=True, slots=True)
class Brief:
    """What a verdict comes to.

    `levels`: finding to its level, None where unknown or set aside; `speakers`: family with
    evidence to the member that spoke. `faults`: every fault that applies, most probable first,
    then by id. `none`: of each kind that no fault of it is present. `next_check`: what is proposed
    first, None where nothing is or where it was not asked for.
    """

    levels: dict[str, str | None]
    speakers: dict[str, str]
    faults: tuple[FaultBrief, ...]
    none: dict[str, float]
    permissions: dict[str, Permitted]
    drive_on: DriveOn
    next_check: str | None


def brief(
    case: Case,
    rulebook: Rulebook,
    *,
    now: datetime,
    as_of: int | None = None,
    shop: Shop | None = None,
    proposing: bool = True,
) -> Brief:
    """As `judge` with the same arguments; without `proposing` no check is proposed."""
    work = work_out(case, rulebook, now, as_of, shop)
    found = tuple(_light(work, each, proposing) for each in work.model.findings.values())
    kin = families(work.model, found)
    network, evidence = network_of(work, kin)
    solved = solve(network, evidence)
    states, drive = permission_states(work)
    return Brief(
        levels={each.id: each.level for each in found},
        speakers={each.id: each.speaker for each in kin if each.speaker and each.id in evidence},
        faults=_faults(network, solved),
        none={kind.value: six(none) for kind, none in none_of_each(network, solved).items()},
        permissions=states,
        drive_on=drive,
        next_check=_proposed(work, found, kin, (network, evidence, solved)) if proposing else None,
    )


def _light(work: Workings, finding: FindingDef, proposing: bool) -> FindingSaid:
    """A finding without its grounds; what it waits for only where a check is to be proposed."""
    value = work.derived[finding.id]
    aside = set_aside(work, finding.id, value)[0]
    waits = awaited(work, finding.id) if proposing and value is None and aside is None else ()
    return FindingSaid(
        id=finding.id,
        says=finding.says,
        level=as_level(value),
        graded=finding.graded,
        borderline=False,
        grounds=(),
        rule=_NO_RULE,
        set_aside=aside,
        awaits=waits,
    )


def _faults(network: Network, solved: Solved) -> tuple[FaultBrief, ...]:
    found = (
        FaultBrief(fault.id, fault.kind.value, six(solved.posteriors[fault.id]))
        for fault in network.faults
    )
    return tuple(sorted(found, key=lambda fault: (-fault.confidence, fault.id)))


def _proposed(
    work: Workings,
    found: tuple[FindingSaid, ...],
    kin: tuple[FamilySaid, ...],
    solved: tuple[Network, Evidence, Solved],
) -> str | None:
    now = situation(work, found, kin, permissions(work))
    order = useful(now, scorer_for(*solved))
    return order[0].bundle.first if order else None
