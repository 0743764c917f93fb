"""What is no log, or a bad one, is refused in plain words with its place; nothing crashes."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sootsayer.casework.logs.about import other_vehicle
from sootsayer.casework.model import Vehicle
from sootsayer.documents.problems import Problem, Refused
from tests.casework.logs.making_logs import IDLE, NAMES, cells, drive, text
from tests.casework.logs.support import NAME, read, refusal, told

ROWS = list(drive((IDLE,)))
HEAD = ",".join(NAMES)
FROZEN = "\n".join([HEAD] + [f"{i},800,14.5,48,150,88,0,0" for i in range(60)]) + "\n"
PICTURE = b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20
BINARY = random.Random(5).randbytes(5000)


@pytest.mark.parametrize(
    ("content", "line", "what", "instead"),
    [
        ("", 1, "empty", "record it again"),
        ("\n\n   \n", 1, "empty", "record it again"),
        (b"\x00\x00\xfe\xff", 1, "empty", "record it again"),
        (HEAD, 1, "has no rows", "record it again"),
        (HEAD + "\n\n\n", 1, "has no rows", "record it again"),
        (HEAD + "\n" + ",".join(cells(ROWS[0])) + "\n", 1, "one row", "record longer"),
        ("rpm,Differential pressure [mbar]\n800,12\n801,13\n", 1, "no column of time",
         "--column time="),
        ("Time [s],Gear,Colour\n0,1,3\n1,2,4\n", 1, "no column was recognised but the time",
         "--column engine-speed="),
        ("Time [s],Coolant [°C]\n0,88\n1,88\n", 1, "no column of engine speed",
         "--column engine-speed="),
        ("Time [s],rpm\nnever,800\nlater,801\n", 1, "holds no time", "--column time="),
        ("Time [s],rpm\n" + "5,800\n" * 50, 1, "time never moves", "--column time="),
        (FROZEN, 1, "the log is frozen", "watch that the figures move"),
        ("0,800,12\n1,801,13\n2,802,14\n", 1, "no line names the columns", "a line of names"),
        ("Once upon a time\nthere was a van\n", 1, "no line is cut into columns", "CSV"),
        (";".join(f"c{i}" for i in range(200_000)) + "\n" + "1;" * 199_999 + "1\n", 1,
         "200,000 columns", "only the channels that are needed"),
        ("Time [s],rpm,Differential pressure [mbar]\n" + "0,0,800,0,14,5\n" * 30, 2,
         "commas are decimals and separators at once", "semicolons or tabs"),
        (PICTURE, 1, "PNG picture", "CSV"),
        (b"\xff\xd8\xff\xe0" + BINARY, 1, "JPEG picture", "CSV"),
        (b"PK\x03\x04" + BINARY, 1, "packed file", "CSV"),
        (BINARY, None, "binary file", "CSV"),
        (text(ROWS).encode() [:900] + b"\x00\x01\x02" + b"rest", None, "binary file", "CSV"),
    ],
)  # fmt: skip
def test_refused(
    content: str | bytes, line: int | None, what: str, instead: str, tmp_path: Path
) -> None:
    """Each bad log is refused with its place, what is wrong, and what to do next."""
    problem = refusal(tmp_path, content)
    assert what in problem.what
    assert instead in problem.instead
    assert problem.place.file == NAME
    assert line is None or problem.place.line == line


def test_nothing_is_read_as_a_number_that_is_none(tmp_path: Path) -> None:
    """A column of words where numbers belong is told of and gives nothing."""
    lines = [HEAD] + [",".join([*cells(row)[:2], "high", *cells(row)[3:]]) for row in ROWS]
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert 'dp: 140 cells are no numbers, the first "high"' in told(log)
    assert all("dp" not in window.channels for window in log.windows)
    place = next(p.place for p in log.warnings if p.what.startswith("dp"))
    assert (place.line, place.column) == (2, len(",".join(cells(ROWS[0])[:2])) + 2)


def test_ragged_rows_and_repeated_names(tmp_path: Path) -> None:
    """Short rows and names that stand again are left out, counted, and placed."""
    lines = text(ROWS).splitlines()
    lines[10] = "5,800"
    lines.insert(20, HEAD)
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert "drive.csv:11:1: 1 row has too few cells" in told(log)
    assert "drive.csv:21:1: the names of the columns stand here again" in told(log)
    assert log.rows == len(ROWS) - 1


def test_mixed_line_ends_are_told(tmp_path: Path) -> None:
    """Lines that end in different ways are all read, and it is said."""
    log = read(tmp_path, text(ROWS).replace("\n", "\r\n", 5))
    assert log.rows == len(ROWS)
    assert "end in different ways" in told(log)


def test_an_open_quote_swallows_nothing(tmp_path: Path) -> None:
    """A quote that is never closed spoils its own line only."""
    lines = text(ROWS).splitlines()
    lines[30] = '"' + lines[30]
    lines[40] = lines[40].replace(",", ',a"b,"', 1)
    assert read(tmp_path, "\n".join(lines) + "\n").rows >= len(ROWS) - 2


@pytest.mark.parametrize(
    ("above", "vehicle", "what"),
    [
        (["Engine: 3.0 L"], Vehicle("van", engine_litres=2.0), "of an engine of 3.00 L"),
        (["Hubraum;1968 ccm"], Vehicle("van", engine_litres=2.0), ""),
        (["Cylindrée;1560 cm3"], Vehicle("van", engine_litres=2.0), "1.56 L"),
        (["Odometer;84 012 km"], Vehicle("van", odometer_km=84_000), ""),
        (["Odometer;84 012 km"], Vehicle("van", odometer_km=84_100), "84,012 km"),
        (["Kilometerstand: 123.456 km"], Vehicle("van", odometer_km=84_000), "123,456 km"),
        (["Odometer;84 012 km", "Engine;2.0 L"], Vehicle("van"), ""),
    ],
)
def test_another_vehicle(above: list[str], vehicle: Vehicle, what: str, tmp_path: Path) -> None:
    """Odometer or displacement that disagree with the case are warned of."""
    log = read(tmp_path, text(ROWS, above=above, delimiter=";"))
    found = other_vehicle(log, vehicle)
    assert len(found) == (1 if what else 0)
    assert all(what in p.what and "another vehicle" in p.instead for p in found)


def test_another_vehicle_by_a_column(tmp_path: Path) -> None:
    """The odometer may be a channel of the log."""
    lines = [HEAD.replace(NAMES[7], "Odometer [km]")]
    lines += [",".join([*cells(row)[:7], "150000"]) for row in ROWS]
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert log.odometer == 150_000
    assert other_vehicle(log, Vehicle("van", odometer_km=84_000))


SHARED = [HealthCheck.function_scoped_fixture]  # one folder, one file, written over each time
LOG = text(ROWS[:40], delimiter=";").encode()


@given(
    edits=st.lists(
        st.tuples(st.integers(0, len(LOG)), st.integers(0, 12), st.binary(max_size=12)),
        min_size=1, max_size=12,
    )
)  # fmt: skip
@settings(deadline=None, max_examples=120, suppress_health_check=SHARED)
def test_damaged_logs(edits: list[tuple[int, int, bytes]], tmp_path: Path) -> None:
    """A log damaged anywhere is read or refused with a place, and never crashes."""
    data = LOG
    for at, cut, put in edits:
        data = data[:at] + put + data[at + cut :]
    _read_or_refused(tmp_path, data)


@given(
    content=st.text(
        alphabet="0123456789,;\t.:-/ \n\"'TimeszrpmDdifferentialpressure[]()°\r\x1a\u202e",
        max_size=600,
    )
)
@settings(deadline=None, max_examples=120, suppress_health_check=SHARED)
def test_any_text(content: str, tmp_path: Path) -> None:
    """Any text at all is read or refused with a place."""
    _read_or_refused(tmp_path, content.encode())
    _read_or_refused(tmp_path, b"Time [s];rpm;Differential pressure [mbar]\n" + content.encode())


@given(data=st.binary(max_size=400))
@settings(deadline=None, max_examples=100, suppress_health_check=SHARED)
def test_any_bytes(data: bytes, tmp_path: Path) -> None:
    """Any bytes at all are read or refused with a place."""
    _read_or_refused(tmp_path, data)
    _read_or_refused(tmp_path, LOG[:300] + data)


def _read_or_refused(folder: Path, data: bytes) -> None:
    problems: tuple[Problem, ...] = ()
    log = None
    try:
        log = read(folder, data, traced=True)
    except Refused as refused:
        problems = refused.problems
    assert (log is None) == bool(problems)
    assert all(p.place.line >= 1 and p.what and p.instead for p in problems)
    if log is not None:
        assert log.rows >= 2
        assert all(w.begins <= w.ends <= log.length + 1e-6 for w in log.windows)
