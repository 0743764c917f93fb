"""`sootsayer readings` on a terminal: the choice is asked, and a bar shows how far it is."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer.rulebook.shipped import shipped_cases
from tests.casework.logs.making_logs import DEMONSTRATION

pty = pytest.importorskip("pty")


def on_a_terminal(arguments: list[str], typed: str) -> tuple[int, str]:
    """Exit code and screen of the program run on a terminal of its own, with `typed` typed."""
    ours, theirs = pty.openpty()
    os.write(ours, typed.encode())
    run = subprocess.Popen(
        [sys.executable, "-m", "sootsayer", *arguments],
        stdin=theirs, stdout=theirs, stderr=theirs, env={**os.environ, "TERM": "xterm"},
    )  # fmt: skip
    os.close(theirs)
    screen = b""
    while True:
        try:
            part = os.read(ours, 65_536)
        except OSError:  # how Linux says that the other end is closed
            break
        if not part:
            break
        screen += part
    os.close(ours)
    return run.wait(timeout=60), screen.decode("utf-8", "replace")


@pytest.fixture
def case(tmp_path: Path) -> Path:
    return Path(shutil.copy(shipped_cases() / "sensor-offset.yaml", tmp_path / "my-case.yaml"))


def test_the_choice_is_asked_until_it_can_be_done(case: Path) -> None:
    """A wrong answer is explained and asked again; a right one is entered."""
    before = case.read_text(encoding="utf-8")
    code, screen = on_a_terminal(["readings", str(DEMONSTRATION), str(case)], "77\n1, 3\n")
    assert code == 0
    assert "the log has no window 77" in screen
    assert "2 entries added" in screen
    added = case.read_text(encoding="utf-8").removeprefix(before)
    assert added.count("\n") == 2
    assert "dp@rest" in added


def test_enter_takes_none(case: Path) -> None:
    """An empty answer enters nothing."""
    before = case.read_bytes()
    code, screen = on_a_terminal(["readings", str(DEMONSTRATION), str(case)], "\n")
    assert code == 0
    assert "Nothing was entered." in screen
    assert case.read_bytes() == before
