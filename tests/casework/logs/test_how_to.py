"""The how-to on logs: its commands run, and its numbers are the program's."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest

from sootsayer.casework.logs.steady import LEAST, SETTLE
from sootsayer.commands.main import main
from sootsayer.rulebook.shipped import shipped_cases

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "how-to" / "read-a-log.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ sootsayer (.*)$", PAGE, re.MULTILINE)


def test_there_are_commands() -> None:
    """The page shows commands, so that the next test has something to run."""
    assert len(COMMANDS) > 3


@pytest.mark.parametrize("command", COMMANDS)
def test_commands_run(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each command of the page does what it is shown for."""
    shutil.copytree(ROOT / "cases" / "logs", tmp_path / "cases" / "logs")
    shutil.copy(shipped_cases() / "sensor-offset.yaml", tmp_path / "my-case.yaml")
    monkeypatch.chdir(tmp_path)
    assert main(shlex.split(command)) == 0


@pytest.mark.parametrize("point", ["rest", "idle", "road"])
def test_table_of_windows(point: str) -> None:
    """What is left out and what must follow stand in the table as they are."""
    row = next(line for line in PAGE.splitlines() if line.startswith(f"| {point}"))
    assert f"| {SETTLE[point]:.0f} s | {LEAST[point]:.0f} s |" in row
