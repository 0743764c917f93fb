"""The index: fast, built again by itself whenever it is not right, never the truth."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest

import sootsayer
from sootsayer.documents.problems import Refused
from sootsayer.ledger.adding import add
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.index import Wanted, search
from tests.ledger.making import body, ledger_of

ANY = Wanted()
VERDICT = {
    "faults": [
        {"id": "soot-overload", "kind": "condition", "confidence": 0.9},
        {"id": "sensor-offset", "kind": "measurement", "confidence": 0.2},
    ],
    "none": {"condition": 0.05, "measurement": 0.7, "cause": 0.9},
    "drive_on": {"state": "workshop-only"},
}


def numbers(ledger: Ledger, wanted: Wanted = ANY) -> list[int]:
    return [row.number for row in search(ledger, wanted).rows]


def test_by_date_vehicle_fault_technician_and_case(tmp_path: Path) -> None:
    """Each question finds what it should and nothing else."""
    ledger = ledger_of(tmp_path, 3, verdict=VERDICT)
    add(ledger, body(4, by="tech-2"))
    case = {"id": "van-7", "vehicle": "1.6 L Estate car"}
    add(ledger, body(5, at="2031-05-01T23:30:00-05:00", case=case))
    outcome = {"kind": "outcome", "of": {"number": 1, "digest": "0" * 64}}
    add(ledger, body(6, **outcome, outcome={"faults": ["sensor-offset"]}))
    assert numbers(ledger) == [6, 5, 4, 3, 2, 1]
    assert numbers(ledger, Wanted(by="tech-2")) == [4]
    assert numbers(ledger, Wanted(vehicle="estate")) == [5]
    assert numbers(ledger, Wanted(case="van-7")) == [5]
    assert numbers(ledger, Wanted(fault="soot-overload")) == [3, 2, 1]
    assert numbers(ledger, Wanted(fault="sensor-offset")) == [6]  # led nowhere, was confirmed once
    assert numbers(ledger, Wanted(fault="soot")) == []
    late = time.mktime((2031, 4, 1, 0, 0, 0, 0, 0, -1))
    assert numbers(ledger, Wanted(since=late)) == [5]
    assert numbers(ledger, Wanted(until=late)) == [6, 4, 3, 2, 1]


def test_at_most_so_many_and_how_many_there_are(tmp_path: Path) -> None:
    """The newest come first, and the rest is counted."""
    found = search(ledger_of(tmp_path, 30), ANY, most=5)
    assert [row.number for row in found.rows] == [30, 29, 28, 27, 26]
    assert found.count == 30


def _missing(index: Path) -> None:
    index.unlink()


def _garbage(index: Path) -> None:
    index.write_bytes(b"this is no database " * 100)


def _cut(index: Path) -> None:
    index.write_bytes(index.read_bytes()[: index.stat().st_size // 2])


def _empty(index: Path) -> None:
    index.write_bytes(b"")


def _older(index: Path) -> None:
    with sqlite3.connect(index) as database:
        database.execute("PRAGMA user_version = 1")
        database.execute("DROP TABLE record")
    database.close()


def _rows_gone(index: Path) -> None:
    with sqlite3.connect(index) as database:
        database.execute("DELETE FROM record WHERE number = 2")
    database.close()


def _others(index: Path) -> None:
    with sqlite3.connect(index) as database:
        database.execute("DROP TABLE record")
        database.execute("CREATE TABLE record (x)")
    database.close()


@pytest.mark.parametrize("harm", [_missing, _garbage, _cut, _empty, _older, _rows_gone, _others])
def test_a_harmed_index_is_built_again(harm: object, tmp_path: Path) -> None:
    """Missing, broken, of an older form: the list is the ledger's, and the index is there again."""
    ledger = ledger_of(tmp_path, 40)
    before = search(ledger, ANY)
    harm(ledger.index)  # type: ignore[operator]
    assert search(ledger, ANY) == before
    assert search(ledger, ANY) == before
    assert ledger.index.stat().st_size > 1000


def test_a_grown_ledger_is_read_on(tmp_path: Path) -> None:
    """What was added is found; a ledger that was put in its place is read anew."""
    ledger = ledger_of(tmp_path, 3)
    assert numbers(ledger) == [3, 2, 1]
    add(ledger, body(4))
    assert numbers(ledger) == [4, 3, 2, 1]
    ledger_of(tmp_path, 6, by="tech-9")
    assert {row.by for row in search(ledger, ANY).rows} == {"tech-9"}
    ledger_of(tmp_path, 2)
    assert numbers(ledger) == [2, 1]


def test_what_is_no_record_is_counted_and_the_rest_listed(tmp_path: Path) -> None:
    """A line that cannot be read hides no other; a torn one is not counted."""
    ledger = ledger_of(tmp_path, 5)
    lines = ledger.file.read_bytes().splitlines(keepends=True)
    deep = b"[" * 100_000 + b"\n"
    ledger.file.write_bytes(b"".join([*lines[:2], b"nonsense\n", deep, *lines[3:], b"{torn"]))
    found = search(ledger, ANY)
    assert [row.number for row in found.rows] == [5, 4, 2, 1]
    assert found.unreadable == 2


def test_where_no_index_can_be_written_one_is_made_in_memory(tmp_path: Path) -> None:
    """A folder that takes no file (or has another thing by the index's name) is listed as well."""
    ledger = ledger_of(tmp_path, 5)
    ledger.index.mkdir()
    assert numbers(ledger) == [5, 4, 3, 2, 1]
    assert ledger.index.is_dir()


def test_several_readers_at_once_build_one(tmp_path: Path) -> None:
    """Four that find no index build it without getting in each other's way."""
    ledger = ledger_of(tmp_path, 400)
    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(lambda _: len(numbers(ledger)), range(4)))
    assert found == [400] * 4
    assert len(numbers(ledger)) == 400


def test_an_index_that_somebody_else_has_is_left_to_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Locked for longer than is waited for: listed from memory, and not thrown away under them."""
    monkeypatch.setattr("sootsayer.ledger.index._BUSY_S", 0.01)
    ledger = ledger_of(tmp_path, 5)
    with closing(sqlite3.connect(ledger.index, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        was = ledger.index.stat().st_ino
        assert numbers(ledger) == [5, 4, 3, 2, 1]
        assert ledger.index.stat().st_ino == was
        other.execute("ROLLBACK")
    assert numbers(ledger) == [5, 4, 3, 2, 1]


def test_without_a_ledger_nothing_is_made(tmp_path: Path) -> None:
    """A folder without a ledger is told, and stays as it is."""
    with pytest.raises(Refused):
        search(ledger_in(tmp_path), ANY)
    assert list(tmp_path.iterdir()) == []


def seconds_of_list(folder: Path, *options: str) -> float:
    """The processor's seconds that the command takes, its start included."""
    code = (
        "import sys, time; from sootsayer.commands.main import main; "
        f"code = main(['records', 'list', '--ledger', {str(folder)!r}, *{options!r}]); "
        "print(time.process_time(), code, file=sys.stderr)"
    )
    source = str(Path(sootsayer.__file__).parents[1])
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        env={"PYTHONPATH": source, "PATH": ""},
    )  # fmt: skip
    seconds, exit_code = done.stderr.split()
    assert exit_code == "0"
    assert done.stdout.count("\n") > 20
    return float(seconds)


@pytest.mark.slow
def test_a_hundred_thousand_records_in_under_a_second(tmp_path: Path) -> None:
    """Of 100,000 records the newest, all of them, those with a fault, and JSON: each in less than
    a second once the index is there."""
    ledger_of(tmp_path, 100_000, verdict=VERDICT)
    seconds_of_list(tmp_path)  # builds the index
    for options in ((), ("--all",), ("--all", "--json"), ("--fault", "soot-overload", "--all")):
        taken = min(seconds_of_list(tmp_path, *options) for _ in range(3))
        assert taken < 1.0, (options, taken)


def test_ten_thousand_records_in_a_moment(tmp_path: Path) -> None:
    """Of 10,000 records all are listed in less than half a second."""
    ledger_of(tmp_path, 10_000, verdict=VERDICT)
    seconds_of_list(tmp_path)
    assert min(seconds_of_list(tmp_path, "--all") for _ in range(3)) < 0.5
