"""So many inputs of one kind in this process, and what they did."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path
from random import Random
from time import process_time

import pytest

from tests.fuzz import running
from tests.fuzz.kinds import KINDS, prepared
from tests.fuzz.running import Attempt, tried
from tests.fuzz.world import lay, parser_made_each_time, rulebook_opened_each_time, world

MOST_KEPT = 40


@dataclass(slots=True)
class Told:
    """What a batch did: `failed` by seed, `codes` of the runs, `seconds` of processor time."""

    kind: str
    count: int = 0
    failed: dict[int, list[str]] = field(default_factory=dict)
    seconds: float = 0.0
    memory: int = 0
    slowest: tuple[float, int] = (0.0, 0)

    def plain(self) -> dict[str, object]:
        return asdict(self)


def batch(kind: str, first: int, count: int, keep: Path | None = None) -> Told:
    """Inputs number `first` and on. What fails is written into `keep`."""
    told = Told(kind)
    here = Path.cwd()
    place = Path(tempfile.mkdtemp(prefix="sootsayer-fuzz-"))
    try:
        with pytest.MonkeyPatch.context() as patch:
            for name, value in (("NO_COLOR", "1"), ("TERM", "dumb"), ("HOME", str(place))):
                patch.setenv(name, value)
            for name in ("SOOTSAYER_SHOP", "SOOTSAYER_LANGUAGE"):
                patch.delenv(name, raising=False)
            (place / "tmp").mkdir()
            patch.setattr(tempfile, "tempdir", str(place / "tmp"))
            made = world(place / "world", patch)
            prepared(made)
            if kind == "arguments":
                parser_made_each_time(patch)
            if kind == "kept":
                rulebook_opened_each_time(patch)
                patch.setenv("SOOTSAYER_CACHE", "cache")
            for seed in range(first, first + count):
                began = process_time()
                attempt = KINDS[kind](Random(f"{kind} {seed}"), made)
                lay(place / "work", dict(attempt.files))
                wrong = [*tried(attempt, place / "work"), *_elsewhere(place)]
                os.chdir(here)
                told.count += 1
                took = process_time() - began
                told.slowest = max(told.slowest, (took, seed))
                told.seconds += took
                if wrong:
                    told.failed[seed] = [each.replace(str(place), "") for each in wrong]
                    if keep is not None and len(told.failed) <= MOST_KEPT:
                        _keep(keep / f"{kind}-{seed}", attempt, wrong)
    finally:
        os.chdir(here)
        shutil.rmtree(place, ignore_errors=True)
    told.memory = running._memory()
    return told


def _elsewhere(place: Path) -> Iterator[str]:
    """What was written beside the folder, or left in that for passing files."""
    found = {each.name for each in place.iterdir()} - {"world", "work", "tmp"}
    yield from (f"{name} was written elsewhere" for name in found)
    yield from (
        f"{each.name} was left in the folder of passing files" for each in (place / "tmp").iterdir()
    )


def _keep(folder: Path, attempt: Attempt, wrong: list[str]) -> None:
    """The input that failed: its files, and beside them what was run and what went wrong."""
    lay_deep(folder, attempt)
    said = [repr(list(each)) for each in attempt.commands] + [f"typed: {attempt.typed!r}", *wrong]
    (folder / "WRONG.txt").write_text("\n".join(said), encoding="utf-8", errors="backslashreplace")


def lay_deep(folder: Path, attempt: Attempt) -> None:
    folder.parent.mkdir(parents=True, exist_ok=True)
    lay(folder, dict(attempt.files))


def said(told: Told) -> str:
    """A batch in a line, and each failure below."""
    lines = [
        f"{told.kind}: {told.count} inputs, {len(told.failed)} failed, {told.seconds:.1f} s, "
        f"{told.memory // 2**20} MB, slowest {told.slowest[0]:.2f} s (seed {told.slowest[1]})"
    ]
    for seed, wrong in list(told.failed.items())[:MOST_KEPT]:
        lines += [f"  {told.kind} {seed}", *(f"    {each}" for each in wrong)]
    return "\n".join(lines)
