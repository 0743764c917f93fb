"""The rulebook as frozen data: what packs say, checked and merged, ids in sorted order.

Texts (`label`, `says`, `does`, `caution`) are in the packs' own language. `place` is where
the thing stands in its pack; `pack` the pack's id.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from sootsayer.belief.network import Kind
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Condition, Operand, Value


class BasisKind(Enum):
    PUBLISHED = "published"
    COMPUTED = "computed"
    COMMON_PRACTICE = "common practice"
    MEMORY = "memory"
    SHOP = "shop"


@dataclass(frozen=True, slots=True)
class Basis:
    """How we know. `source` names the publication, computation or cases; `note` is free."""

    kind: BasisKind
    source: str = ""
    note: str = ""


class SignalKind(Enum):
    NUMBER = "number"
    CHOICE = "choice"
    YES_NO = "yes-no"


class Lasts(Enum):
    VISIT = "visit"  # account and vehicle: known once, for the whole visit
    ROUND = "round"  # a reading: of its round only


@dataclass(frozen=True, slots=True)
class Signal:
    """What can be asked or measured.

    `unit`, `possible` (lowest, highest), `step` and `error` (one standard deviation) are in
    the signal's own unit and None for choices; `points` are the points it is read at, empty
    for a signal without a point. `channels`: source name to channel id ("" is any source).
    `asks` is the question as said aloud; `shown_as` other names by which instruments show it.
    """

    id: str
    label: str
    kind: SignalKind
    lasts: Lasts
    pack: str
    place: Place
    unit: str | None = None
    possible: tuple[float, float] | None = None
    step: float = 0.0
    error: float = 0.0
    choices: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    channels: dict[str, str] = field(default_factory=dict)
    how: str = ""
    asks: str = ""
    shown_as: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Point:
    """The state in which a signal is read; `conditions` say it to a technician."""

    id: str
    label: str
    conditions: str
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Channel:
    """An instrument path. `proven_by`: findings that must all be false; `nearest_first`: hiders."""

    id: str
    label: str
    proven_by: tuple[str, ...]
    nearest_first: tuple[str, ...]
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class LimitDef:
    """A number that a vehicle or a shop may overrule; `default` in `unit`."""

    id: str
    label: str
    default: float
    unit: str
    basis: Basis
    pack: str
    place: Place


class Where(Enum):
    """The stage at which a check is possible."""

    COUNTER = "counter"
    SCAN = "scan"
    HANDS_ON = "hands-on"


# What a check gives that reads the list of trouble codes, instead of a slot for each code.
CODES = "codes"


@dataclass(frozen=True, slots=True)
class Check:
    """Something a person does that yields facts (`gives`: slots, or CODES).

    `by_actions`: actions that it takes and that a known danger forbids, such as `run-engine`.
    """

    id: str
    does: str
    where: Where
    minutes: float
    gives: tuple[str, ...]
    pack: str
    place: Place
    tools: tuple[str, ...] = ()
    caution: str = ""
    applies: Condition | None = None
    by_actions: tuple[str, ...] = ()
    applies_proofs: tuple[Proof, ...] = ()


@dataclass(frozen=True, slots=True)
class OpeningGroup:
    """Checks at the counter that make sense to ask together; `says` leads into them."""

    id: str
    says: str
    checks: tuple[str, ...]
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Proof:
    """An example: with the facts `given`, and limits at their defaults, it is `then`."""

    given: dict[str, Value]
    then: Value
    place: Place
    codes: tuple[str, ...] | None = None  # None: list not read


@dataclass(frozen=True, slots=True)
class FindingDef:
    """What a rule derives: by a condition (`when`) or graded (`of`, `levels`, `cuts`).

    `levels` of a binary finding are ("false", "true"). `tests_channel` is the channel that
    it tests, if any; `corrects_by` the slot whose value is then removed as zero; `in_round`
    the round whose readings it keeps to, None for the newest. `acquits_at`: the levels at which
    it may say, through proven instruments, that the filter is well.
    """

    id: str
    says: str
    levels: tuple[str, ...]
    basis: Basis
    proofs: tuple[Proof, ...]
    pack: str
    place: Place
    when: Condition | None = None
    of: str | None = None
    cuts: tuple[Operand, ...] = ()
    applies: Condition | None = None
    tests_channel: str | None = None
    corrects_by: str | None = None
    in_round: str | None = None
    apart_because: str = ""
    acquits_at: tuple[str, ...] = ()
    revision: str = ""

    @property
    def graded(self) -> bool:
        return self.of is not None


@dataclass(frozen=True, slots=True)
class Shift:
    """When `when` is true, the odds of the prior as written are multiplied by `times`."""

    when: Condition
    times: float
    place: Place
    proofs: tuple[Proof, ...] = ()


class Filling(Enum):
    """What a filter fills with."""

    SOOT = "soot"
    ASH = "ash"


@dataclass(frozen=True, slots=True)
class FaultDef:
    """A candidate explanation. `leads_to`: condition id to frequency as written.

    `hides`: family id to the spread that it then has, lowest level first. `fills_with`: of a
    condition, what the filter fills with again while a cause of it is left.
    """

    id: str
    label: str
    kind: Kind
    prior: float
    basis: Basis
    pack: str
    place: Place
    shifts: tuple[Shift, ...] = ()
    leads_to: dict[str, float] = field(default_factory=dict)
    hides: dict[str, tuple[float, ...]] = field(default_factory=dict)
    applies: Condition | None = None
    fills_with: Filling | None = None
    applies_proofs: tuple[Proof, ...] = ()
    revision: str = ""


@dataclass(frozen=True, slots=True)
class EvidenceDef:
    """One evidence block after merging all packs, for a family or for one member of it.

    `seen_with`: fault id to spread over levels as written; `otherwise` the leak; each adds
    to 1, lowest level first. `places`: fault id (and "" for otherwise) to where it stands.
    """

    finding: str
    otherwise: tuple[float, ...]
    seen_with: dict[str, tuple[float, ...]]
    bases: dict[str, Basis]
    places: dict[str, Place]


@dataclass(frozen=True, slots=True)
class Family:
    """Findings that see the same thing, best first; one of them speaks."""

    id: str
    label: str
    members: tuple[str, ...]
    levels: tuple[str, ...]
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Interlock:
    """A condition that must hold before an action.

    `says`: what is so where it holds; `when_not`: what is so where it does not. `proofs` are of
    what it holds on, `applies_proofs`, here and elsewhere, of `applies`.
    """

    id: str
    says: str
    when_not: str
    holds: Condition
    basis: Basis
    pack: str
    place: Place
    within_minutes: float | None = None
    ask: tuple[str, ...] = ()
    applies: Condition | None = None
    proofs: tuple[Proof, ...] = ()
    applies_proofs: tuple[Proof, ...] = ()
    revision: str = ""


@dataclass(frozen=True, slots=True)
class DriveState:
    """A state of `drive-on` reached when at least `count` of `blocked_by` are blocked."""

    state: str
    blocked_by: tuple[str, ...]
    count: int = 1


@dataclass(frozen=True, slots=True)
class Action:
    """Something that can hurt if wrong.

    `needs`: interlocks that must be clear. `heeds`: interlocks that block when known not to
    hold, but are only named, not awaited, while unknown. `states`: of `drive-on`, worst first.
    """

    id: str
    does: str
    hurts: tuple[str, ...]
    needs: tuple[str, ...]
    caution: str
    pack: str
    place: Place
    heeds: tuple[str, ...] = ()
    states: tuple[DriveState, ...] = ()


@dataclass(frozen=True, slots=True)
class QuantityDef:
    """A fact computed by a physics function from other facts.

    `id` names a signal (its unit and possible range are declared there); `formula` the physics
    quantity function; `takes`: the function's input name to a signal, read at the same point,
    or to a signal@point; `at`: the points at which it exists, empty for a quantity without.
    """

    id: str
    label: str
    formula: str
    takes: dict[str, str]
    points: tuple[str, ...]
    unit: str
    basis: Basis
    pack: str
    place: Place
    revision: str = ""


@dataclass(frozen=True, slots=True)
class Money:
    """A price range in the shop's currency, lowest and highest; None where unknown."""

    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class Span:
    """From the lowest to the highest; both the same where it is one number."""

    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a piece of work, with its own caution where it has one."""

    does: str
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Recheck:
    """When to look again: after so many km, or so many days, whichever comes first."""

    km: float | None = None
    days: float | None = None


@dataclass(frozen=True, slots=True)
class RemedyDef:
    """Work that cures faults with some chance, at a price, by actions.

    `cures`: fault id to frequency; `by_actions`: actions it needs a permission for; `minutes`
    of work; `days` that the vehicle is away beyond it. `needs_mended`: faults with which it does
    not cure; `hides_faults`: faults that it would only cover up. `steps` in order, `stop_when`,
    `consumes`, `oil_afterwards`, `resets` (counters and learned values), `then` (follow-ups) and
    `tell_the_customer` in words; `verify_by`: slots read afterwards; `voids`: channels that are
    unproven again after it; `rechecks`: when to look again, the soonest first.
    """

    id: str
    label: str
    does: str
    cures: dict[str, float]
    by_actions: tuple[str, ...]
    minutes: Span
    parts: Money | None
    then: tuple[str, ...]
    verify_by: tuple[str, ...]
    voids: tuple[str, ...]
    basis: Basis
    pack: str
    place: Place
    caution: str = ""
    applies: Condition | None = None
    days: Span | None = None
    needs_mended: tuple[str, ...] = ()
    hides_faults: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    stop_when: tuple[str, ...] = ()
    consumes: tuple[str, ...] = ()
    oil_afterwards: str = ""
    resets: tuple[str, ...] = ()
    rechecks: tuple[Recheck, ...] = ()
    tell_the_customer: str = ""
    applies_proofs: tuple[Proof, ...] = ()
    revision: str = ""


@dataclass(frozen=True, slots=True)
class Override:
    """A shop's own number in place of a pack's: what it was, what it is now, and why.

    `of` is the id, `path` the keys below it (`prior`; `seen with`, `soot-overload`), both
    numbers as written.
    """

    of: str
    path: tuple[str, ...]
    was: str
    now: str
    why: str
    basis: Basis
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Retired:
    """An id that is not used any more, and the one to use instead ("" where there is none)."""

    id: str
    successor: str
    why: str
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Digests:
    """SHA-256 (hex) of the rulebook's logic and of its words."""

    logic: str
    words: str


@dataclass(frozen=True, slots=True)
class Model:
    """All packs in force, merged and checked; every mapping has its ids sorted.

    `opening`: what is asked first, group by group. `customary_order`: checks in the order in
    which the trade usually goes through them, for comparison and training.
    """

    signals: dict[str, Signal]
    points: dict[str, Point]
    channels: dict[str, Channel]
    limits: dict[str, LimitDef]
    checks: dict[str, Check]
    findings: dict[str, FindingDef]
    families: dict[str, Family]
    faults: dict[str, FaultDef]
    evidence: dict[str, EvidenceDef]
    actions: dict[str, Action]
    interlocks: dict[str, Interlock]
    codes: tuple[str, ...]  # every trouble code that a condition names
    digests: Digests
    quantities: dict[str, QuantityDef] = field(default_factory=dict)
    remedies: dict[str, RemedyDef] = field(default_factory=dict)
    overrides: tuple[Override, ...] = ()
    retired: dict[str, Retired] = field(default_factory=dict)
    opening: tuple[OpeningGroup, ...] = ()
    customary_order: tuple[str, ...] = ()
