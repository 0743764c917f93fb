"""Processor time, fairly: the contestants take turns, and the median of their turns counts."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from statistics import median
from tempfile import TemporaryDirectory


def of_calls(contestants: Sequence[Callable[[], object]], turns: int) -> list[float]:
    """Median seconds of processor time of one call of each, in this process."""
    times: list[list[float]] = [[] for _ in contestants]
    for run in contestants:
        run()  # what is built once is built now
    for _ in range(turns):
        for i, run in enumerate(contestants):
            start = time.process_time()
            run()
            times[i].append(time.process_time() - start)
    return [median(each) for each in times]


def of_processes(contestants: Sequence[Sequence[str]], turns: int) -> list[float]:
    """Median seconds of processor time, user and system, of Python with these arguments."""
    times: list[list[float]] = [[] for _ in contestants]
    with TemporaryDirectory() as compiled:
        # Installed programs are compiled beforehand, whatever the environment says here.
        environment = os.environ | {"PYTHONPYCACHEPREFIX": compiled}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        for turn in range(turns + 1):
            for i, arguments in enumerate(contestants):
                before = _children()
                subprocess.run(
                    [sys.executable, *arguments],
                    check=True, stdout=subprocess.DEVNULL, env=environment,
                )  # fmt: skip
                if turn:  # the first round compiles, and fills the caches of the disk
                    times[i].append(_children() - before)
    return [median(each) for each in times]


def _children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def row(what: str, ours: float, theirs: float, aim: str = "-") -> str:
    """One line of the result: ours, theirs in milliseconds, ours as a multiple of theirs, and
    what was aimed at."""
    numbers = f"{1000 * ours:>9.2f} {1000 * theirs:>10.2f} {ours / theirs:>9.3f}"
    return f"{what:<62} {numbers}   {aim}"


def told(what: str, found: str, aim: str) -> str:
    """One line of the result with nobody beside us."""
    return f"{what:<62} {found:>30}   {aim}"
