"""Law 10 for records: a kept verdict gives the same bytes, everywhere and years later."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.laws.test_law_10_same_bytes import WORLDS
from tests.ledger.golden_ledger import GOLDEN, make

ROOT = Path(__file__).parents[2]
# What a reader sees of the golden ledger, and the ledger made anew, as one text.
PROGRAM = """
import sys, tempfile
from pathlib import Path
sys.path.insert(0, {root!r})
from sootsayer.commands.main import main
from tests.ledger.golden_ledger import GOLDEN, make
codes = [main(["records", *words, "--ledger", str(GOLDEN)])
         for words in (["verify"], ["replay", "1", "--json"], ["explain", "1"])]
with tempfile.TemporaryDirectory() as folder:
    sys.stdout.flush()
    sys.stdout.buffer.write(make(Path(folder)).file.read_bytes())
sys.exit(codes != [0, 0, 0])
"""


def told_in(world: dict[str, str], folder: Path) -> bytes:
    """What another process, in another world, reads and writes."""
    kept = {k: v for k, v in os.environ.items() if k in ("PATH", "SYSTEMROOT")}
    paths = os.environ.get("PYTHONPATH", "").split(os.pathsep)
    kept["PYTHONPATH"] = os.pathsep.join(str(Path(p).resolve()) for p in paths if p)
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM.format(root=str(ROOT))],
        cwd=folder, env={**kept, **world}, capture_output=True, check=False, timeout=120,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, b""), done.stderr.decode()
    return done.stdout


def test_same_bytes_in_every_world(tmp_path: Path) -> None:
    """Hash seeds, time zones, locales and encodings change no byte of ledger, replay and page."""
    found = {told_in(world, tmp_path) for world in WORLDS.values()}
    assert len(found) == 1
    assert found.pop().endswith((GOLDEN / "ledger.jsonl").read_bytes())


@pytest.mark.parametrize("times", [2])
def test_made_twice_it_is_made_once(times: int, tmp_path: Path) -> None:
    """Within a process too: the same verdict at the same moment is the same record."""
    made = [make(tmp_path / str(n)).file.read_bytes() for n in range(times)]
    assert made[0] == made[1] == (GOLDEN / "ledger.jsonl").read_bytes()
