"""Law 11 for every command that writes: whatever fails, a file is old or new, never neither."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from sootsayer.documents import writing
from tests.fuzz import faulty_disk
from tests.fuzz.faulty_disk import COMMANDS
from tests.fuzz.world import AT

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="it forks")
ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "sootsayer"


def struck(folder: Path, hows: str, *names: str) -> list[dict[str, Any]]:
    """What `tests.fuzz.faulty_disk` says, run as a program."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz.faulty_disk", str(folder), hows, *names],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=550,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


@pytest.mark.parametrize("name", COMMANDS)
def test_old_or_new_where_the_disk_is_full_or_the_writer_dies(name: str, tmp_path: Path) -> None:
    """Full, or killed by SIGKILL, at each step that the command takes on the disk."""
    (told,) = struck(tmp_path, "full,killed", name)
    assert told["found"] == []
    assert told["struck"] == 2 * told["steps"] >= 2


def test_a_writer_in_place_is_found_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A command that wrote straight into its file would leave half of it, and be told of."""
    from tests.fuzz.world import world

    def in_place(real: Path, data: bytes, *_: object, **__: object) -> None:
        with os.fdopen(os.open(real, os.O_WRONLY | os.O_CREAT, 0o666), "wb") as stream:
            stream.write(data)

    with monkeypatch.context() as patch:
        made = world(tmp_path / "world", patch)
        patch.setattr(writing, "_swap", in_place)
        told = faulty_disk.all_steps("rules check, junit", tmp_path / "work", made, ["killed"])
    assert "neither old nor new" in " ".join(told["found"])


def test_whatever_writes_is_tried() -> None:
    """Each file of the program that writes one is of a command that is tried, or named here."""
    writers = re.compile(r"\b(?:replace_file|append_lines?|append_entr(?:y|ies)|write_kept)\(")
    found = {
        str(path.relative_to(SOURCE))
        for path in SOURCE.rglob("*.py")
        if writers.search(path.read_text("utf-8"))
    }
    assert found == TRIED | BELOW


TRIED = {
    "commands/ask_case.py", "commands/ask_shell.py", "commands/cases_make.py",
    "commands/compare.py",
    "commands/new_shop.py", "commands/readings.py", "commands/readings_case.py",
    "commands/records_explain.py", "commands/records_outcome.py", "commands/report.py",
    "commands/rules_check.py", "commands/teaching/saving.py", "documents/holding.py",
    "learning/archive/journal.py", "ledger/exporting.py", "ledger/kept.py", "rulebook/kept.py",
}  # fmt: skip
# The writers themselves; people.yaml, which no command writes.
BELOW = {
    "casework/append.py", "casework/people.py", "documents/writing.py", "rulebook/kept_folder.py",
}  # fmt: skip


def test_the_moments_are_the_same_everywhere() -> None:
    """The commands are run at one moment, so that what they write can be compared."""
    assert AT in COMMANDS["ask, answers"].arguments
