"""Reading a live-data log, beside Python's csv module merely reading the same file."""

from __future__ import annotations

import csv
import tempfile
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from sootsayer.casework.logs.read import Settings, read_log
from tests.bench.clock import of_calls, row
from tests.casework.logs.making_logs import NAMES, cells, drive

ROWS = 100_000


def rows(turns: int) -> list[str]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "long.csv"
        with file.open("w", encoding="utf-8") as out:
            out.writelines(islice(_lines(), ROWS + 1))
        assert read_log(file, Settings()).rows == _by_csv(file) == ROWS
        ours, theirs = of_calls(
            [lambda: read_log(file, Settings()), lambda: _by_csv(file)], min(turns, 3)
        )
    return [
        row(f"log of {ROWS:,} rows of 8 : csv module, nothing else done", ours, theirs),
        f"  rows per second: {ROWS / ours:,.0f}, csv module {ROWS / theirs:,.0f}",
    ]


def _by_csv(file: Path) -> int:
    with file.open(encoding="utf-8", newline="") as stream:
        return sum(1 for _ in csv.reader(stream)) - 1


def _lines() -> Iterator[str]:
    """The drive of the demonstration over and over, ten rows a second."""
    yield ",".join(NAMES) + "\n"
    once = [",".join(cells(each)[1:]) for each in drive(rate=10.0)]
    number = 0
    while True:
        for line in once:
            yield f"{number / 10:.1f},{line}\n"
            number += 1
