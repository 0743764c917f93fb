"""The program as a process: pipes, encodings, colour, interruption."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

import sootsayer
from sootsayer.commands import main as main_module
from sootsayer.commands.main import main

SOURCE = str(Path(sootsayer.__file__).parents[1])
CASE = "sensor-offset"
EARLY = ("--as-of", "1")  # little is known by then, so little is to be reckoned


def run(
    *arguments: str, stdout: int = subprocess.PIPE, environment: dict[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("LC_", "PYTHON", "LANG"))}
    return subprocess.run(
        [sys.executable, "-m", "sootsayer", *arguments],
        stdout=stdout,
        stderr=subprocess.PIPE,
        stdin=subprocess.DEVNULL,
        env=kept | {"PYTHONPATH": SOURCE} | (environment or {}),
        check=False,
    )


def test_piped_page_is_plain_even_where_colour_is_forced() -> None:
    """In a pipe there is no escape code, whatever the environment forces."""
    done = run("judge", CASE, *EARLY, environment={"FORCE_COLOR": "1", "PYTHONIOENCODING": "utf-8"})
    assert done.returncode == 0
    assert done.stderr == b""
    assert b"\x1b" not in done.stdout
    assert "█".encode() in done.stdout


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_encoding_without_our_bars(encoding: str) -> None:
    """A screen that knows no blocks gets plain bars, no crash."""
    done = run("judge", CASE, *EARLY, environment={"PYTHONIOENCODING": encoding})
    assert done.returncode == 0
    assert b"% ####" in done.stdout
    assert done.stdout.decode(encoding)


def test_c_locale() -> None:
    """The C locale without UTF-8 mode is served too, complaints included."""
    plain = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    done = run("judge", CASE, *EARLY, environment=plain)
    assert done.returncode == 0
    assert done.stdout.isascii()
    wrong = run("judge", "zürich", environment=plain)
    assert wrong.returncode == 2
    assert b"there is no case" in wrong.stderr
    assert b"Traceback" not in wrong.stderr


def test_reader_that_leaves_early_is_no_problem() -> None:
    """A closed pipe ends the program quietly with 0."""
    read_end, write_end = os.pipe()
    os.close(read_end)
    try:
        done = run("judge", CASE, "--more", *EARLY, stdout=write_end)
    finally:
        os.close(write_end)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_full_disk_is_said() -> None:
    """Output that cannot be written is told, with exit 2."""
    with Path("/dev/full").open("wb") as full:
        done = run("judge", CASE, *EARLY, stdout=full.fileno())
    assert done.returncode == 2
    assert b"check that" in done.stderr
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr


@pytest.mark.parametrize(
    ("raised", "code", "said"),
    [
        (KeyboardInterrupt(), 130, ""),
        (BrokenPipeError(), 0, ""),
        (PermissionError(13, "Permission denied", "a.yaml"), 2, "a.yaml: Permission denied"),
        (UnicodeDecodeError("utf-8", b"\xff", 0, 1, "bad"), 2, "UTF-8"),
        (RecursionError("deep"), 2, "nested too deeply"),
        (MemoryError(), 2, "too big"),
        (ZeroDivisionError("x\x1b[31m"), 2, "a fault of sootsayer"),
    ],
)
def test_whatever_happens_inside_there_is_no_traceback(
    raised: BaseException,
    code: int,
    said: str,
    capfd: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every trouble has an exit code and, unless it was the reader's own wish, a next action."""

    def trouble(_: object) -> int:
        raise raised

    monkeypatch.setattr(main_module.module_of("judge"), "run", trouble)
    monkeypatch.setattr("sootsayer.commands.guard.hush", lambda _: None)
    assert main(["judge", CASE]) == code
    out, err = capfd.readouterr()
    assert out == ""
    assert said in err
    assert ("→" in err) == bool(said)
    assert "Traceback" not in err
    assert "\x1b" not in err


def test_bad_input_is_refused_within_moments(tmp_path: Path) -> None:
    """What is no case is refused before the rulebook is read, without rich and jsonschema."""
    bad = {
        "empty": b"",
        "binary": bytes(range(256)),
        "broken": b"case: [x\n",
        "deep": b"case: " + b"[" * 5000,
        "format": b"case: x\nformat: 9\nvehicle: {label: van}\nentries:\n",
    }
    for name, data in bad.items():
        (tmp_path / f"{name}.yaml").write_bytes(data)
    paths = [f"{name}.yaml" for name in bad] + ["missing.yaml", "."]
    code = f"""
import sys, time
from sootsayer.commands.main import main
for path in {paths}:
    begun = time.process_time()
    codes = main(["judge", path]), main(["why", path, "x"])
    assert codes == (2, 2) and time.process_time() - begun < 2, path
print({{"rich", "jsonschema", "sootsayer.rulebook.compiled"}} & set(sys.modules))
"""
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={"PYTHONPATH": SOURCE, "PYTHONIOENCODING": "utf-8"},
        cwd=tmp_path,
        capture_output=True,
        check=False,
    )
    assert b"Traceback" not in done.stderr
    assert done.stdout == b"set()\n"


def test_help_draws_and_reads_nothing_heavy() -> None:
    """A cold start for help imports neither rich, yaml nor jsonschema."""
    code = (
        "import sys; from sootsayer.commands.main import main; main(['judge', '--help']); "
        "sys.exit(bool({'rich', 'yaml', 'jsonschema'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], env={"PYTHONPATH": SOURCE}, capture_output=True, check=False
    )
    assert done.returncode == 0
