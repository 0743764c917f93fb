"""Run as a program: writers of one ledger that write at once, or that are killed.

Writers are forked from this process, which has no threads. The result is one JSON object.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import time
from pathlib import Path
from random import Random

from sootsayer.ledger.adding import add
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.kept import keep_texts
from tests.forked_writers import forked, heard
from tests.ledger.making import PACK, body

TORN = b'{"body":{"at":"2031-03-14T09:00:01+01:00","by":"tech-1","ca'


def _write(folder: Path, writer: str, count: int, told: int) -> None:
    """Add records, saying of each when it is acknowledged, with its digest."""
    for number in range(count):
        made = body(number, writer=writer, filling="x" * (number * 37 % 9000))
        added = add(ledger_in(folder), made)
        os.write(told, f"{writer} {number} {added.digest}\n".encode())


def _forked(folder: Path, writer: str, count: int) -> tuple[int, int]:
    """A writer in a process of its own: its id, and where it says what is acknowledged."""
    return forked(lambda told: _write(folder, writer, count, told))


def together(folder: Path, writers: int, count: int) -> dict[str, object]:
    """So many writers add so many records each at once."""
    keep_texts(ledger_in(folder), [PACK])
    started = [_forked(folder, f"w{number}", count) for number in range(writers)]
    told = [heard(reading) for _, reading in started]
    codes = [os.waitpid(process, 0)[1] for process, _ in started]
    return {"acknowledged": told, "codes": codes}


def killed(folder: Path, times: int, _: int) -> dict[str, object]:
    """A writer is killed at so many random moments; every third time it finds a torn line."""
    ledger = ledger_in(folder)
    keep_texts(ledger, [PACK])
    random, acknowledged, dead, torn = Random(13), list[str](), 0, 0
    for i in range(times):
        if i % 3 == 0:
            with ledger.file.open("ab") as stream:
                stream.write(TORN)
        process, reading = _forked(folder, f"w{i}", 10_000)
        early = b"" if i % 5 == 0 else os.read(reading, 1)  # else it has begun to write
        time.sleep(random.uniform(0.0, 0.03))
        os.kill(process, signal.SIGKILL)
        dead += os.WIFSIGNALED(os.waitpid(process, 0)[1])
        acknowledged += heard(reading, early)
        torn += not ledger.file.read_bytes().endswith(b"\n")
    return {"acknowledged": acknowledged, "killed": dead, "torn": torn}


if __name__ == "__main__":
    how, where, first, second = sys.argv[1:]
    run = {"together": together, "killed": killed}[how]
    print(json.dumps(run(Path(where), int(first), int(second))))
