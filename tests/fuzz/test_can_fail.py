"""Each harm, done on purpose, is told; and what is spoiled passes the door."""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest

from sootsayer.casework import append
from tests.fuzz import batch, running
from tests.fuzz.bytes_spoiled import spoiled
from tests.fuzz.running import Attempt, tried
from tests.fuzz.trees_spoiled import spoiled_tree, yaml_text
from tests.fuzz.world import CASES

CASE = CASES["van"].encode()


def printing(text: str, code: int = 0) -> Callable[..., int]:
    def program(_: object) -> int:
        sys.stdout.write(text)
        return code

    return program


def busy(_: object) -> int:
    while True:
        time.perf_counter()


def greedy(_: object) -> int:
    most = running._memory()
    running.MEMORY = most + 20 * 2**20
    sys.stdout.write(str(len(b"x" * (most + 60 * 2**20))))  # what was held once is held no longer
    return 0


def raising(_: object) -> int:
    raise SystemExit("out")


def forgetful(_: object) -> int:
    Path("case.yaml").write_bytes(CASE[:-5])
    sys.stdout.write("done\n")
    return 0


def untidy(_: object) -> int:
    Path(".case.yaml.tmp").write_bytes(b"")
    sys.stdout.write("done\n")
    return 0


@pytest.mark.parametrize(
    ("program", "told"),
    [
        (printing("Traceback (most recent call last):"), "said 'Traceback'"),
        (printing("a fault of sootsayer"), "said 'a fault of sootsayer'"),
        (printing("\x1b[2J"), "raw on the screen"),
        (printing("a\u202eb"), "raw on the screen"),
        (printing("\x0c"), "raw on the screen"),
        (printing("<!doctype html><script>alert(1)"), "a page with"),
        (printing(""), "silence"),
        (printing("x", 2), "without the next action"),
        (printing("x", 3), "exit code 3"),
        (printing("x", 130), "exit code 130"),
        (raising, "SystemExit came out"),
        (busy, "longer than"),
        (greedy, "memory grew"),
        (forgetful, "case.yaml is not what it was"),
        (untidy, ".case.yaml.tmp is left behind"),
    ],
)
def test_a_harm_is_told(
    program: Callable[..., int], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each of them by its name."""
    monkeypatch.setattr(running, "main", program)
    monkeypatch.setattr(running, "SECONDS", 0.2)
    monkeypatch.setattr(running, "MEMORY", running.MEMORY)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "case.yaml").write_bytes(CASE)
    wrong = tried(Attempt({"case.yaml": CASE}, [["judge", "case.yaml"]]), tmp_path)
    assert [each for each in wrong if told in each], wrong


def test_a_lost_entry_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A writer that writes over what was there is found, and the input kept."""

    def over(path: Path, lines: list[str], **_: object) -> None:
        path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")

    monkeypatch.setattr(append, "append_lines", over)
    told = batch.batch("typed", 0, 30, tmp_path / "kept")
    assert told.failed
    seed = next(iter(told.failed))
    kept = tmp_path / "kept" / f"typed-{seed}"
    assert "case.yaml is not what it was" in (kept / "WRONG.txt").read_text("utf-8")
    assert (kept / "case.yaml").is_file()


@pytest.mark.parametrize("kind", ["case", "shop", "log", "ledger", "typed", "arguments", "pack"])
def test_what_is_spoiled_passes_the_door(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the inputs of a kind some are refused and some are not."""
    codes = Counter[object]()
    real = running.run

    def counted(arguments: list[str], typed: str | None = None) -> running.Ended:
        ended = real(arguments, typed)
        codes[ended.code == 2] += 1
        return ended

    monkeypatch.setattr(running, "run", counted)
    batch.batch(kind, 0, 300 if kind == "arguments" else 60)  # few command lines can be obeyed
    assert codes[True] > 3
    assert codes[False] > 3


def test_a_seed_gives_the_same_input() -> None:
    """Bytes and documents are spoiled alike wherever and whenever a seed is used."""
    tree = {"a": {"b": [1, {"c": "x"}]}, "d": "y"}
    for seed in range(200):
        assert spoiled(CASE, Random(seed)) == spoiled(CASE, Random(seed))
        again = [yaml_text(spoiled_tree(tree, Random(seed))) for _ in range(2)]
        assert again[0] == again[1]
    assert len({spoiled(CASE, Random(seed)) for seed in range(200)}) > 190
