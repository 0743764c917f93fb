"""What is done of a long run, kept in a file, so that the next run goes on from there.

First line: which run it is. Then one line a file, in the order of the shelf. A line counts as long
as all before it do and its file is unchanged; behind that the file is cut off. A half-written last
line is none. It holds nothing that cannot be worked out again.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, TypeVar

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.writing import append_lines
from sootsayer.learning.archive.rows import Row, Task, as_line, from_line
from sootsayer.learning.archive.walk import Item

P = TypeVar("P")
_FORMAT = 1
_TOGETHER = 64  # rows written at a time


class Items:
    """Items of a shelf, of which the last taken can be put back."""

    def __init__(self, found: Iterator[Item]) -> None:
        self._found = found
        self._back: list[Item] = []

    def __iter__(self) -> Items:
        return self

    def __next__(self) -> Item:
        return self._back.pop() if self._back else next(self._found)

    def put_back(self, item: Item) -> None:
        self._back.append(item)


class Journal:
    """The kept rows of one task over one shelf. Raises Refused for a file that is none of its."""

    def __init__(self, path: Path, task: Task[Any], shelf: str) -> None:
        self._path, self._task = path, task
        self._head = json.dumps({"sootsayer run": _FORMAT, "task": task.key, "shelf": shelf})
        self._marks: dict[str, str] = {}
        self._begin()

    def kept(self, found: Items) -> Iterator[Row[Any]]:
        """The rows that need not be worked out again; `found` then stands at what is to be done."""
        with self._path.open("rb") as stream:
            good = len(stream.readline())
            while line := stream.readline():
                item = next(found, None)
                row = None if item is None else self._fits(line, item)
                if row is None:
                    if item is not None:
                        found.put_back(item)
                    break
                good += len(line)
                yield row
        with self._path.open("r+b") as stream:
            stream.truncate(good)

    def noting(self, found: Iterable[Item]) -> Iterator[Item]:
        """The same items; their marks are kept until their rows are written down."""
        for item in found:
            self._marks[item.name] = item.mark
            yield item

    def keeping(self, rows: Iterable[Row[P]]) -> Iterator[Row[P]]:
        """The same rows, each written down."""
        waiting: list[str] = []
        try:
            for row in rows:
                waiting.append(as_line(self._task, row, self._marks.pop(row.name, "")))
                if len(waiting) >= _TOGETHER:
                    append_lines(self._path, waiting)
                    waiting = []
                yield row
        finally:
            append_lines(self._path, waiting)

    def _begin(self) -> None:
        if not self._path.exists() or not self._path.stat().st_size:
            append_lines(self._path, (self._head,))
            return
        with self._path.open("rb") as stream:
            first = stream.readline()
        if first != self._head.encode() + b"\n":
            what = say(
                "this is no record of the same run: another archive, rulebook, pack or option"
            )
            instead = say("name a file that is not there yet, or remove this one")
            raise Refused([Problem(Place(str(self._path), 1, 1), what, instead)])

    def _fits(self, line: bytes, item: Item) -> Row[Any] | None:
        if not line.endswith(b"\n"):
            return None
        try:
            row, mark = from_line(self._task, line.decode())
        except ValueError:
            return None
        same = row.name == item.name and mark == item.mark
        return row if same else None
