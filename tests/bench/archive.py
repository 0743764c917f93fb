"""`python -m tests.bench.archive [CASES] [--small]`: how many closed cases are judged in a second,
and in how much memory.

Draws CASES (default 200) synthetic cases into a temporary folder, then runs rates, and a backtest
of one changed prior with and without questions, added up as the commands do, by one process and by
two. Wall time of the whole run, packs and start of the processes included, so that few cases look
slower than many; processor time a case, of the run by one process; and the most memory that the
process that adds up and the largest of the others took so far, after a tenth of the cases and
after all. `--small`: by the small rulebook
of the tests, with which a hundred thousand cases are a matter of minutes.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from itertools import islice
from multiprocessing import active_children
from pathlib import Path
from typing import Any

from sootsayer.learning.archive.rows import Row, Task
from sootsayer.learning.archive.running import replayed, rows_of
from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.backtest.tally import tallied as backtest_tallied
from sootsayer.learning.backtest.task import BacktestTask
from sootsayer.learning.rates.tally import tallied as rates_tallied
from sootsayer.learning.rates.task import RatesTask
from sootsayer.learning.synthetic import DrawTask, NoShelf, numbers
from sootsayer.rulebook.compiled import PackText, shipped_rules, texts_in
from tests.learning.archive.support import small_texts

ROW = "{name:<24}{one:>8.1f} {two:>8.1f} cases/s, ratio {ratio:.2f} (aim 1.8), {cpu:.1f} ms a case"
MEMORY = "{name:<24}memory MB: {tenth} after a tenth, {all} after all"
Adding = Callable[[Iterator[Row[Any]]], object]


def changed(packs: tuple[PackText, ...]) -> tuple[PackText, ...]:
    """The first prior of the first pack that has one, a little higher."""
    for i, text in enumerate(packs):
        head, found, tail = text.data.partition(b"prior: 0.0")
        if found and tail[:1].isdigit() and tail[0:1] != b"9":
            data = head + found + str(int(tail[:1]) + 1).encode() + tail[1:]
            return (*packs[:i], PackText(text.file, data), *packs[i + 1 :])
    raise SystemExit("no pack has a prior like 0.05")


def tasks_of(packs: tuple[PackText, ...]) -> dict[str, tuple[Task[Any], Adding]]:
    """What is run, each with what adds it up."""
    rates, other = RatesTask(packs, synthetic=True), changed(packs)
    return {
        "rates": (rates, partial(rates_tallied, rates.worker().rulebook.model)),
        "backtest": (BacktestTask(packs, other, synthetic=True), backtest_tallied),
        "backtest, no questions": (
            BacktestTask(packs, other, questions=False, synthetic=True),
            backtest_tallied,
        ),
    }


def main() -> None:
    words = sys.argv[1:]
    packs = small_texts() if "--small" in words else texts_in([shipped_rules()])
    cases = int(next((word for word in words if word.isdigit()), 200))
    with tempfile.TemporaryDirectory() as folder:
        began = time.perf_counter()
        for row in rows_of(DrawTask(packs, 1), NoShelf(), numbers(1, cases), 2):
            path = Path(folder) / row.name
            path.parent.mkdir(exist_ok=True)
            path.write_text(row.found or "", encoding="utf-8")
        print(f"{cases} cases drawn in {time.perf_counter() - began:.0f} s", flush=True)
        for name, (task, adding) in tasks_of(packs).items():
            two, _, memory = _run(task, adding, Path(folder), 2, cases)
            one, cpu, _ = _run(task, adding, Path(folder), 1, cases)
            each = 1000.0 * cpu / cases
            print(
                ROW.format(name=name, one=cases / one, two=cases / two, ratio=one / two, cpu=each)
            )
            print(MEMORY.format(name="", tenth=memory[0], all=memory[-1]), flush=True)


def _run(
    task: Task[Any], adding: Adding, folder: Path, processes: int, cases: int
) -> tuple[float, float, list[str]]:
    """Seconds on the wall, of this process's processor time, and the memory on the way."""
    began, spent, memory = time.perf_counter(), time.process_time(), []

    def watched() -> Iterator[Row[Any]]:
        rows = iter(replayed(task, LocalShelf(folder), processes=processes))
        yield from islice(rows, cases // 10)
        memory.append(_most())
        yield from islice(rows, cases - cases // 10 - 1)
        memory.append(_most())  # before the last, while the others are still there
        yield from rows

    adding(watched())
    return time.perf_counter() - began, time.process_time() - spent, memory


def _most() -> str:
    """The most MB that this process took so far, and the largest of those that work for it now."""
    return (
        f"{_peak('self')} here, {max((_peak(c.pid) for c in active_children()), default=0)} beside"
    )


def _peak(process: object) -> int:
    """MB at the most, as Linux tells; 0 elsewhere, and of one that has just ended."""
    try:
        text = Path(f"/proc/{process}/status").read_text("ascii")
    except OSError:
        return 0
    return next((int(x.split()[1]) // 1024 for x in text.splitlines() if x.startswith("VmHWM")), 0)


if __name__ == "__main__":
    main()
