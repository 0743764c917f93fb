"""Every demonstration case, kept by this Python, is given again byte for byte by another one.

The other is CPython as WebAssembly, the npm package `pyodide` (32 bits, another C library, another
compiler): `npm install pyodide` in any folder, and that folder in SOOTSAYER_NPM. The program's own
packages are taken from this Python, as pure Python.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest

from sootsayer.ledger.adding import add
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.gathering import gather
from sootsayer.ledger.keeping import give, verdict_body
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.rebuilding import rebuild
from sootsayer.rulebook.shipped import shipped_cases
from tests.laws.demonstrations import NAMES, closing_moment, demonstration
from tests.ledger.books import AT

HERE = Path(__file__).parent / "other_python"
ROOT = Path(__file__).parents[2]
NPM = os.environ.get("SOOTSAYER_NPM", "")
PACKAGES = ("yaml", "jsonschema", "jsonschema_specifications", "referencing", "attr", "attrs")

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        not shutil.which("node") or not (Path(NPM) / "node_modules" / "pyodide").is_dir(),
        reason="needs node, and the folder of `npm install pyodide` in SOOTSAYER_NPM",
    ),
]


def pure_packages(folder: Path) -> None:
    """What the program needs, without anything compiled."""
    compiled = shutil.ignore_patterns("*.so", "*.pyd", "__pycache__")
    for name in PACKAGES:
        spec = find_spec(name)
        assert spec is not None
        assert spec.submodule_search_locations
        shutil.copytree(spec.submodule_search_locations[0], folder / name, ignore=compiled)
    extensions = find_spec("typing_extensions")
    if extensions is not None and extensions.origin:
        shutil.copy(extensions.origin, folder)
    shutil.copy(HERE / "rpds.py", folder)


def test_every_demonstration_case_on_another_python(tmp_path: Path) -> None:
    """The same bytes there as here, of each case, and the same head."""
    ledger, sources = ledger_in(tmp_path / "ledger"), gather(None, "en")
    keep_texts(ledger, sources.all())
    for name in NAMES:
        data, now = (
            (shipped_cases() / f"{name}.yaml").read_bytes(),
            closing_moment(demonstration(name)),
        )
        given = give(data, name, rebuild(sources), sources, now=now, as_of=None, patterns=())
        add(ledger, verdict_body(given, at=AT, by="tech-1", decided=None))
    packages = tmp_path / "packages"
    packages.mkdir()
    pure_packages(packages)
    script = Path(NPM) / "sootsayer-replay.mjs"
    shutil.copy(HERE / "replay.mjs", script)
    try:
        done = subprocess.run(
            ["node", str(script), str(packages), str(ROOT), str(ledger.folder)],
            capture_output=True, text=True, check=True, timeout=3000,
        )  # fmt: skip
    finally:
        script.unlink()
    told = json.loads(done.stdout.splitlines()[-1])
    assert told["python"] != sys.version.split()[0]
    assert told["found"] == ["same"] * len(NAMES)
    assert told["head"] == check(ledger).head
