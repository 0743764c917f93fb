"""The one road from a case and a rulebook to a verdict."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from sootsayer import __version__
from sootsayer.casework.model import Case
from sootsayer.judgement.asking import scorer_of, situation
from sootsayer.judgement.beliefs import Believed, believe, candidates_said, faults_said, none_said
from sootsayer.judgement.channels import channels_said
from sootsayer.judgement.compare_said import refused_said
from sootsayer.judgement.contradicting import contradictions_said
from sootsayer.judgement.families import families
from sootsayer.judgement.filter_well import filter_well
from sootsayer.judgement.findings import findings
from sootsayer.judgement.next_checks import said, useful, waited_for
from sootsayer.judgement.overridden import overrides_said
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import FamilySaid, FindingSaid, PermissionSaid, Verdict
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shop import Shop

if TYPE_CHECKING:
    from sootsayer.judgement.plan_said import Plan


def judge(
    case: Case,
    rulebook: Rulebook,
    *,
    now: datetime,
    as_of: int | None = None,
    shop: Shop | None = None,
    proposing: bool = True,
    planning: bool = False,
) -> Verdict:
    """What `rulebook` says of `case` as of entry `as_of` (None: the last) at the moment `now`.

    `shop`: the shop's own settings, already held against the rulebook (`shop_fit.fitted`).
    Not `proposing` saves the time that choosing the next checks takes: they are None then.
    `planning`: the plan too, which takes longer than all the rest; else it is None.
    Pure: the same arguments give the same verdict on every machine.
    """
    work = work_out(case, rulebook, now, as_of, shop)
    return tell(work, proposing=proposing, planning=planning)


def tell(work: Workings, *, proposing: bool = True, planning: bool = False) -> Verdict:
    """The verdict of a case that is worked out."""
    found = findings(work)
    kin = families(work.model, found)
    believed = believe(work, kin)
    none = none_said(believed.beliefs)
    permitted = permissions(work)
    proposed = None
    if proposing:
        order = useful(situation(work, found, kin, permitted), scorer_of(believed))
        proposed = said(work.model, order, waited_for(permitted))
    return Verdict(
        program=__version__,
        case=work.case.id,
        as_of_entry=work.sheet.as_of,
        as_of_time=moment(work),
        round=work.sheet.round,
        rulebook_logic=work.model.digests.logic,
        rulebook_words=work.model.digests.words,
        shop=None if work.shop is None else work.shop.digest,
        drive_on=drive_on(work, permitted),
        none=none,
        filter_well=filter_well(work, kin, found, none["condition"]),
        channels=channels_said(work),
        findings=found,
        families=kin,
        limits=work.limits_used,
        faults=faults_said(work, believed, kin, found),
        candidates=candidates_said(believed.beliefs),
        left_out=six(believed.beliefs.left_out),
        exact=believed.beliefs.exact,
        permissions=permitted,
        overrides=overrides_said(work.model),
        contradictions=contradictions_said(work),
        torn=work.case.torn is not None,
        next_checks=proposed,
        plan=_plan(work, believed, kin, found, permitted) if planning else None,
        refused=refused_said(work),
    )


def _plan(
    work: Workings,
    believed: Believed,
    kin: Sequence[FamilySaid],
    found: Sequence[FindingSaid],
    permitted: Sequence[PermissionSaid],
) -> Plan:
    # Imported here: a tenth of what a cold start imports, and most verdicts have no plan.
    from sootsayer.judgement.plan import plan_of

    return plan_of(work, believed, kin, found, permitted)


def moment(work: Workings) -> datetime:
    """When the last entry that counts was made; of a case without entries, now."""
    counted = [e.at for e in work.case.entries if e.number <= work.sheet.as_of]
    return counted[-1] if counted else work.now
