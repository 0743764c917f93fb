"""The built wheel on every Python of this machine, with the lowest and the newest dependencies.

Each keeps every demonstration case in a ledger: verdicts are JSON in canonical form there, each
record's digest is taken over its bytes and names the one before, so that one head means the same
bytes of every verdict. Each gives the records of this Python again, and runs the packs' proofs.

Pythons are found as `python3.N` on the path, as pyenv's, and in SOOTSAYER_PYTHONS (paths, separated
as PATH is). A package index is needed.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests import floors
from tests.outside.other_python import keep_and_replay
from tests.surroundings.visit import plain

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
SCRIPT = Path(keep_and_replay.__file__)
PYTHONS = ("3.11", "3.12", "3.13", "3.14")
RUNTIME = ("PyYAML", "jsonschema", "rich")


@dataclass(frozen=True, slots=True)
class Ours:
    """What this Python kept, and the built wheel."""

    ledger: Path
    head: str
    wheel: Path


def python_of(version: str) -> str | None:
    """An interpreter of this version, which can make environments; None where there is none."""
    named = os.environ.get("SOOTSAYER_PYTHONS", "").split(os.pathsep)
    pyenv = Path.home() / ".pyenv" / "versions"
    found = [*named, shutil.which(f"python{version}") or ""]
    found += [str(each / "bin" / "python") for each in pyenv.glob(f"{version}.*")]
    if sys.version_info[:2] == tuple(map(int, version.split("."))):
        found.insert(0, sys.executable)
    asking = "import venv, ensurepip, sys; print('%d.%d' % sys.version_info[:2])"
    for each in filter(None, found):
        done = subprocess.run([each, "-c", asking], capture_output=True, text=True, check=False)
        if (done.returncode, done.stdout.strip()) == (0, version):
            return each
    return None


def environment(python: str, folder: Path, wheel: Path, constraints: Sequence[str]) -> str:
    """A new environment with the wheel in it; its Python."""
    subprocess.run([python, "-m", "venv", str(folder)], check=True, timeout=300)
    inside = str(folder / ("Scripts" if sys.platform == "win32" else "bin") / "python")
    installing = [inside, "-m", "pip", "install", "--quiet", "--no-input", str(wheel), *constraints]
    subprocess.run(installing, check=True, timeout=600, cwd=folder)
    return inside


def said(python: str, new: Path, given: Path, home: Path) -> dict[str, Any]:
    """What the script says in that environment, with no checkout in reach."""
    script = Path(shutil.copy(SCRIPT, home))
    done = subprocess.run(
        [python, "-I", str(script), str(new), str(given)], cwd=home,
        env=plain(home, PYTHONPATH=None), capture_output=True, text=True, timeout=3000, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    told: dict[str, Any] = json.loads(done.stdout)
    return told


@pytest.fixture(scope="module")
def ours(tmp_path_factory: pytest.TempPathFactory) -> Ours:
    """Kept by this Python, with what it has installed, from this checkout."""
    folder = tmp_path_factory.mktemp("ours")
    building = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", str(ROOT)]
    subprocess.run([*building, "-w", str(folder)], check=True, timeout=600)
    head = keep_and_replay.keep_all(folder / "ledger")
    return Ours(folder / "ledger", head, next(folder.glob("*.whl")))


@pytest.mark.parametrize(
    ("version", "lowest"),
    [(PYTHONS[0], True), *((each, False) for each in PYTHONS)],
    ids=["3.11, lowest", *(f"{each}, newest" for each in PYTHONS)],
)
def test_the_same_bytes(version: str, lowest: bool, ours: Ours, tmp_path: Path) -> None:
    """The same head there, our records come out the same there, and every proof does."""
    python = python_of(version)
    if python is None:
        pytest.skip(f"there is no Python {version} with venv here (SOOTSAYER_PYTHONS names more)")
    constraints = ["-c", str(floors.FILE)] if lowest else ["--upgrade"]
    there = environment(python, tmp_path / "there", ours.wheel, constraints)
    told = said(there, tmp_path / "ledger", ours.ledger, tmp_path)
    assert told["python"] == version
    assert str(tmp_path / "there") in told["from"]
    if lowest:
        pinned = {name: floors.floors()[name] for name in RUNTIME}
        assert {n: told["with"][n].startswith(pinned[n]) for n in RUNTIME} == dict.fromkeys(
            RUNTIME, True
        )
    assert told["proofs"] == 0
    assert told["again"] == ["same"] * len(told["again"]) != []
    assert told["head"] == ours.head
    kept = (tmp_path / "ledger" / "ledger.jsonl").read_bytes()
    assert kept == (ours.ledger / "ledger.jsonl").read_bytes()
