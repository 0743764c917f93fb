"""An archive of hand-written cases for a small rulebook."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.rows import Row
from sootsayer.learning.backtest.task import BacktestTask
from sootsayer.rulebook.compiled import PackText, Rulebook, rulebook_from, texts_in

PACK = Path(__file__).parent / "small"
HEAD = "case: {id}\nformat: 1\nvehicle: {{label: 2.0 L panel van}}\nentries:\n"
HEALTHY = ("dp@rest: 1, dp@idle: 5, dp@2500: 20, soot: 10", "oil: good, lamp: no, trip: 40")
BLOCKED = ("dp@rest: 1, dp@idle: 20, dp@2500: 60, soot: 30", "oil: good, lamp: yes, trip: 5")
OFFSET = ("dp@rest: 9, dp@idle: 14, dp@2500: 29, soot: 10", "oil: good, lamp: no, trip: 40")


@cache
def small_texts() -> tuple[PackText, ...]:
    return texts_in([PACK])


@cache
def small() -> Rulebook:
    return rulebook_from(small_texts())


def edited(*pairs: tuple[str, str]) -> tuple[PackText, ...]:
    """The small pack with texts replaced, each of which must be there."""
    (text,) = small_texts()
    data = text.data.decode()
    for old, new in pairs:
        assert old in data, old
        data = data.replace(old, new)
    return (PackText(text.file, data.encode()),)


def tried(*pairs: tuple[str, str], **options: Any) -> BacktestTask:
    """The small pack against itself with texts replaced."""
    return BacktestTask(small_texts(), edited(*pairs), **options)


def case_text(
    name: str,
    facts: Sequence[str],
    faults: Sequence[str] | None,
    *more: str,
    day: str = "2031-03-14",
) -> str:
    """A case with one entry of readings for each text, then `more` lines; closed unless `faults`
    is None."""
    lines = [
        f"- {{at: {day}T09:0{i}+01:00, by: tech-1, round: arrival, source: scan, "
        f"facts: {{{each}}}}}"
        for i, each in enumerate(facts)
    ]
    lines += more
    if faults is not None:
        outcome = f"{{faults: [{', '.join(faults)}], proved by: looked}}"
        lines.append(f"- {{at: {day}T17:00+01:00, by: tech-1, outcome: {outcome}}}")
    return HEAD.format(id=name) + "".join(f"{line}\n" for line in lines)


def put(folder: Path, name: str, text: str | bytes) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def some_archive(folder: Path) -> Path:
    """Seven closed cases in two folders, four of them blocked."""
    for i, (facts, faults) in enumerate(
        [
            (HEALTHY, []),
            (HEALTHY, []),
            (BLOCKED, ["blocked", "short-duty"]),
            (BLOCKED, ["blocked", "short-duty"]),
            (BLOCKED, ["blocked"]),
            (OFFSET, ["sensor-offset"]),
            (HEALTHY, ["blocked"]),
        ]
    ):
        name = f"case-{i}"
        put(folder, f"{i % 2}/{name}.yaml", case_text(name, facts, faults))
    return folder


def why(row: Row[Any]) -> tuple[str, Left | None]:
    return row.name, row.left
