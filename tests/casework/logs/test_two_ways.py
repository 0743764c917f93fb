"""Logs whose numbers can be read in two ways: the log itself tells, or a person is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.logs.cells import is_doubtful, number
from sootsayer.casework.logs.model import Log
from sootsayer.casework.logs.read import Settings, read_log
from sootsayer.commands.main import main
from tests.casework.logs.support import NAME, read, refusal, told

HEAD = "Time [s];Engine speed [rpm];Differential pressure [mbar]"


def log_of(*rpm: str, dp: tuple[str, ...] = ("24", "25")) -> str:
    """A minute at one speed, its numbers written so, in turn, for nothing stands quite still."""
    rows = (f"{i};{rpm[i % len(rpm)]};{dp[i % len(dp)]}" for i in range(60))
    return "\n".join([HEAD, *rows]) + "\n"


def said(folder: Path, content: str, decimals: bool) -> Log:
    """The log, where somebody said which mark its decimals have."""
    file = folder / NAME
    file.write_text(content, encoding="utf-8")
    return read_log(file, Settings(decimals=decimals), shown_as=NAME)


def speed(log: Log) -> float:
    return log.windows[0].channels["engine-speed"].mean


def test_nothing_tells_so_it_is_asked(tmp_path: Path) -> None:
    """Only `2,500` and whole numbers: the log is refused, with its place and what to say."""
    problem = refusal(tmp_path, log_of("2,500", "2,510"))
    assert '"2,500"' in problem.what
    assert "two ways" in problem.what
    assert "--decimals comma, or --decimals point" in problem.instead
    assert problem.place.line == 2


def test_somebody_said_so(tmp_path: Path) -> None:
    """With a point for decimals it is two thousand five hundred; with a comma two and a half."""
    assert speed(said(tmp_path, log_of("2,500", "2,510"), False)) == pytest.approx(2505.0)
    assert speed(said(tmp_path, log_of("2500,250", "2500,750"), True)) == pytest.approx(2500.5)


def test_decimal_commas_elsewhere_tell(tmp_path: Path) -> None:
    """Where the log writes `24,5` a comma is its decimal mark, before three digits too."""
    log = read(tmp_path, log_of("2500,125", "2500,375", dp=("24,500",)))
    assert log.windows[0].channels["dp"].mean == 24.5


def test_decimal_points_elsewhere_leave_a_doubt(tmp_path: Path) -> None:
    """Where it writes `24.5`, `1,013` is left out and told of, with what to say."""
    lines = [HEAD + ";Exhaust temperature before filter [°C]"]
    lines += [f"{second};{2500 + second % 3};24.5;1,013" for second in range(60)]
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert "exhaust-temperature" not in log.windows[0].channels
    assert '60 cells can be read in two ways, the first "1,013"' in told(log)
    assert "--decimals point" in told(log)


def test_a_cell_with_its_unit_is_no_surer(tmp_path: Path) -> None:
    """`1,500 mbar` beside its unit is as doubtful as alone; `24,5 mbar` is not."""
    speeds = ("2500.5", "2501.5")
    log = read(tmp_path, log_of(*speeds, dp=("1,500 mbar",)))
    assert "dp" not in log.windows[0].channels
    assert 'the first "1,500 mbar"' in told(log)
    log = read(tmp_path, log_of(*speeds, dp=("24,5 mbar",)))
    assert log.windows[0].channels["dp"].mean == 24.5


@pytest.mark.parametrize(
    ("text", "comma", "parted", "value"),
    [
        ("1,500", True, False, 1.5),
        ("1,500", False, False, None),
        ("1,500", False, True, 1500.0),
        ("1,500.5", False, True, 1500.5),
        ("1,50", False, True, None),
        ("1\u202f500,5", True, False, 1500.5),
        ("1\u00a0500", False, False, 1500.0),
        ("-1,500", False, True, -1500.0),
    ],
)
def test_one_cell(text: str, comma: bool, parted: bool, value: float | None) -> None:
    """A cell by itself, as the log's own mark or somebody's word has it."""
    assert number(text, comma, parted=parted) == value


@pytest.mark.parametrize(("text", "doubtful"), [
    ("1,500", True), ("-12,500", True), ("1,500 mbar", True), ("0,500", False), ("1500,123", False),
    ("1,50", False), ("1.500", False), ("1,500,000", False), ("high", False), ("", False),
])  # fmt: skip
def test_what_is_doubtful(text: str, doubtful: bool) -> None:
    """One comma, one to three digits before it that do not begin with nought, three behind it."""
    assert is_doubtful(text) is doubtful


def test_the_option(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`--decimals point` reads the log that was refused before."""
    file = tmp_path / NAME
    file.write_text(log_of("2,500", "2,510"), encoding="utf-8")
    assert main(["readings", str(file)]) == 2
    assert "--decimals" in capsys.readouterr().err
    assert main(["readings", str(file), "--decimals", "point"]) == 0
    assert "2505 rpm" in capsys.readouterr().out
