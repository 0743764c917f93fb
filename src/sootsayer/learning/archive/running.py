"""A task over a whole shelf, on as many processes as wanted; rows come in the shelf's order.

The order makes everything that is added up the same to the last bit, however many work on it.
"""

from __future__ import annotations

import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from itertools import islice
from multiprocessing import get_context
from typing import Any, TypeVar

from sootsayer.catalogue import language, speak
from sootsayer.documents.problems import Refused
from sootsayer.documents.system_words import refusal_said
from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.journal import Items, Journal
from sootsayer.learning.archive.rows import Row, Task, Worker, troubled
from sootsayer.learning.archive.shelf import Shelf, reason
from sootsayer.learning.archive.walk import Item, items

P = TypeVar("P")
AT_ONCE = 16  # files a process takes at a time
_AHEAD = 4  # such handfuls waiting for each process
_TRIES = 3  # of a handful whose process died
_HANDFUL = tuple[Item, ...]
Run = Callable[[Task[P], Shelf, Iterable[Item]], Iterator[Row[P]]]

_here: dict[str, Any] = {}  # of a process: its worker and shelf, made once


class Died(Exception):  # noqa: N818 (reads as it is said)
    """A process died again and again at one of these files."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = tuple(names)
        super().__init__(", ".join(names))


def cores() -> int:
    """How many processes make sense here."""
    if hasattr(os, "sched_getaffinity"):
        return max(1, len(os.sched_getaffinity(0)))
    return max(1, os.cpu_count() or 1)


def replayed(
    task: Task[P],
    shelf: Shelf,
    *,
    processes: int = 1,
    journal: Journal | None = None,
    run: Run[P] | None = None,
) -> Iterator[Row[P]]:
    """A row for every file of the shelf, in its order; with a journal, those that it has are not
    worked out again. `run`: who works instead of processes here. Raises Died, and CannotWrite for
    the journal."""
    run = run or partial(rows_of, processes=processes)
    if journal is None:
        yield from run(task, shelf, items(shelf))
        return
    found = Items(items(shelf))
    yield from journal.kept(found)
    yield from journal.keeping(run(task, shelf, journal.noting(found)))


def rows_of(task: Task[P], shelf: Shelf, found: Iterable[Item], processes: int) -> Iterator[Row[P]]:
    """A row for each item, in their order. Raises Died."""
    handfuls = _handfuls(found)
    first = list(islice(handfuls, 2))
    if processes < 2 or len(first) < 2:  # starting others takes longer than so few files do
        worker = task.worker()
        for handful in (*first, *handfuls):
            yield from rows_here(worker, shelf, handful)
        return
    yield from _spread(task, shelf, _chained(first, handfuls), processes)


def rows_here(worker: Worker[P], shelf: Shelf, handful: Sequence[Item]) -> list[Row[P]]:
    """The rows of some items, in this process."""
    return [_row(worker, shelf, item) for item in handful]


def _row(worker: Worker[P], shelf: Shelf, item: Item) -> Row[P]:
    if item.trouble:
        return troubled(item)
    try:
        data = shelf.read(item.name)
    except Refused as refused:
        return Row(item.name, "", None, Left.BROKEN, reason(refused))
    except OSError as error:
        return Row(item.name, "", None, Left.BROKEN, refusal_said(error))
    return worker.row(item.name, data)


def _handfuls(found: Iterable[Item]) -> Iterator[_HANDFUL]:
    items = iter(found)
    while handful := tuple(islice(items, AT_ONCE)):
        yield handful


def _chained(first: Iterable[_HANDFUL], rest: Iterator[_HANDFUL]) -> Iterator[_HANDFUL]:
    yield from first
    yield from rest


def _spread(
    task: Task[P], shelf: Shelf, handfuls: Iterator[_HANDFUL], processes: int
) -> Iterator[Row[P]]:
    waiting: deque[tuple[_HANDFUL, Future[list[Row[P]]], int]] = deque()
    pool = _pool(task, shelf, processes)
    try:
        while True:
            for handful in islice(handfuls, processes * _AHEAD - len(waiting)):
                waiting.append((handful, _submitted(pool, handful), 1))
            if not waiting:
                return
            handful, future, tries = waiting[0]
            try:
                rows = future.result()
            except BrokenProcessPool:
                if tries >= _TRIES:
                    raise Died([item.name for item in handful]) from None
                pool.shutdown(wait=False, cancel_futures=True)
                pool = _pool(task, shelf, processes)
                again = [(each, tried + (i == 0)) for i, (each, _, tried) in enumerate(waiting)]
                waiting = deque((each, _submitted(pool, each), n) for each, n in again)
                continue
            waiting.popleft()
            yield from rows
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _pool(task: Task[P], shelf: Shelf, processes: int) -> ProcessPoolExecutor:
    # Started afresh, not forked: the same everywhere, and no thread of a drawing bar is copied.
    return ProcessPoolExecutor(
        processes,
        mp_context=get_context("spawn"),
        initializer=_begin,
        initargs=(task, shelf, language()),
    )


def _submitted(pool: ProcessPoolExecutor, handful: _HANDFUL) -> Future[list[Row[Any]]]:
    """Hand it over, which may start a process. Ctrl-C is the parent's to answer: a process that
    starts while it is ignored ignores it from its first moment, imports included."""
    if threading.current_thread() is not threading.main_thread():
        return pool.submit(_in_process, handful)
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        return pool.submit(_in_process, handful)
    finally:
        signal.signal(signal.SIGINT, before)


def _begin(task: Task[Any], shelf: Shelf, speaks: str) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # where it is not taken over from the parent
    speak(speaks)  # that of the process which started it
    _here["worker"], _here["shelf"] = task.worker(), shelf


def _in_process(handful: _HANDFUL) -> list[Row[Any]]:
    return rows_here(_here["worker"], _here["shelf"], handful)
