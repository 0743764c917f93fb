"""One writer at a time for one file, among processes and threads."""

from __future__ import annotations

import errno
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

LONGEST_WAIT_S = 10.0
_PAUSE_S = 0.01
_BUSY = (errno.EACCES, errno.EAGAIN, errno.EDEADLK)


class Busy(Exception):  # noqa: N818 (a state of the file, not a mistake)
    """Another writer kept the file for longer than anyone should wait."""


if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> None:
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def locked(path: Path, longest_wait_s: float | None = None) -> Iterator[None]:
    """Holds `.NAME.lock` beside `path`; the system frees it when the process dies.

    The file itself cannot carry the lock: a rename puts another file in its place.
    Raises `Busy` after `longest_wait_s` (default 10), `OSError` where no lock can be made.
    """
    beside = path.with_name(f".{path.name}.lock")
    wait = LONGEST_WAIT_S if longest_wait_s is None else longest_wait_s
    deadline = time.monotonic() + wait
    descriptor = _acquire(beside, deadline)
    try:
        yield
    finally:
        # Removed while still held, so that nobody's lock is removed but our own. Windows
        # does not let go of an open file; there it stays, empty and harmless.
        with suppress(OSError):
            beside.unlink()
        os.close(descriptor)


def _acquire(beside: Path, deadline: float) -> int:
    while True:
        descriptor = os.open(beside, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o666)
        try:
            _take(descriptor)
            if _is_still_there(descriptor, beside):
                return descriptor
        except OSError as error:
            if error.errno not in _BUSY:
                os.close(descriptor)
                raise
        # Taken by another, or removed by its last holder between our opening and locking.
        os.close(descriptor)
        if time.monotonic() >= deadline:
            raise Busy
        time.sleep(_PAUSE_S)


def _is_still_there(descriptor: int, beside: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(descriptor), beside.stat())
    except FileNotFoundError:
        return False
