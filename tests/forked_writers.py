"""Writers in processes of their own, for tests that let several write at once or kill one.

They are forked from a process without threads; a writer says into a pipe what is acknowledged.
"""

from __future__ import annotations

import os
from collections.abc import Callable


def forked(write: Callable[[int], None]) -> tuple[int, int]:
    """Runs `write` (it gets where to tell) in a process of its own: its id, and where to listen."""
    reading, told = os.pipe()
    process = os.fork()
    if process == 0:
        code = 1
        try:
            os.close(reading)
            write(told)
            code = 0
        finally:
            os._exit(code)
    os.close(told)
    return process, reading


def heard(reading: int, early: bytes = b"") -> list[str]:
    """Every whole line that was told, after what was read `early`."""
    with os.fdopen(reading, "rb") as stream:
        return [one.decode() for one in (early + stream.read()).split(b"\n")[:-1]]
