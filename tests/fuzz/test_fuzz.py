"""Seeded bad input of every kind, by the thousand: no traceback, no hang, nothing lost.

5,000 inputs in every run, the same each time; 100,000 others in the run marked slow. Each kind runs
in a process of its own, whose memory is measured. What failed is named by kind and
seed: `python -m tests.fuzz KIND SEED` gives it again.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from tests.fuzz.kinds import SHARES
from tests.fuzz.running import MEMORY

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="clocks and memory are POSIX")
ROOT = Path(__file__).parents[2]
HERE, SLOW = 5_000, 100_000
FIRST_SLOW = 1_000_000  # other seeds than those of every run
PARTS = 4  # of a kind, so that processes end at about the same time
NAMES = {kind.__name__: share for kind, share in SHARES.items()}


def run(kind: str, first: int, count: int, kept: Path) -> dict[str, Any]:
    """A batch in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz", kind, str(first), str(count)],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=3600,
        env={**os.environ, "SOOTSAYER_FUZZ_KEPT": str(kept), "FUZZ_JSON": "1",
             "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    assert done.stdout, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def holds(batches: Sequence[dict[str, Any]], count: int, kept: Path) -> None:
    """All inputs were tried, none did harm, and memory stayed under 300 MB."""
    assert sum(each["count"] for each in batches) == count
    failed = {f"{b['kind']} {seed}": wrong for b in batches for seed, wrong in b["failed"].items()}
    assert not failed, f"kept in {kept}"
    assert max(each["memory"] for each in batches) < MEMORY


def test_all_kinds_have_their_share() -> None:
    """A hundred inputs are shared without a rest."""
    assert sum(NAMES.values()) == 100


@pytest.mark.parametrize("kind", NAMES)
def test_bad_input_does_no_harm(kind: str, tmp_path: Path) -> None:
    """No traceback, no hang over 2 s, under 300 MB, no escape on the screen, nothing lost."""
    count = HERE * NAMES[kind] // 100
    holds([run(kind, 0, count, tmp_path)], count, tmp_path)


@pytest.mark.slow
def test_a_hundred_thousand_bad_inputs_do_no_harm(tmp_path: Path) -> None:
    """The same with others, on all cores."""
    jobs = [
        (kind, FIRST_SLOW + part * SLOW, SLOW * share // 100 // PARTS, tmp_path)
        for part in range(PARTS)
        for kind, share in NAMES.items()
    ]
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        batches = list(pool.map(lambda job: run(*job), jobs))
    holds(batches, SLOW, tmp_path)
