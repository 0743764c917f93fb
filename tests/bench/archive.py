"""`python -m tests.bench.archive [CASES]`: how many closed cases are judged in a second.

Draws CASES (default 200) synthetic cases into a temporary folder, then runs rates, and a backtest
of one changed prior with and without questions, by one process and by two. Wall time of the whole
run, packs and start of the processes included, so that few cases look slower than many.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from sootsayer.learning.archive.rows import Task
from sootsayer.learning.archive.running import replayed, rows_of
from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.backtest.task import BacktestTask
from sootsayer.learning.rates.task import RatesTask
from sootsayer.learning.synthetic import DrawTask, NoShelf, numbers
from sootsayer.rulebook.compiled import PackText, shipped_rules, texts_in


def changed(packs: tuple[PackText, ...]) -> tuple[PackText, ...]:
    """The first prior of the first pack that has one, a little higher."""
    for i, text in enumerate(packs):
        head, found, tail = text.data.partition(b"prior: 0.0")
        if found and tail[:1].isdigit() and tail[0:1] != b"9":
            data = head + found + str(int(tail[:1]) + 1).encode() + tail[1:]
            return (*packs[:i], PackText(text.file, data), *packs[i + 1 :])
    raise SystemExit("no pack has a prior like 0.05")


def main() -> None:
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    packs = texts_in([shipped_rules()])
    with tempfile.TemporaryDirectory() as folder:
        for row in rows_of(DrawTask(packs, 1), NoShelf(), numbers(1, cases), 2):
            path = Path(folder) / row.name
            path.parent.mkdir(exist_ok=True)
            path.write_text(row.found or "", encoding="utf-8")
        tasks: dict[str, Task[Any]] = {
            "rates": RatesTask(packs, synthetic=True),
            "backtest": BacktestTask(packs, changed(packs), synthetic=True),
            "backtest, no questions": BacktestTask(
                packs, changed(packs), questions=False, synthetic=True
            ),
        }
        for name, task in tasks.items():
            one, two = (_seconds(task, Path(folder), n) for n in (1, 2))
            rates = (
                f"{cases / one:>7.1f} {cases / two:>7.1f} cases/s, ratio {one / two:.2f} (aim 1.8)"
            )
            print(f"{name:<24}{rates}", flush=True)


def _seconds(task: Task[Any], folder: Path, processes: int) -> float:
    began = time.perf_counter()
    for _ in replayed(task, LocalShelf(folder), processes=processes):
        pass
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
