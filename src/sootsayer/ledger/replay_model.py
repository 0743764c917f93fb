"""What crosses the wall of this room of verdicts given again: what differs, and the way there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any

from sootsayer.advice.permissions import Permitted
from sootsayer.casework.model import Case, Entry
from sootsayer.rulebook.model import Model

_LOOSER = {Permitted.CLEAR.value: 2, Permitted.NOT_YET_CLEAR.value: 1, Permitted.BLOCKED.value: 0}


class Again(Enum):
    """How a verdict came out when it was given again with the rulebook of that day."""

    SAME = "same"
    DIFFERS = "differs"
    NOT_REPLAYABLE = "not-replayable"


class Why(Enum):
    """Why a verdict cannot be given again."""

    NONE = ""
    CLOSED = "closed"
    TEXT_LOST = "text-lost"
    RULEBOOK_REFUSED = "rulebook-refused"
    CASE_REFUSED = "case-refused"
    PROGRAM = "program"
    LANGUAGE = "language"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Replayed:
    """`told`: the verdict given again, None where there is none. `detail`: of the reason."""

    again: Again
    why: Why = Why.NONE
    detail: str = ""
    told: Mapping[str, Any] | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is another one now: of which section ("shop limits"), and its id; `was` and
    `is_` say its revision or number, "" where it was or is not there."""

    section: str
    id: str
    was: str
    is_: str


class Of(Enum):
    """What kind of thing differs, in the order in which it matters."""

    DRIVE = "drive"
    PERMISSION = "permission"
    LEADING = "leading"
    CONFIDENCE = "confidence"
    FINDING = "finding"
    LIMIT = "limit"
    WORK = "work"


@dataclass(frozen=True, slots=True)
class Difference:
    """`then` and `now`: a state, a level, a number as text; "" where there was no such thing."""

    of: Of
    id: str
    then: str
    now: str

    @property
    def is_looser(self) -> bool:
        """It permits what was not permitted."""
        ranks = _LOOSER.get(self.then, -1), _LOOSER.get(self.now, -1)
        return self.of is Of.PERMISSION and ranks[1] > ranks[0] >= 0

    @property
    def is_stricter(self) -> bool:
        ranks = _LOOSER.get(self.then, -1), _LOOSER.get(self.now, -1)
        return self.of is Of.PERMISSION and ranks[0] > ranks[1] >= 0


@dataclass(frozen=True, slots=True)
class Today:
    """`cannot`: why today's rulebook does not judge it, else "". `changed`: how many things of the
    rulebook and the settings are others now. `found`: each difference with the changes that make
    it so alone; none where several do together, or `tried` says that none was tried."""

    cannot: str = ""
    changed: int = 0
    found: tuple[tuple[Difference, tuple[Change, ...]], ...] = ()
    tried: bool = True


@dataclass(frozen=True, slots=True)
class Moved:
    """A confidence before and after; `fault` by its id."""

    fault: str
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of an entry and what it did by itself: the confidences without it and with it,
    all else of that moment being as it is; the most moved first. `typed` as in the case."""

    slot: str
    typed: str
    moved: tuple[Moved, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One entry: what it did to the confidences, to the question of driving, to permissions.

    `drive` and `permissions` are before and after, only where they changed.
    """

    entry: Entry
    moved: tuple[Moved, ...]
    answers: tuple[Answer, ...]
    drive: tuple[str, str] | None
    permissions: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Explained:
    """`steps`: none where `why` and `detail` say why. `case` and `rulebook`: what was gone through,
    for what things were called; None where it cannot be read."""

    steps: tuple[Step, ...]
    case: Case | None = None
    rulebook: Model | None = None
    why: Why = Why.NONE
    detail: str = ""
