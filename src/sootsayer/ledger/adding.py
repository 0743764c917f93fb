"""Adding a record: under a lock, behind the last whole line, on the disk before it is acknowledged.

Only what a dead writer left unfinished is ever taken away, and it is set aside first.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.catalogue import say
from sootsayer.documents.locking import locked
from sootsayer.documents.writing import (
    append_bytes,
    behind_links,
    plain_words,
    set_aside,
    status_of,
)
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.folder import Ledger, prepared, refused
from sootsayer.ledger.model import Line
from sootsayer.ledger.seal import NOTHING_BEFORE, OtherFormat, Unfit, line_of, read_line
from sootsayer.ledger.tail import Tail, tail_of

LONGEST_WAIT_S = 60.0  # many writers at once take turns, and each flushes to the disk


@dataclass(frozen=True, slots=True)
class Added:
    """A record that is on the disk. `digest` is the head of the ledger now.

    `torn`: how many bytes of an unfinished line were set aside; `later`: the moment of the record
    before where the clock has run backwards since, else "".
    """

    number: int
    digest: str
    torn: int = 0
    later: str = ""


def add(ledger: Ledger, body: Mapping[str, object]) -> Added:
    """Append a record with this body and return once it is on the disk.

    Raises CannotWrite (nothing was added) and Refused: the last record does not fit its digest, is
    of another format, or this is an export.
    """
    data = canonical(body)
    if ledger.is_export:
        what = say("this is an export, and nothing is added to a copy")
        raise refused(ledger, what, say("name the ledger's own folder"))
    prepared(ledger.folder)
    with plain_words(ledger.file):
        real = behind_links(ledger.file)
        with locked(real, LONGEST_WAIT_S):
            is_new = status_of(real, ledger.file) is None
            tail = Tail(b"", 0, b"") if is_new else _tail(real)
            last = _last(ledger, tail)
            if tail.torn:
                _mend(real, tail)
            number, previous = (last.number + 1, last.digest) if last else (1, NOTHING_BEFORE)
            line, digest = line_of(data, number, previous)
            append_bytes(real, line + b"\n", is_new=is_new)
    return Added(number, digest, len(tail.torn), _later(last, body))


def head_of(ledger: Ledger) -> Line | None:
    """The last whole record; None where there is none yet. Raises Refused and OSError."""
    if not ledger.exists():
        return None
    return _last(ledger, _tail(ledger.file))


def _tail(real: Path) -> Tail:
    with real.open("rb") as stream:
        return tail_of(stream)


def _last(ledger: Ledger, tail: Tail) -> Line | None:
    if not tail.end:
        return None
    try:
        return read_line(tail.line)
    except OtherFormat as other:
        what = say(
            "the last record has format {format}, which is not known here", format=other.format
        )
        instead = say("use the version of this program that wrote it")
        raise refused(ledger, what, instead, _line_number(ledger, tail)) from None
    except Unfit as unfit:
        what = say("the last record does not hold: {why}", why=unfit)
        instead = say("nothing is added behind it; see what is wrong: sootsayer records verify")
        raise refused(ledger, what, instead, _line_number(ledger, tail)) from None


def _line_number(ledger: Ledger, tail: Tail) -> int:
    with ledger.file.open("rb") as stream:
        return stream.read(tail.end).count(b"\n")


def _mend(real: Path, tail: Tail) -> None:
    """Set the unfinished line aside, then cut it off; what was whole is not touched."""
    set_aside(real, tail.torn)
    with real.open("r+b") as stream:
        stream.truncate(tail.end)
        stream.flush()
        os.fsync(stream.fileno())


def _later(last: Line | None, body: Mapping[str, object]) -> str:
    before = last.opened().get("at") if last else None
    try:
        if isinstance(before, str) and read_moment(before) > read_moment(str(body.get("at"))):
            return before
    except MomentRefused:
        pass
    return ""
