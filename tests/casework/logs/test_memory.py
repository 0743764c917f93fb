"""Big logs stream in flat memory: measured in processes of their own with a limit on memory."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

resource = pytest.importorskip("resource")

LIMIT = 700 << 20
"""Bytes of address space; Python with what is imported takes some 200 MB of it."""
_CHILD = """
import resource, sys
resource.setrlimit(resource.RLIMIT_AS, ({limit}, {limit}))
from pathlib import Path
from sootsayer.casework.logs.read import Settings, read_log
from sootsayer.documents.problems import Refused
from sootsayer.documents.report_problems import problem_lines
try:
    log = read_log(Path(sys.argv[1]), Settings(traced=True))
    print(log.rows, len(log.windows))
except Refused as refused:
    print(problem_lines(refused.problems)[0][-200:])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def run(file: Path) -> tuple[str, int]:
    """What a limited process says of the log, and its greatest memory in KB."""
    done = subprocess.run(
        [sys.executable, "-c", _CHILD.format(limit=LIMIT), str(file)],
        capture_output=True, text=True, timeout=300, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    said, memory = done.stdout.splitlines()
    return said, int(memory)


def rows_of(file: Path, count: int) -> None:
    with file.open("w", encoding="utf-8") as out:
        out.write("Time [s],rpm,Differential pressure [mbar],Air mass [kg/h],Coolant [°C]\n")
        for i in range(count):
            out.write(f"{i / 10},{800 + i % 7},{14 + i % 3}.5,{48 + i % 2},88\n")


def test_memory_does_not_grow_with_rows(tmp_path: Path) -> None:
    """Ten times the rows take no more memory."""
    small, large = tmp_path / "small.csv", tmp_path / "large.csv"
    rows_of(small, 20_000)
    rows_of(large, 200_000)
    said_small, memory_small = run(small)
    said_large, memory_large = run(large)
    assert (said_small, said_large) == ("20000 1", "200000 1")
    assert memory_large < memory_small + 6_000


def test_a_line_of_a_gigabyte(tmp_path: Path) -> None:
    """One line of 1 GiB is refused after its beginning, within the limit."""
    file = tmp_path / "line.csv"
    with file.open("wb") as out:
        for _ in range(16):
            out.write(b"1,2;" * (1 << 20))
        out.truncate(1 << 30)  # sparse: nobody writes a gigabyte for a test
    said, _ = run(file)
    assert "longer than 4,000,000 characters" in said


def test_a_later_line_of_a_gigabyte(tmp_path: Path) -> None:
    """The same after rows that are right."""
    file = tmp_path / "later.csv"
    rows_of(file, 30_000)
    with file.open("ab") as out:
        out.write(b"1" * (8 << 20))
        out.truncate(1 << 30)
    said, _ = run(file)
    assert "later.csv:30002:1: this line is longer" in said


def test_two_hundred_thousand_columns(tmp_path: Path) -> None:
    """Many columns over many rows are refused at the first."""
    file = tmp_path / "wide.csv"
    with file.open("w", encoding="utf-8") as out:
        out.write(",".join(f"channel {i}" for i in range(200_000)) + "\n")
        for _ in range(20):
            out.write("1.5," * 199_999 + "1.5\n")
    said, _ = run(file)
    assert "200,000 columns" in said
