"""What a review says: decisions, proven or not, and remarks on what a person should look at."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from sootsayer.documents.problems import Problem
from sootsayer.engine.conditions import Value


class Concern(Enum):
    """What is looked into. The value is its name in JSON and on the screen."""

    READING = "files, names and units"
    PROOFS = "proofs come out"
    DECIDES = "rules can be true and false"
    LEVELS = "levels are reached, without gaps"
    APPLIES = "what applies can apply"
    YIELDED = "a check yields it"
    CLEARED = "interlocks can be cleared"
    DIFFERS = "rules say different things"
    LINKS = "links say something"
    APART = "faults are told apart"
    RETIRED = "retired ids have a successor"
    WORDS = "translations are up to date"


class Weight(Enum):
    ERROR = "error"  # the check of the rules fails
    WARNING = "warning"  # likely a slip
    NOTE = "note"  # to be known


class Decided(Enum):
    PROVEN = "proven"
    DISPROVEN = "disproven"
    NOT_DECIDED = "not decided"


@dataclass(frozen=True, slots=True)
class Decision:
    """A claim about one thing of the rulebook, whether it was proven, and the case that shows it:
    slot to value, empty where no case could. `other`: the rule that this one was shown not to be
    the same as."""

    concern: Concern
    thing: str
    claim: str
    decided: Decided
    case: dict[str, Value] = field(default_factory=dict)
    other: str = ""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to look at. `case` shows it, where one can."""

    concern: Concern
    weight: Weight
    thing: str
    problem: Problem
    case: dict[str, Value] = field(default_factory=dict)


@dataclass(slots=True)
class Gathered:
    """What is gathered in one review."""

    remarks: list[Remark] = field(default_factory=list)
    decisions: list[Decision] = field(default_factory=list)
