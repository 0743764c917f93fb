"""What a rule may say: conditions over named slots, as frozen data.

A slot is a fact (`dp@idle`) or something derived (a finding). Its value is a number, a
word (a choice, or the level of a graded finding), a boolean, `NOT_FITTED`, or None for
unknown. Logic is Kleene's strong three-valued logic (Kleene 1952, section 64): a missing
value makes a condition unknown, never false.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class NotFitted(Enum):
    """The only value of `NOT_FITTED`: the vehicle does not have the thing."""

    NOT_FITTED = "not fitted"


NOT_FITTED = NotFitted.NOT_FITTED

Value = float | str | bool | NotFitted | None
Truth = bool | None


@dataclass(frozen=True, slots=True)
class Const:
    value: float


@dataclass(frozen=True, slots=True)
class Slot:
    """The number that another slot holds."""

    name: str


@dataclass(frozen=True, slots=True)
class Limit:
    """The number of a limit, which a vehicle or a shop may overrule."""

    name: str


@dataclass(frozen=True, slots=True)
class Linear:
    """`times` x `of` + `plus`."""

    times: Operand
    of: Operand
    plus: Operand


Operand = Const | Slot | Limit | Linear


class Op(Enum):
    BELOW = "below"
    AT_MOST = "at most"
    ABOVE = "above"
    AT_LEAST = "at least"
    BETWEEN = "between"  # both ends included
    OUTSIDE = "outside"  # both ends excluded


@dataclass(frozen=True, slots=True)
class Compare:
    """A number against one operand, or two for between and outside."""

    slot: str
    op: Op
    operands: tuple[Operand, ...]


@dataclass(frozen=True, slots=True)
class OneOf:
    """The slot's word or boolean is one of `values` (a level comparison is one of these too)."""

    slot: str
    values: tuple[str | bool, ...]


@dataclass(frozen=True, slots=True)
class Known:
    """The slot has a value. Not monotone: only in interlocks and `applies when`."""

    slot: str


@dataclass(frozen=True, slots=True)
class All:
    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Any:
    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Not:
    part: Condition


@dataclass(frozen=True, slots=True)
class AtLeast:
    """At least `count` of the parts are true."""

    count: int
    parts: tuple[Condition, ...]


Condition = Compare | OneOf | Known | All | Any | Not | AtLeast


@dataclass(frozen=True, slots=True)
class Rule:
    """Derives the boolean slot `name`: true, false or unknown.

    `applies` false or unknown makes it unknown. In `applies` a comparison with a value
    that is not fitted is false; in `when` it is unknown, unless `absent_is_false` (used
    for conditions that are themselves an `applies when`).
    """

    name: str
    when: Condition
    applies: Condition | None = None
    absent_is_false: bool = False


@dataclass(frozen=True, slots=True)
class Grade:
    """Derives the slot `name`: one of ordered `levels`, or unknown, from the number in `of`.

    `cuts` are one fewer than the levels, rising; a value at a cut has the upper level.
    """

    name: str
    of: str
    levels: tuple[str, ...]
    cuts: tuple[Operand, ...]
    applies: Condition | None = None


Definition = Rule | Grade
