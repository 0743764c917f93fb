"""Who has a file open for a whole session, so that a second person is told, and can take over.

A file `.NAME.open` beside it says who and carries a token; a lock of that token's own is held as
long as the session lives, so that what a killed session left behind is known for what it is.
Taking over writes another token; whoever was there finds out before the next write.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from sootsayer.documents.locking import Busy, locked
from sootsayer.documents.writing import CannotWrite, reason_of, replace_file

_LONGEST = 2000


@dataclass(frozen=True, slots=True)
class Holder:
    """Who holds a file: as they called themselves, since when, and the token of their session."""

    who: str
    since: str
    token: str


def holder_of(path: Path) -> Holder | None:
    """Who holds the file now; None where nobody does, or whoever did is gone."""
    written = _written(path)
    if written is None or not _lives(path, written.token):
        return None
    return written


@contextmanager
def held(path: Path, who: str, since: str) -> Iterator[Holder]:
    """Holds the file until the end of the block, taking it over from whoever holds it.

    Raises CannotWrite where the folder takes no file.
    """
    mine = Holder(who, since, os.urandom(8).hex())
    lock = ExitStack()
    try:
        lock.enter_context(locked(_lock_name(path, mine.token), longest_wait_s=0))
        text = {"who": who, "since": since, "token": mine.token}
        replace_file(_open_name(path), json.dumps(text) + "\n")
    except OSError as error:
        lock.close()
        raise CannotWrite(path, reason_of(error)) from error
    except CannotWrite as error:
        lock.close()
        raise CannotWrite(path, error.why) from error
    with lock:
        try:
            yield mine
        finally:
            _let_go(path, mine.token)


def still_holds(path: Path, mine: Holder) -> Holder | None:
    """None while the file is still ours; else who has taken it over."""
    written = _written(path)
    return None if written is None or written.token == mine.token else written


def _let_go(path: Path, token: str) -> None:
    written = _written(path)
    if written is not None and written.token == token:
        with suppress(OSError):
            _open_name(path).unlink()


def _written(path: Path) -> Holder | None:
    try:
        with _open_name(path).open(encoding="utf-8") as stream:
            told = json.loads(stream.read(_LONGEST))
        return Holder(str(told["who"]), str(told["since"]), _plain(str(told["token"])))
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _plain(token: str) -> str:
    if not token.isalnum() or not token.isascii() or len(token) > 40:
        raise ValueError("no token")
    return token


def _lives(path: Path, token: str) -> bool:
    """Whether the session with this token still runs: its lock cannot be taken."""
    try:
        with locked(_lock_name(path, token), longest_wait_s=0):
            return False
    except Busy:
        return True
    except OSError:
        return False  # nothing can be locked here; whoever wrote it is not to be found out


def _open_name(path: Path) -> Path:
    return path.with_name(f".{path.name}.open")


def _lock_name(path: Path, token: str) -> Path:
    return path.with_name(f"{path.name}.{token}")
