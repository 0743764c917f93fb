"""What a verdict comes to, without its grounds: for many cases, where only that is compared.

The same road as `judge` and the same numbers; what takes long there and is not asked here (grounds,
contributions, candidates, the plan) is left out. `tests/judgement/test_brief.py` holds both
against each other.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from sootsayer.belief.inference import Solved, none_of_each, solve
from sootsayer.belief.network import Evidence, Network
from sootsayer.casework.model import Case
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families_at
from sootsayer.judgement.findings import set_aside
from sootsayer.judgement.grounds import awaited
from sootsayer.judgement.next_checks import useful
from sootsayer.judgement.permissions import (
    drive_on,
    permission_states,
    permissions,
)
from sootsayer.judgement.rounding import six
from sootsayer.judgement.same_parts import SameParts
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.verdict import (
    DriveOn,
    FamilySaid,
    FindingSaid,
    PermissionSaid,
    Permitted,
    RuleAt,
)
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


@dataclass(frozen=True, slots=True)
class _Found:
    """What was worked out on the way, to be used again where nothing of it can differ."""

    work: Workings
    network: Network
    evidence: Evidence
    solved: Solved
    none: dict[str, float]
    states: dict[str, Permitted]
    drive: DriveOn
    said: tuple[PermissionSaid, ...] | None
    brief: Brief


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
    return _found(work_out(case, rulebook, now, as_of, shop), proposing, None, None).brief


def briefs(
    case: Case,
    books: tuple[Rulebook, Rulebook],
    same: SameParts,
    *,
    now: datetime,
    as_of: int | None = None,
    shops: tuple[Shop | None, Shop | None] = (None, None),
    proposing: bool = True,
) -> tuple[Brief, Brief]:
    """As `brief` of one case by each of two rulebooks that read it alike: what `same` says cannot
    differ is worked out once."""
    first = _found(work_out(case, books[0], now, as_of, shops[0]), proposing, None, None)
    if same.derived:
        work = replace(first.work, rulebook=books[1], shop=shops[1])
    else:
        work = work_out(case, books[1], now, as_of, shops[1])
    return first.brief, _found(work, proposing, first, same).brief


def _found(work: Workings, proposing: bool, first: _Found | None, same: SameParts | None) -> _Found:
    """`first`: what another rulebook made of the case, as far as `same` lets it be used."""
    alike = first if same is not None and same.derived else None
    levels = alike.brief.levels if alike is not None else _levels(work)
    kin = families_at(work.model, levels)
    network, evidence = network_of(work, kin)
    if first is not None and (network, evidence) == (first.network, first.evidence):
        solved, none = first.solved, first.none
    else:
        solved = solve(network, evidence)
        none = {kind.value: six(p) for kind, p in none_of_each(network, solved).items()}
    said = None
    if alike is not None and same is not None and same.permitted:
        states, drive, said = alike.states, alike.drive, alike.said
    elif proposing:
        said = permissions(work)
        states, drive = {each.action: each.state for each in said}, drive_on(work, said).state
    else:
        states, drive = permission_states(work)
    told = Brief(
        levels=levels,
        speakers={each.id: each.speaker for each in kin if each.speaker and each.id in evidence},
        faults=_faults(network, solved),
        none=none,
        permissions=states,
        drive_on=drive,
        next_check=None
        if said is None
        else _proposed(work, kin, said, (network, evidence, solved)),
    )
    return _Found(work, network, evidence, solved, none, states, drive, said, told)


def _levels(work: Workings) -> dict[str, str | None]:
    """Every finding's level; one that is set aside has none."""
    return {name: as_level(work.derived[name]) for name in work.model.findings}


def _light(work: Workings, finding: FindingDef) -> FindingSaid:
    """A finding without its grounds."""
    value = work.derived[finding.id]
    aside = set_aside(work, finding.id, value)[0]
    waits = awaited(work, finding.id) if value is None and aside is None else ()
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
    kin: tuple[FamilySaid, ...],
    permitted: tuple[PermissionSaid, ...],
    solved: tuple[Network, Evidence, Solved],
) -> str | None:
    found = tuple(_light(work, each) for each in work.model.findings.values())
    now = situation(work, found, kin, permitted)
    order = useful(now, scorer_for(*solved))
    return order[0].bundle.first if order else None
