"""What the plan says of one remedy: its state and why, price, what it leaves, how it is done."""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.advice.permissions import Permitted
from sootsayer.advice.plan_problem import HIDDEN_AT_MOST
from sootsayer.advice.work_state import WorkState
from sootsayer.judgement.beliefs import Believed
from sootsayer.judgement.plan_costs import span
from sootsayer.judgement.plan_problem import Offer
from sootsayer.judgement.plan_returns import returns
from sootsayer.judgement.plan_said import CautionSaid, HowSaid, ReasonSaid, RemedySaid
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import InterlockSaid, PermissionSaid
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import RemedyDef

WORTH_MENDING_FIRST = 0.2  # a fault that work needs mended is named from this confidence on
WORTH_SAYING_LEFT = 0.2  # and a cause that it leaves


class RemedySayer:
    """Says one remedy after the other of one case."""

    def __init__(
        self, work: Workings, believed: Believed, permitted: Sequence[PermissionSaid]
    ) -> None:
        self.work = work
        self.confidence = believed.beliefs.posteriors
        self.permitted = {each.action: each for each in permitted}

    def said(self, offer: Offer) -> RemedySaid:
        """The remedy, without what the choice among several makes of it."""
        remedy = offer.remedy
        leaves = self.leaves(remedy)
        clear = offer.state is WorkState.PERMITTED
        money = offer.price.money
        return RemedySaid(
            remedy=remedy.id,
            label=remedy.label,
            state=offer.state,
            reasons=self.reasons(remedy),
            minutes=span(offer.price.minutes),
            days=None if offer.price.days is None else span(offer.price.days),
            cost=None if money is None else span(money),
            shops_price=offer.price.shops,
            cures=dict(offer.chances),
            alone=0.0,
            expected=None,
            hides=self.likelier(remedy.hides_faults, HIDDEN_AT_MOST),
            mend_first=self.likelier(remedy.needs_mended, WORTH_MENDING_FIRST),
            leaves=leaves,
            returns=returns(self.work, remedy, leaves),
            then=remedy.then if clear else (),
            verify=remedy.verify_by,
            how=self.how(remedy) if clear else None,
        )

    def likelier(self, faults: Sequence[str], than: float) -> tuple[str, ...]:
        return tuple(f for f in faults if self.confidence.get(f, 0.0) > than)

    def leaves(self, remedy: RemedyDef) -> dict[str, float]:
        """Likely causes of what it cures that it does not cure itself, and what it needs mended."""
        faults = self.work.model.faults
        found = {
            cause: six(confidence)
            for cause, confidence in sorted(self.confidence.items())
            if confidence >= WORTH_SAYING_LEFT
            and cause not in remedy.cures
            and (
                faults[cause].leads_to.keys() & remedy.cures.keys() or cause in remedy.needs_mended
            )
        }
        return dict(sorted(found.items(), key=lambda it: (-it[1], it[0])))

    def reasons(self, remedy: RemedyDef) -> tuple[ReasonSaid, ...]:
        """Every interlock of its actions that is not clear, the blocked ones first, each once."""
        found: dict[str, ReasonSaid] = {}
        for action in remedy.by_actions:
            permission = self.permitted[action]
            for lock in (*permission.interlocks, *permission.named):
                needed = lock.state is Permitted.BLOCKED or lock in permission.interlocks
                if lock.state is not Permitted.CLEAR and needed:
                    found.setdefault(lock.id, _reason(action, lock))
        return tuple(sorted(found.values(), key=lambda each: each.state is not Permitted.BLOCKED))

    def how(self, remedy: RemedyDef) -> HowSaid:
        cautions = [CautionSaid("", remedy.label, remedy.caution)] if remedy.caution else []
        for action in remedy.by_actions:
            one = self.permitted[action]
            if one.caution:
                cautions.append(CautionSaid(action, one.does, one.caution))
        return HowSaid(
            does=remedy.does,
            cautions=tuple(cautions),
            steps=remedy.steps,
            stop_when=remedy.stop_when,
            consumes=remedy.consumes,
            oil_afterwards=remedy.oil_afterwards,
            resets=remedy.resets,
            voids=remedy.voids,
            rechecks=remedy.rechecks,
            tell_the_customer=remedy.tell_the_customer,
        )


def _reason(action: str, lock: InterlockSaid) -> ReasonSaid:
    says = lock.when_not if lock.state is Permitted.BLOCKED else lock.says
    return ReasonSaid(action, lock.id, says, lock.state, lock.reason, lock.would_clear)
