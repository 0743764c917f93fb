"""Killed by SIGKILL at random moments: nothing acknowledged is lost, and the case opens."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer.casework.case_file import case_of
from sootsayer.casework.no_entries import parse_case
from sootsayer.commands.main import main
from tests.commands.asking.run import ROOT, environment
from tests.commands.asking.support import rulebook

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="it forks")


def killed(count: int, seed: int, folder: Path) -> list[dict[str, object]]:
    """What each of so many sessions had acknowledged, and the file it left."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.commands.asking.killed", str(count), str(seed), str(folder)],
        capture_output=True, text=True, env=environment(), cwd=ROOT, timeout=400, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def nothing_lost(count: int, seed: int, folder: Path) -> None:
    told = killed(count, seed, folder)
    assert len(told) == count
    acknowledged = 0
    for one in told:
        file = str(one["file"])
        case = case_of(parse_case(file.encode(), "van.yaml"), rulebook().model)
        assert isinstance(one["acknowledged"], list)
        for entry, value in one["acknowledged"]:
            said = case.entries[entry - 1].said
            assert [(each.slot, each.typed) for each in said] == [("dp@idle", f"{value} mbar")]
            acknowledged += 1
    assert acknowledged > count  # else they died before they lived, and nothing was tried


def test_forty_sessions(tmp_path: Path) -> None:
    """Whatever was acknowledged stands in the file under the number that was said."""
    nothing_lost(40, 6, tmp_path)


@pytest.mark.slow
def test_two_hundred_sessions(tmp_path: Path) -> None:
    """The same, many times."""
    nothing_lost(200, 1, tmp_path)


def test_a_killed_session_is_gone_on_with(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What a killed session leaves beside the case keeps nobody from it."""
    killed(3, 2, tmp_path)
    assert any(".open" in file.name for file in tmp_path.iterdir())
    assert main(["ask", str(tmp_path / "van.yaml"), "--sheet"]) == 0
    answers = tmp_path / "more.txt"
    answers.write_text("dp@rest 1 mbar\n", encoding="utf-8")
    assert main(["ask", str(tmp_path / "van.yaml"), "--answers", str(answers)]) == 0
    assert "dp@rest 1 mbar: written" in capsys.readouterr().out
