"""What can be read and asked: facts, points, instruments, limits, checks, computed quantities."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Condition
from sootsayer.rulebook.model_basis import Basis, Proof


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
    `choice_words`: choice to how it is said in another language; what is written stays the choice.
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
    choice_words: dict[str, str] = field(default_factory=dict)


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
