"""What an archive holds, counted as its files go by: how many were replayed, and which were not.

Memory stays flat: of names only the first are kept, and which ids have been is kept on the disk
once there are many.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.rows import Row
from sootsayer.learning.synthetic_mark import is_synthetic

P = TypeVar("P")
NAMED = 1000  # files left out that are named; beyond, only counted


@dataclass(frozen=True, slots=True)
class Named:
    """One file that was left out, and why."""

    name: str
    case: str
    why: Left
    detail: str


@dataclass(slots=True)
class Counted:
    """`files`: all that were looked at. `named`: the first that were left out for another reason
    than being open or drawn. `torn`: replayed without their half-written last line."""

    files: int = 0
    replayed: int = 0
    drawn: int = 0
    torn: int = 0
    left: Counter[Left] = field(default_factory=Counter)
    named: list[Named] = field(default_factory=list)

    def note(self, row: Row[P]) -> None:
        self.files += row.left is not Left.FOLDER
        self.torn += row.torn
        if row.left is None:
            self.replayed += 1
            self.drawn += is_synthetic(row.case)
            return
        self.left[row.left] += 1
        if row.left not in {Left.OPEN, Left.SYNTHETIC} and len(self.named) < NAMED:
            self.named.append(Named(row.name, row.case, row.left, row.detail))


def once_each(rows: Iterable[Row[P]], counted: Counted) -> Iterator[tuple[str, P]]:
    """Case id and what was found of each case replayed, the first file of an id alone; everything
    else is noted in `counted`."""
    with _Seen() as seen:
        for row in rows:
            first = seen.first_of(row.case, row.name) if row.found is not None else row.name
            if first != row.name:
                row = Row(row.name, row.case, None, Left.TWICE, first)
            counted.note(row)
            if row.found is not None:
                yield row.case, row.found


class _Seen:
    """Ids of cases and the first file of each, in a database that SQLite keeps in memory while it
    is small, moves to a temporary file by itself, and removes."""

    def __enter__(self) -> _Seen:
        self._base = sqlite3.connect("", isolation_level=None)
        self._base.execute("PRAGMA journal_mode = OFF")
        self._base.execute("CREATE TABLE seen (id BLOB PRIMARY KEY, file TEXT) WITHOUT ROWID")
        return self

    def __exit__(self, *_: object) -> None:
        self._base.close()

    def first_of(self, case: str, file: str) -> str:
        """The first file that had this id: this one, if none had it before."""
        key = hashlib.blake2b(case.encode("utf-8", "surrogatepass"), digest_size=16).digest()
        name = file.encode("utf-8", "surrogateescape")
        found = self._base.execute("SELECT file FROM seen WHERE id = ?", (key,)).fetchone()
        if found is None:
            self._base.execute("INSERT INTO seen VALUES (?, ?)", (key, name))
            return file
        return bytes(found[0]).decode("utf-8", "surrogateescape")
