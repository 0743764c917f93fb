"""The answer to why, and why not, as frozen data; `docs/reference/why.md` has its JSON form.

One shape for every id: what it is and its value; the tests that made it so, with the values
they saw; the entries it rests on; what is still unknown and which checks tell; what it rests
on and what rests on it. What only one kind of thing has stands in `fault`, `channel`,
`family`, `interlock`, `permission`, `limit`, `check` or `remedy`, all others of these being None.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from sootsayer.engine.conditions import Truth, Value
from sootsayer.judgement.plan_said import RemedySaid
from sootsayer.judgement.verdict import (
    ChannelSaid,
    FamilySaid,
    FaultSaid,
    Ground,
    InterlockSaid,
    LimitUsed,
    OverrideSaid,
    PermissionSaid,
    RuleAt,
)
from sootsayer.judgement.would_change import WouldChange


class UnknownThing(Exception):  # noqa: N818 (it names what was found)
    """No id of the rulebook or slot of the case is called `thing`; `near` are ids like it, nearest
    first, at most three."""

    def __init__(self, thing: str, near: tuple[str, ...] = ()) -> None:
        self.thing = thing
        self.near = near
        super().__init__(thing)


class ThingKind(Enum):
    SLOT = "slot"  # a fact: signal or signal@point
    SIGNAL = "signal"  # a signal that is read at points: `related` lists its slots
    CODE = "code"  # a trouble code; its slot is code:P2463
    FINDING = "finding"
    FAMILY = "family"
    CHANNEL = "channel"
    FAULT = "fault"
    INTERLOCK = "interlock"
    ACTION = "action"
    LIMIT = "limit"
    CHECK = "check"
    REMEDY = "remedy"


class Missing(Enum):
    """Why a slot has no value that counts."""

    NOT_ASKED = "not asked"
    DO_NOT_KNOW = "do not know"
    CANNOT = "cannot"
    NOT_FITTED = "not fitted"
    DERIVED = "derived"  # a finding that is itself unknown
    SET_ASIDE = "set aside"  # its instrument is distrusted
    CODES_NOT_COUNTED = "codes not counted"  # the list is not complete, or its monitor has not run


@dataclass(frozen=True, slots=True)
class WhyOperand:
    """What a number was held against: its `value` (None: unknown) and what it is made of.

    `limits` and `slots` are the ids that the number came from, both empty for a plain number.
    """

    value: float | None
    limits: tuple[str, ...] = ()
    slots: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WhyTest:
    """One test of one slot.

    `op` is an `Op` value (`below`, `between`, ...), `one of`, `known`, or `graded` (then `against`
    are the cuts and `words` the levels). `seen` is the value it saw in `unit`, None if there is
    none: then `missing` says why. `against` are the numbers, `words` the words ("true" and
    "false" for booleans). `depth`: how deep in the condition, from 0.
    """

    slot: str
    label: str
    op: str
    seen: Value
    unit: str | None
    against: tuple[WhyOperand, ...]
    words: tuple[str, ...]
    outcome: Truth
    missing: Missing | None = None
    depth: int = 0


@dataclass(frozen=True, slots=True)
class WhyJoint:
    """Several parts joined: `op` is `all`, `any`, `not` or `at least` (then `count`).

    Its parts follow it in the list, one deeper.
    """

    op: str
    outcome: Truth
    count: int = 0
    depth: int = 0


WhyStep = WhyTest | WhyJoint


@dataclass(frozen=True, slots=True)
class WhyCheck:
    """A check that would give something unknown."""

    id: str
    does: str
    where: str
    minutes: float
    caution: str = ""


@dataclass(frozen=True, slots=True)
class WhyUnknown:
    """A slot without a value that could change the answer; cheapest check first."""

    slot: str
    label: str
    missing: Missing
    checks: tuple[WhyCheck, ...]


class Relation(Enum):
    """How `other` stands to the thing asked about (read: `other` ...)."""

    FEEDS = "feeds"  # other is read by the thing
    READS = "reads"  # other reads the thing
    SPEAKS_FOR = "speaks for"  # other is evidence for or against the thing, a fault
    BEARS_ON = "bears on"  # other is a fault that the thing is evidence for or against
    MEMBER = "member"  # other is a member of the thing, a family
    FAMILY = "family"  # other is the family of the thing
    CAUSED_BY = "caused by"  # other leads to the thing
    LEADS_TO = "leads to"  # the thing leads to other
    HIDES = "hides"  # the thing can hide other
    HIDDEN_BY = "hidden by"  # other can hide the thing
    TESTS = "tests"  # other tests the thing, a channel
    TESTED = "tested"  # the thing tests other, a channel
    NEEDS = "needs"  # other is an interlock that the thing, an action, needs or heeds
    NEEDED_BY = "needed by"  # other is an action that needs or heeds the thing
    GIVES = "gives"  # other is a slot that the thing, a check, gives
    GIVEN_BY = "given by"  # other is a check that gives the thing
    DONE_BY = "done by"  # other is an action that the thing, a remedy, is done by
    CURES = "cures"  # other is a fault that the thing, a remedy, cures
    CURED_BY = "cured by"  # other is a remedy that cures the thing, a fault
    USED_BY = "used by"  # other is a remedy that the thing, an action, is done for
    READ_AT = "read at"  # other is a slot of the thing, a signal


@dataclass(frozen=True, slots=True)
class WhyLink:
    """Another thing that this one rests on or leads to, with its value in this case.

    `value` as in `WhyAnswer`.
    """

    relation: Relation
    kind: ThingKind
    id: str
    label: str
    value: Value = None
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class WhyShift:
    """A fact that shifts a prior: the odds are multiplied by `times` when `outcome` is true."""

    steps: tuple[WhyStep, ...]
    times: float
    outcome: Truth


@dataclass(frozen=True, slots=True)
class WhyFault:
    """`prior` as written, `prior_now` after the shifts that hold; 0 where the fault does not apply.

    `rank`: 1 for the most probable fault of its kind; `none`: probability that no fault of its kind
    is present.
    """

    said: FaultSaid
    prior: float
    prior_now: float
    shifts: tuple[WhyShift, ...]
    rank: int
    none: float


@dataclass(frozen=True, slots=True)
class WhyRemedy:
    """Work, as the plan says it. `cures`: each fault that it cures to the fault's confidence;
    `permissions` of the actions that it is done by; `clears`: the checks that would settle what it
    waits for; `currency` of its cost, "" where there is none."""

    said: RemedySaid
    cures: dict[str, float]
    permissions: tuple[PermissionSaid, ...]
    clears: tuple[WhyCheck, ...]
    currency: str


@dataclass(frozen=True, slots=True)
class WhyAnswer:
    """Why, and why not, for one id.

    `value`: of a slot its fact; of a finding or family true, false or a level; of a fault its
    confidence; of a channel, interlock, action or remedy the state's word; of a limit the number;
    of a check None. None: unknown. `label` is what the rulebook calls it (`says`, `does`, `label`).
    `missing`: why a slot has no value. `applies`: false if `applies when` takes it out, None if
    that is unknown; `applies_steps` its tests. `would_change`: the cheapest open check whose
    outcome could change what leads (of a fault's kind, else of any), or a permission (of an
    action or a remedy, else of any); None of a check, and where there is none. `basis`: how the
    rule is known, in words, "" where there is none. `rule` None: not from a rule (a plain slot).
    """

    thing: str
    kind: ThingKind
    label: str
    case: str
    as_of_entry: int
    value: Value
    unit: str | None = None
    missing: Missing | None = None
    rule: RuleAt | None = None
    basis: str = ""
    applies: Truth = True
    applies_steps: tuple[WhyStep, ...] = ()
    steps: tuple[WhyStep, ...] = ()
    grounds: tuple[Ground, ...] = ()
    borderline: bool = False
    set_aside: str | None = None
    would_be: str | None = None
    unknown: tuple[WhyUnknown, ...] = ()
    related: tuple[WhyLink, ...] = ()
    fault: WhyFault | None = None
    channel: ChannelSaid | None = None
    family: FamilySaid | None = None
    interlock: InterlockSaid | None = None
    permission: PermissionSaid | None = None
    limit: LimitUsed | None = None
    check: WhyCheck | None = None
    remedy: WhyRemedy | None = None
    overrides: tuple[OverrideSaid, ...] = ()
    would_change: WouldChange | None = None
