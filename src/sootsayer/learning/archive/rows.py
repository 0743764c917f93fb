"""What replaying one file gives, and how it travels: as plain JSON, with which nothing is lost.

A row is the same whichever process or machine made it, and whether it was just made or kept in a
journal: floats are written so that they read back to the same bits.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

from sootsayer.learning.archive.closed import Left, LeftOut
from sootsayer.learning.archive.walk import Item

P = TypeVar("P")


@dataclass(frozen=True, slots=True)
class Row(Generic[P]):
    """One file of the archive: `found` of a closed case, else why it was left out.

    `torn`: its last line was half-written and left out.
    """

    name: str
    case: str
    found: P | None
    left: Left | None = None
    detail: str = ""
    torn: bool = False


class Worker(Protocol[P]):
    """Replays files, one by one, with whatever it keeps ready for that."""

    def row(self, name: str, data: bytes) -> Row[P]:
        """What one file gives. Never raises for what stands in it."""


class Task(Protocol[P]):
    """What is to be done with each case; travels to other processes and machines."""

    @property
    def key(self) -> str:
        """Digest of everything that a row depends on besides its file."""

    def worker(self) -> Worker[P]:
        """Make ready, which takes a moment: packs are read and compiled."""

    def plain(self, found: P) -> Any:
        """What was found as lists, texts and numbers."""

    def from_plain(self, plain: Any) -> P:
        """The same again."""


def left_out(name: str, left: LeftOut) -> Row[Any]:
    """The row of a file that was not replayed."""
    return Row(name, left.case, None, left.why, left.detail)


def troubled(item: Item) -> Row[Any]:
    """The row of a folder that could not be looked into."""
    return Row(item.name, "", None, Left.FOLDER, item.trouble)


def as_line(task: Task[P], row: Row[P], mark: str) -> str:
    """One line of a journal, without its newline."""
    left = None if row.left is None else row.left.value
    found = None if row.found is None else task.plain(row.found)
    plain = [row.name, mark, row.case, left, row.detail, row.torn, found]
    return json.dumps(plain, separators=(",", ":"), ensure_ascii=True)


def from_line(task: Task[P], line: str) -> tuple[Row[P], str]:
    """The row and its mark again. Raises ValueError for anything else."""
    try:
        name, mark, case, left, detail, torn, plain = json.loads(line)
        found = None if plain is None else task.from_plain(plain)
        return Row(name, case, found, None if left is None else Left(left), detail, torn), mark
    except (TypeError, KeyError, IndexError, RecursionError) as error:
        raise ValueError(f"no row: {error}") from None
