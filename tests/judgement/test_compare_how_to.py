"""The how-to on before and after: its commands run, and the reference names every reason."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from sootsayer.advice.like_for_like import Unlike
from sootsayer.advice.like_for_like_outcome import Because, Helped
from sootsayer.commands.main import main
from sootsayer.console import compare_texts as t

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "how-to" / "compare-before-and-after.md").read_text(encoding="utf-8")
REFERENCE = (ROOT / "docs" / "reference" / "comparison.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ sootsayer (.*)$", PAGE, re.MULTILINE)


@pytest.mark.parametrize("command", COMMANDS)
def test_commands_run(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each command of the page does what it is shown for."""
    monkeypatch.chdir(tmp_path)
    assert len(COMMANDS) == 2
    assert main(shlex.split(command)) == 0


def test_every_reason_is_written_down_and_said() -> None:
    """Each reason and each answer stands in the reference, and has its sentence on the page."""
    for word in [*Unlike, *Because, *Helped]:
        assert f"`{word.value}`" in REFERENCE
    assert set(t.UNLIKE) == {one.value for one in Unlike}
    assert set(t.BECAUSE) == {one.value for one in Because}
    assert set(t.HELPED) == {one.value for one in Helped}
