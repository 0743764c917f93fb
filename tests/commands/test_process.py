"""The process that the program is: what it does before and after the command itself."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer import __main__ as process
from sootsayer.commands.main import main

CASE = "blocked-by-short-trips"


class Left(BaseException):
    """In place of the end of the process."""


def started(*arguments: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([sys.executable, *arguments], capture_output=True, check=False)


@pytest.mark.parametrize(("command", "rests"), [("judge", True), ("ask", False)])
def test_the_collector_rests_only_where_a_command_is_over_soon(
    command: str, rests: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is off while one case is judged, on for a session of any length; only the first is left
    without taking everything apart."""
    seen: list[object] = []

    def leave(code: int) -> None:
        seen.append(code)
        raise Left

    def run() -> int:
        seen.append(gc.isenabled())
        return 3

    monkeypatch.setattr(process, "main", run)
    monkeypatch.setattr(os, "_exit", leave)
    monkeypatch.setattr(sys, "getprofile", lambda: None)
    monkeypatch.setattr(sys, "gettrace", lambda: None)
    monkeypatch.setattr(sys, "argv", ["sootsayer", command, CASE])
    try:
        with pytest.raises((Left, SystemExit)) as left:
            process.run()
    finally:
        gc.enable()
    assert seen == ([False, 3] if rests else [True])
    assert left.type is Left or left.value.code == 3  # type: ignore[attr-defined]


def test_everything_is_written_before_it_ends(capsys: pytest.CaptureFixture[str]) -> None:
    """Into a pipe comes what a caller inside this process gets, with the same exit code."""
    assert main(["judge", CASE]) == 0
    here = capsys.readouterr()
    there = started("-m", "sootsayer", "judge", CASE)
    assert (there.returncode, there.stderr) == (0, b"")
    assert there.stdout.decode("utf-8") == here.out


def test_what_is_wrong_is_said_before_it_ends() -> None:
    """The complaint comes whole, and the exit code is 2."""
    there = started("-m", "sootsayer", "judge", "no-such-case-at-all")
    assert (there.returncode, there.stdout) == (2, b"")
    assert b"no-such-case-at-all" in there.stderr
    assert there.stderr.endswith(b"\n")


def test_who_measures_it_is_told_the_end(tmp_path: Path) -> None:
    """Under a profiler the process ends as any other does, so that the profile is written."""
    kept = tmp_path / "profile"
    there = started("-m", "cProfile", "-o", str(kept), "-m", "sootsayer", "judge", CASE)
    assert there.returncode == 0
    assert kept.stat().st_size > 1000
