"""Who has a file open: the second is told, and may take over; the dead hold nothing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer.documents.holding import held, holder_of, still_holds


def test_nobody_then_somebody_then_nobody(tmp_path: Path) -> None:
    """Held for as long as the block, and nothing is left beside the file."""
    path = tmp_path / "x.yaml"
    assert holder_of(path) is None
    with held(path, "tech-1", "09:00") as mine:
        other = holder_of(path)
        assert other is not None
        assert (other.who, other.since) == ("tech-1", "09:00")
        assert still_holds(path, mine) is None
    assert holder_of(path) is None
    assert list(tmp_path.iterdir()) == []


def test_taken_over(tmp_path: Path) -> None:
    """The first finds out, and letting go does not undo the second's hold."""
    path = tmp_path / "x.yaml"
    first = held(path, "tech-1", "09:00")
    mine = first.__enter__()
    with held(path, "tech-2", "09:10"):
        found = still_holds(path, mine)
        assert found is not None
        assert found.who == "tech-2"
        first.__exit__(None, None, None)
        now = holder_of(path)
        assert now is not None
        assert now.who == "tech-2"
    assert list(tmp_path.iterdir()) == []


def test_a_killed_session_holds_nothing(tmp_path: Path) -> None:
    """What it left behind is known for what it is."""
    path = tmp_path / "x.yaml"
    script = (
        "import os, sys\nfrom pathlib import Path\n"
        "from sootsayer.documents.holding import held\n"
        "with held(Path(sys.argv[1]), 'tech-1', '09:00'):\n    os._exit(9)\n"
    )
    done = subprocess.run([sys.executable, "-c", script, str(path)], check=False, timeout=60)
    assert done.returncode == 9
    assert (tmp_path / ".x.yaml.open").exists()
    assert holder_of(path) is None


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"who": 1}', '{"who":"a","since":"b","token":"../x"}']
)
def test_rubbish_holds_nothing(tmp_path: Path, text: str) -> None:
    """A file of another origin by that name keeps nobody out, and names no other file."""
    path = tmp_path / "x.yaml"
    (tmp_path / ".x.yaml.open").write_text(text, encoding="utf-8")
    assert holder_of(path) is None
