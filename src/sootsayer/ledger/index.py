"""An index that makes lists fast. It is never the truth.

Whatever is wrong with it (missing, of an older form, broken, not of this ledger), it is built
again from the ledger, and where it cannot be written it is built in memory. `verify`, `replay` and
`explain` never look at it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from sootsayer.ledger.folder import Ledger, line_at, opened
from sootsayer.ledger.model import Found, Row
from sootsayer.ledger.rows import FIELDS, row_of, stored

_FORM = 3  # of the tables below; another number and they are made anew
_BUSY_S = 10.0
_TABLES = """
CREATE TABLE seen (size INTEGER, changed INTEGER, last INTEGER, digest TEXT, unreadable INTEGER);
CREATE TABLE record (
  number INTEGER, at TEXT, by TEXT, kind TEXT, kase TEXT, vehicle TEXT, faults TEXT,
  drive TEXT, of INTEGER, digest TEXT, utc REAL
);
CREATE INDEX record_utc ON record (utc);
"""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to list: each None for any. `since` and `until` are seconds of the epoch (UTC)."""

    since: float | None = None
    until: float | None = None
    vehicle: str | None = None
    fault: str | None = None
    by: str | None = None
    case: str | None = None


def search(ledger: Ledger, wanted: Wanted, most: int | None = None) -> Found:
    """The records wanted, at most so many. Raises Refused where there is no ledger."""
    opened(ledger).close()
    for attempt in (ledger.index, ledger.index, None):
        try:
            with closing(_connected(attempt)) as index:
                _brought_up_to_date(index, ledger)
                return _found(index, wanted, most)
        except (sqlite3.Error, OverflowError, ValueError) as trouble:
            if attempt is None:
                raise
            if not _is_busy(trouble):
                with suppress(OSError):
                    attempt.unlink()
    raise AssertionError  # the last attempt returns or raises


def _is_busy(trouble: Exception) -> bool:
    """Somebody else has it for longer than is waited for; nothing is wrong with it."""
    code = getattr(trouble, "sqlite_errorcode", None)
    return code is not None and code & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def _connected(path: Path | None) -> sqlite3.Connection:
    index = sqlite3.connect(":memory:" if path is None else path, timeout=_BUSY_S)
    try:
        index.isolation_level = None
        # Losing it costs a rebuild, so it need not wait for the disk.
        index.execute("PRAGMA synchronous = OFF")
    except sqlite3.Error:
        index.close()
        raise
    return index


def _brought_up_to_date(index: sqlite3.Connection, ledger: Ledger) -> None:
    status = ledger.file.stat()
    if _seen(index)[:2] == (status.st_size, status.st_mtime_ns) and _is_complete(index):
        return
    index.execute("BEGIN IMMEDIATE")
    try:
        begin = _goes_on_at(index, ledger, status.st_size)
        if begin == 0:
            _made_anew(index)
        _add(index, ledger, begin, status.st_size, status.st_mtime_ns)
        index.execute("COMMIT")
    except BaseException:
        with suppress(sqlite3.Error):
            index.execute("ROLLBACK")
        raise


def _seen(index: sqlite3.Connection) -> tuple[int, int, int, str, int]:
    """What the index knows of the ledger: nothing where it is new or of another form."""
    if index.execute("PRAGMA user_version").fetchone()[0] != _FORM:
        return (0, 0, 0, "", 0)
    row = index.execute("SELECT size, changed, last, digest, unreadable FROM seen").fetchone()
    if row is None:
        return (0, 0, 0, "", 0)
    return (int(row[0]), int(row[1]), int(row[2]), str(row[3]), int(row[4]))


def _is_complete(index: sqlite3.Connection) -> bool:
    """No row was taken out."""
    count, newest = index.execute("SELECT count(*), max(rowid) FROM record").fetchone()
    return bool(count == (newest or 0))


def _goes_on_at(index: sqlite3.Connection, ledger: Ledger, size: int) -> int:
    """From which byte on the ledger is new; 0 where the index must be made anew."""
    known, _, last, digest, _ = _seen(index)
    if not 0 < known < size or not digest or not _is_complete(index):
        return 0
    row = row_of(line_at(ledger, last))
    return known if row is not None and row.digest == digest else 0


def _made_anew(index: sqlite3.Connection) -> None:
    names = index.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    for (name,) in names:
        if name in ("seen", "record"):
            index.execute(f"DROP TABLE {name}")
    for statement in _TABLES.split(";"):
        if statement.strip():
            index.execute(statement)
    index.execute(f"PRAGMA user_version = {_FORM}")


def _add(index: sqlite3.Connection, ledger: Ledger, begin: int, size: int, changed: int) -> None:
    seen = _Reading(begin, unreadable=_seen(index)[4] if begin else 0)
    slots = ", ".join("?" for _ in (*FIELDS, "utc"))
    rows = seen.rows(ledger, size)
    index.executemany(f"INSERT INTO record VALUES ({slots})", rows)
    index.execute("DELETE FROM seen")
    told = (seen.end, changed if seen.end == size else 0, seen.last, seen.digest, seen.unreadable)
    index.execute("INSERT INTO seen VALUES (?, ?, ?, ?, ?)", told)


@dataclass(slots=True)
class _Reading:
    """Rows from the lines of the ledger, and where the last of them stood."""

    end: int
    last: int = 0
    digest: str = ""
    unreadable: int = 0

    def rows(self, ledger: Ledger, size: int) -> Iterator[tuple[object, ...]]:
        with opened(ledger) as stream:
            stream.seek(self.end)
            for raw in stream:
                if self.end + len(raw) > size or not raw.endswith(b"\n"):
                    return  # being written now, or torn
                row = row_of(raw[:-1])
                if row is None:
                    self.unreadable += 1
                else:
                    self.last, self.digest = self.end, row.digest
                    yield stored(row)
                self.end += len(raw)


def _found(index: sqlite3.Connection, wanted: Wanted, most: int | None) -> Found:
    where, values = _where(wanted)
    count = index.execute(f"SELECT count(*) FROM record {where}", values).fetchone()[0]
    limit = "" if most is None else f" LIMIT {int(most)}"
    listed = ", ".join(FIELDS).replace("case", "kase")
    asked = f"SELECT {listed} FROM record {where} ORDER BY rowid DESC{limit}"
    rows = list(map(Row._make, index.execute(asked, values)))
    return Found(rows, int(count), _seen(index)[4])


def _where(wanted: Wanted) -> tuple[str, list[object]]:
    tests: list[tuple[str, object]] = []
    for name, comparison in (("since", "utc >= ?"), ("until", "utc < ?")):
        if getattr(wanted, name) is not None:
            tests.append((comparison, getattr(wanted, name)))
    if wanted.vehicle is not None:
        tests.append(("instr(lower(vehicle), ?) > 0", wanted.vehicle.lower()))
    if wanted.fault is not None:
        tests.append(("instr(' ' || faults || ' ', ?) > 0", f" {wanted.fault} "))
    if wanted.by is not None:
        tests.append(("by = ?", wanted.by))
    if wanted.case is not None:
        tests.append(("kase = ?", wanted.case))
    return _joined(comparison for comparison, _ in tests), [value for _, value in tests]


def _joined(tests: Iterable[str]) -> str:
    joined = " AND ".join(tests)
    return f"WHERE {joined}" if joined else ""
