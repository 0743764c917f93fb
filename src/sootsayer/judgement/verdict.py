"""A verdict as frozen data; `docs/reference/verdict.md` has its JSON form.

Probabilities are rounded to six decimals when the verdict is made, so that what is shown,
stored and compared is one thing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum
from typing import TYPE_CHECKING

from sootsayer.advice.permissions import DriveOn, Permitted, Reason
from sootsayer.engine.conditions import Value

if TYPE_CHECKING:  # data of its own, which only who plans needs
    from sootsayer.judgement.plan_said import Plan

__all__ = ["DriveOn", "Permitted", "Reason"]  # of advice; part of what a verdict says


class ChannelState(Enum):
    UNPROVEN = "unproven"
    PROVEN = "proven"
    CORRECTED = "corrected"
    DISTRUSTED = "distrusted"


@dataclass(frozen=True, slots=True)
class RuleAt:
    """Which rule: its pack's file name (no folder), line and revision."""

    file: str
    line: int
    revision: str


@dataclass(frozen=True, slots=True)
class Ground:
    """One fact that something rests on; `typed` as it was written in entry `entry`."""

    slot: str
    label: str
    value: Value
    unit: str | None
    source: str
    round: str | None
    entry: int
    line: int
    typed: str


@dataclass(frozen=True, slots=True)
class ChannelSaid:
    """An instrument: its state, the tests that decided it, and the tests it still waits for."""

    id: str
    label: str
    state: ChannelState
    failed: tuple[str, ...]
    awaits: tuple[str, ...]
    zero: float | None = None


@dataclass(frozen=True, slots=True)
class FindingSaid:
    """A finding's value (`level`: "true", "false", a level, or None for unknown).

    `set_aside`: the channel that it was set aside for, and `would_be` what it would have
    said. `weights`: the level weights of a borderline reading, lowest first. `awaits`:
    unknown slots that could still decide it (when unknown).
    """

    id: str
    says: str
    level: str | None
    graded: bool
    borderline: bool
    grounds: tuple[Ground, ...]
    rule: RuleAt
    set_aside: str | None = None
    would_be: str | None = None
    weights: tuple[float, ...] = ()
    awaits: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FamilySaid:
    """`speaker`: the member that spoke, None if none did; `disagreeing`: known members beyond
    tolerance."""

    id: str
    label: str
    speaker: str | None
    disagreeing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ContradictionSaid:
    """Two sources that tell different things of one fact; `counts` is of the better source."""

    slot: str
    label: str
    counts: Ground
    other: Ground


@dataclass(frozen=True, slots=True)
class OverrideSaid:
    """A shop's own number in place of a pack's, both as written; `path`: the keys below `of`."""

    of: str
    path: tuple[str, ...]
    was: str
    now: str
    why: str
    rule: RuleAt


@dataclass(frozen=True, slots=True)
class LimitUsed:
    """`origin` is vehicle, shop or pack."""

    id: str
    label: str
    value: float
    unit: str
    origin: str


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one family's evidence did to one fault: confidence with and without it.

    `weight` is the ratio of the odds with over without, inverted when it speaks against, so
    that it is at least 1; `word` names it by Kass & Raftery (1995). `link` is where the evidence
    stands that ties the two; where it acts through other faults, where its `otherwise` stands.
    """

    family: str
    finding: str
    says: str
    level: str
    with_it: float
    without_it: float
    weight: float
    word: str
    grounds: tuple[Ground, ...]
    link: RuleAt


@dataclass(frozen=True, slots=True)
class FaultSaid:
    """`set_aside`: findings that would speak of this fault but were set aside; `missing`:
    families with a link to it that nothing has spoken for yet."""

    id: str
    label: str
    kind: str
    confidence: float
    low: float
    high: float
    for_: tuple[Contribution, ...]
    against: tuple[Contribution, ...]
    set_aside: tuple[str, ...]
    missing: tuple[str, ...]
    rule: RuleAt


@dataclass(frozen=True, slots=True)
class CandidateSaid:
    faults: tuple[str, ...]
    probability: float


@dataclass(frozen=True, slots=True)
class InterlockSaid:
    """How one interlock stands.

    `would_clear`: checks that would settle it; `awaits`: unknown slots; `when_not`: what to
    say instead of `says` where it does not hold.
    """

    id: str
    says: str
    state: Permitted
    reason: Reason
    grounds: tuple[Ground, ...]
    awaits: tuple[str, ...]
    would_clear: tuple[str, ...]
    rule: RuleAt
    when_not: str = ""


@dataclass(frozen=True, slots=True)
class PermissionSaid:
    action: str
    does: str
    state: Permitted
    interlocks: tuple[InterlockSaid, ...]
    caution: str
    hurts: tuple[str, ...]
    named: tuple[InterlockSaid, ...] = ()


@dataclass(frozen=True, slots=True)
class DriveOnSaid:
    """`reasons`: interlocks that decided it, worst first; `unknown`: those still unknown."""

    state: DriveOn
    reasons: tuple[InterlockSaid, ...]
    unknown: tuple[InterlockSaid, ...]


@dataclass(frozen=True, slots=True)
class NextCheckSaid:
    """A check worth doing next. `gain_bits`: what it tells of the leading faults, together with
    the checks `then` that must follow for it to tell anything; `in_all_minutes`: of all of
    them, ways between stages included. `tells`: the families that get a voice; `clears`: the
    interlocks that wait for it."""

    id: str
    does: str
    where: str
    minutes: float
    caution: str
    gain_bits: float
    in_all_minutes: float
    then: tuple[str, ...]
    tells: tuple[str, ...]
    clears: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FilterWell:
    """Whether anything may say that the filter is well (law 5), and what stands in its way."""

    shown: bool
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RefusedSaid:
    """A comparison of two rounds that may not be made: every reason (`Unlike` by its value), and
    the slots to read now instead, none where only the earlier round is at fault."""

    slot: str
    label: str
    from_round: str
    to_round: str
    why: tuple[str, ...]
    instead: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a rulebook says of a case. `next_checks` and `plan` are None where not asked for."""

    program: str
    case: str
    as_of_entry: int
    as_of_time: datetime
    round: str | None
    rulebook_logic: str
    rulebook_words: str
    shop: str | None
    drive_on: DriveOnSaid
    none: dict[str, float]
    filter_well: FilterWell
    channels: tuple[ChannelSaid, ...]
    findings: tuple[FindingSaid, ...]
    families: tuple[FamilySaid, ...]
    limits: tuple[LimitUsed, ...]
    faults: tuple[FaultSaid, ...]
    candidates: tuple[CandidateSaid, ...]
    left_out: float
    exact: bool
    permissions: tuple[PermissionSaid, ...]
    overrides: tuple[OverrideSaid, ...] = ()
    contradictions: tuple[ContradictionSaid, ...] = ()
    torn: bool = False
    next_checks: tuple[NextCheckSaid, ...] | None = None
    plan: Plan | None = None
    refused: tuple[RefusedSaid, ...] = ()
