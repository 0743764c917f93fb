"""The plan of a verdict as frozen data; `docs/reference/verdict.md` has its JSON form."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.advice.permissions import Permitted, Reason
from sootsayer.advice.plan_choice import Method
from sootsayer.advice.work_state import WorkState
from sootsayer.rulebook.model import Filling, Recheck, Step


@dataclass(frozen=True, slots=True)
class Range:
    """From the lowest to the highest; `highest` None where there is no end."""

    lowest: float
    highest: float | None


@dataclass(frozen=True, slots=True)
class ReasonSaid:
    """An interlock that keeps work from being permitted: of which action, what to say of it, and
    the checks that would settle it."""

    action: str
    interlock: str
    says: str
    state: Permitted
    reason: Reason
    would_clear: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Expected:
    """What a lasting repair takes on average when it begins with this work: `cost` None where a
    price is not known. `left`: the probability that nothing listed repairs it."""

    cost: Range | None
    minutes: Range
    left: float


@dataclass(frozen=True, slots=True)
class ReturnSaid:
    """How soon it is full again while what the work leaves is left: km, and days where the
    distance a week is known; `own`: by this vehicle's own rate."""

    of: str
    filling: Filling
    km: Range
    days: Range | None
    own: bool


@dataclass(frozen=True, slots=True)
class CautionSaid:
    """A caution; `action`: the action that it is of, "" where it is the work's own."""

    action: str
    does: str
    caution: str


@dataclass(frozen=True, slots=True)
class HowSaid:
    """How permitted work is done, and what follows it."""

    does: str
    cautions: tuple[CautionSaid, ...]
    steps: tuple[Step, ...]
    stop_when: tuple[str, ...]
    consumes: tuple[str, ...]
    oil_afterwards: str
    resets: tuple[str, ...]
    voids: tuple[str, ...]
    rechecks: tuple[Recheck, ...]
    tell_the_customer: str


@dataclass(frozen=True, slots=True)
class RemedySaid:
    """One remedy in the plan.

    `cures`: fault to chance. `alone`: the probability that it alone repairs for good, given that
    something is wrong that work is listed for. `expected`: of what may come first; of work that
    is not yet clear, as it would be were all such work clear. `hides`: faults too likely that it
    would cover up; `mend_first`: faults that it needs mended, that are no less likely than one in
    five. `leaves`: causes that it leaves, with their confidence. `then`, `how`: only of permitted
    work. `shops_price`: whether the price of its parts is the shop's own.
    """

    remedy: str
    label: str
    state: WorkState
    reasons: tuple[ReasonSaid, ...]
    minutes: Range
    days: Range | None
    cost: Range | None
    shops_price: bool
    cures: dict[str, float]
    alone: float
    expected: Expected | None
    hides: tuple[str, ...]
    mend_first: tuple[str, ...]
    leaves: dict[str, float]
    returns: ReturnSaid | None
    then: tuple[str, ...]
    verify: tuple[str, ...]
    how: HowSaid | None


@dataclass(frozen=True, slots=True)
class LookSaid:
    """A check before all work: what it saves on average, its own cost taken off, and by how `more`
    (a probability) a lasting repair is likelier; `first`: what may then come first instead."""

    check: str
    does: str
    caution: str
    minutes: float
    saves: float
    more: float
    first: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OpeningSaid:
    """What it would save on average if work that is not yet clear were clear, by how `more` a
    lasting repair would be likelier, and the checks that would settle it. Both None where without
    it nothing that helps is permitted; `saves` below 0 where it costs more but repairs more."""

    remedy: str
    checks: tuple[str, ...]
    minutes: float
    saves: float | None
    more: float | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The plan: every remedy that applies, those that may come first before all others, cheapest
    first.

    `by`: what the order is by, `cost` or, where a price is not known, `time`; `unpriced`: the
    remedies whose price is not known, "" standing for the labour rate. `order`: the permitted
    work one after the other as long as it fails; `once_clear`: the same were all clear, and by
    which method. `nothing`: the probability that nothing is wrong; `beyond`: that all that is
    wrong is out of the reach of the work that is listed; `unlisted`: what the candidates leave
    out. `holds`: whether the same work comes first at the lowest and at the highest prices.
    `declined`: the customer's wish to remove or defeat something was entered.
    """

    method: Method
    by: str
    currency: str
    unpriced: tuple[str, ...]
    order: tuple[str, ...]
    once_clear: tuple[str, ...]
    once_clear_method: Method
    looks: tuple[LookSaid, ...]
    openings: tuple[OpeningSaid, ...]
    nothing: float
    beyond: float
    unlisted: float
    holds: bool
    declined: bool
    remedies: tuple[RemedySaid, ...]
