"""Run as a program: writers of one case that are killed, or that write at once.

Writers are forked from this process, which has no threads, so that a death costs milliseconds
and not a start of Python. The result is one JSON object on stdout.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from random import Random

from sootsayer.casework.append import append_entry, entry_line
from tests.forked_writers import forked, heard

HEADER = "case: x\nformat: 1\nvehicle: {label: 2.0 L panel van}\nentries:\n"
TORN = b"- {at: 2031-03-14T09:02+01:00, by: tech-1, no"
AT = datetime(2031, 3, 14, 8, 2, tzinfo=UTC)


def line(writer: str, number: int) -> str:
    """The entry that a writer makes as its `number`th."""
    return entry_line(at=AT, by=writer, note=f"{writer} {number} " + "x" * (number % 300))


def _write(path: Path, writer: str, count: int, told: int) -> None:
    """Append entries, saying of each when it is acknowledged."""
    for number in range(count):
        append_entry(path, line(writer, number))
        os.write(told, f"{writer} {number}\n".encode())


def _forked(path: Path, writer: str, count: int) -> tuple[int, int]:
    """A writer in a process of its own: its id, and where it says what is acknowledged."""
    return forked(lambda told: _write(path, writer, count, told))


def together(path: Path, count: int) -> dict[str, object]:
    """Two writers append `count` entries each at once."""
    path.write_text(HEADER, encoding="utf-8")
    writers = [_forked(path, name, count) for name in ("tech-1", "tech-2")]
    told = [heard(reading) for _, reading in writers]
    codes = [os.waitpid(process, 0)[1] for process, _ in writers]
    return {"acknowledged": told, "codes": codes}


def killed(path: Path, times: int) -> dict[str, object]:
    """A writer is killed at so many random moments; every third time it finds a torn line."""
    path.write_text(HEADER, encoding="utf-8")
    random, acknowledged, alive, torn = Random(11), list[str](), 0, 0
    for i in range(times):
        if i % 3 == 0:
            with path.open("ab") as stream:
                stream.write(TORN)
        process, reading = _forked(path, f"w{i}", 10_000)
        early = b"" if i % 5 == 0 else os.read(reading, 1)  # else it has begun to write
        time.sleep(random.uniform(0.0, 0.02))
        os.kill(process, signal.SIGKILL)
        status = os.waitpid(process, 0)[1]
        alive += os.WIFSIGNALED(status)
        acknowledged += heard(reading, early)
        torn += not path.read_bytes().endswith(b"\n")
    return {"acknowledged": acknowledged, "killed": alive, "torn": torn}


if __name__ == "__main__":
    how, where, number = sys.argv[1:]
    run = {"together": together, "killed": killed}[how]
    print(json.dumps(run(Path(where), int(number))))
