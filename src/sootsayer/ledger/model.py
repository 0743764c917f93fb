"""What crosses the wall of this room: records, what a check of the ledger found, rows of a list."""

from __future__ import annotations

import json
from dataclasses import dataclass
from enum import Enum
from typing import Any, NamedTuple

from sootsayer.ledger.parts import text


@dataclass(frozen=True, slots=True)
class Line:
    """A line whose digest fits its content. `body`: canonical JSON, None where it is kept back."""

    number: int
    digest: str
    previous: str
    body: bytes | None
    body_digest: str

    def opened(self) -> dict[str, object]:
        """The body as data; empty where it is kept back."""
        found = json.loads(self.body) if self.body is not None else {}
        return found if isinstance(found, dict) else {}


@dataclass(frozen=True, slots=True)
class Record:
    """A record that fits its digest, its body read."""

    line: Line
    body: dict[str, Any]

    @property
    def number(self) -> int:
        return self.line.number

    @property
    def kind(self) -> str:
        return text(self.body, "kind")

    @property
    def case(self) -> str:
        return text(self.body, "case", "id")


class Wrong(Enum):
    """What the first thing wrong with a ledger is."""

    CHANGED = "changed"
    REMOVED = "removed"
    MOVED = "moved"
    INSERTED = "inserted"
    FOREIGN = "foreign"
    TORN = "torn"
    TEXT_LOST = "text-lost"
    OTHER_FORMAT = "other-format"


@dataclass(frozen=True, slots=True)
class Flaw:
    """The first thing that is wrong: in which line, at which record, and what exactly."""

    wrong: Wrong
    line: int
    number: int
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found of a ledger, up to the first flaw.

    `count` records hold; `head` is the digest of the last of them. `closed`: of how many the body
    is kept back. `asked_for`: the number of the record with the digest that was asked for.
    `back`: the records that are dated before the one before them.
    """

    count: int = 0
    head: str = ""
    closed: int = 0
    flaw: Flaw | None = None
    asked_for: int | None = None
    back: tuple[int, ...] = ()


class Row(NamedTuple):  # a hundred thousand are made at once, which this does fastest
    """`faults`: ids with spaces between: those that led, or of an outcome those confirmed. `of`:
    the record that an outcome points back to, else 0."""

    number: int
    at: str
    by: str
    kind: str
    case: str
    vehicle: str
    faults: str
    drive: str
    of: int
    digest: str


@dataclass(frozen=True, slots=True)
class Found:
    """The rows wanted, newest first; how many there are in all; how many lines are no records."""

    rows: list[Row]
    count: int
    unreadable: int
