"""The rulebook as frozen data: what packs say, checked and merged, ids in sorted order.

What is read stands in `model_readings`, what is done in `model_work`; all of it is had from here.
Texts (`label`, `says`, `does`, `caution`) are in the packs' own language. `place` is where
the thing stands in its pack; `pack` the pack's id.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from sootsayer.belief.network import Kind
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Condition, Operand
from sootsayer.rulebook.memory import Remembering
from sootsayer.rulebook.model_basis import Basis, BasisKind, Proof
from sootsayer.rulebook.model_readings import (
    CODES,
    Channel,
    Check,
    Lasts,
    LimitDef,
    OpeningGroup,
    Point,
    QuantityDef,
    Signal,
    SignalKind,
    Where,
)
from sootsayer.rulebook.model_work import (
    Action,
    DriveState,
    Interlock,
    Money,
    Recheck,
    RemedyDef,
    Span,
    Step,
)

__all__ = [
    "CODES",
    "Action",
    "Basis",
    "BasisKind",
    "Channel",
    "Check",
    "Digests",
    "DriveState",
    "EvidenceDef",
    "Family",
    "FaultDef",
    "Filling",
    "FindingDef",
    "Interlock",
    "Lasts",
    "LimitDef",
    "Model",
    "Money",
    "OpeningGroup",
    "Override",
    "Point",
    "Proof",
    "QuantityDef",
    "Recheck",
    "RemedyDef",
    "Retired",
    "Shift",
    "Signal",
    "SignalKind",
    "Span",
    "Step",
    "Where",
]


@dataclass(frozen=True, slots=True)
class FindingDef:
    """What a rule derives: by a condition (`when`) or graded (`of`, `levels`, `cuts`).

    `levels` of a binary finding are ("false", "true"). `tests_channel` is the channel that
    it tests, if any; `corrects_by` the slot whose value is then removed as zero; `in_round`
    the round whose readings it keeps to, None for the newest. `acquits_at`: the levels at which
    it may say, through proven instruments, that the filter is well. `level_words`: level to how
    it is said in another language.
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
    level_words: dict[str, str] = field(default_factory=dict)

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
    """Findings that see the same thing, best first; one of them speaks. `level_words`: level to
    how it is said in another language, for the family and its members."""

    id: str
    label: str
    members: tuple[str, ...]
    levels: tuple[str, ...]
    pack: str
    place: Place
    level_words: dict[str, str] = field(default_factory=dict)


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
class Model(Remembering):
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
