"""The how-to on reports: its commands run, and it names the parts of the customer's sheet."""

from __future__ import annotations

import io
import re
import shlex
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.report import customer_texts as t

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "how-to" / "hand-over-a-report.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ sootsayer (.*)$", PAGE, re.MULTILINE)


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("command", COMMANDS)
def test_commands_run(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each command of the page does what it is shown for."""
    monkeypatch.chdir(tmp_path)
    assert len(COMMANDS) == 2
    assert main(shlex.split(command)) == 0


def test_every_part_is_explained() -> None:
    """Each heading of the customer's sheet has its row."""
    for part in (t.DRIVE, t.WRONG, t.SURE, t.DONE, t.COST, t.KEEP, t.BACK, t.NOT_CHECKED):
        assert f"| {part} |" in PAGE


def test_what_was_written_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nobody has to look whether the file is there."""
    monkeypatch.chdir(tmp_path)
    assert main(["report", "estate-before-and-after", "-o", "report.html"]) == 0
    assert capsys.readouterr().out == "Written: report.html\n"
    assert (tmp_path / "report.html").exists()


def test_on_a_terminal_it_is_text(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody reads HTML on a screen: without a file it is plain text there."""
    screen = Screen()
    monkeypatch.setattr("sys.stdout", screen)
    assert main(["report", "estate-before-and-after"]) == 0
    assert screen.getvalue()
    assert "<html" not in screen.getvalue()
