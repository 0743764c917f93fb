"""The rule that is being made: what has been answered so far."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from sootsayer.engine.conditions import Op
from sootsayer.rulebook.model import SignalKind


@dataclass(frozen=True, slots=True)
class NewFact:
    """Something that was never asked before: a signal and the check that gives it.

    `possible` in `unit` for a number ("" is none), else None; `words` of a choice.
    """

    kind: SignalKind
    label: str
    does: str
    where: str
    minutes: str
    caution: str = ""
    words: tuple[str, ...] = ()
    possible: tuple[float, float] | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The fact that decides it. `slot` is "" for a new one; `code` a trouble code; `said`: how its
    words are said in another language."""

    slot: str
    label: str
    kind: SignalKind
    unit: str = ""
    step: float = 1.0
    possible: tuple[float, float] | None = None
    words: tuple[str, ...] = ()
    new: NewFact | None = None
    code: str = ""
    pack: str = ""
    said: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Counts:
    """From what value it counts: a comparison with one or two numbers, or with words."""

    op: Op | None = None
    numbers: tuple[float, ...] = ()
    words: tuple[str, ...] = ()

    def holds(self, value: float | str) -> bool:
        """Whether it is so of a value: a number, a word, or `yes` and `no`."""
        if self.op is None or isinstance(value, str):
            return value in self.words
        low, high = self.numbers[0], self.numbers[-1]
        return {
            Op.ABOVE: value > low,
            Op.AT_LEAST: value >= low,
            Op.BELOW: value < low,
            Op.AT_MOST: value <= low,
            Op.BETWEEN: low <= value <= high,
            Op.OUTSIDE: value < low or value > high,
        }[self.op]


@dataclass(frozen=True, slots=True)
class NewFault:
    label: str
    kind: str
    prior: str


@dataclass(frozen=True, slots=True)
class Linked:
    """A fault that it is seen with: its id, "" for a new one, and how often, as written."""

    fault: str
    label: str
    often: str
    share: float
    new: NewFault | None = None


@dataclass(frozen=True, slots=True)
class Shown:
    """What a named case reads."""

    case: str
    value: float | str


@dataclass(slots=True)
class Draft:
    """Everything asked so far; each answer overwrites what was answered before."""

    says: str = ""
    fact: Chosen | None = None
    counts: Counts | None = None
    links: tuple[Linked, ...] = ()
    otherwise: str = ""
    basis: str = ""
    source: str = ""
    shown: tuple[Shown, ...] = ()
    apart: str = ""
    name: str = ""
    taken: frozenset[str] = field(default_factory=frozenset)
