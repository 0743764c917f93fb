"""Where cases lie: a folder here, or anything else that can list and give files."""

from __future__ import annotations

import os
import stat
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from sootsayer.catalogue import say
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes

SUFFIX = ".yaml"
NO_CASES = frozenset({"people.yaml", "shop.yaml"})
NOT_LOOKED_INTO = frozenset({"expected"})  # what is expected of cases stands there


@dataclass(frozen=True, slots=True)
class Listed:
    """One name in a folder. `mark` changes when a file does; of a folder it says which it is, by
    whatever name it was reached ("" where that cannot be told)."""

    name: str
    is_folder: bool
    mark: str


class Shelf(Protocol):
    """Names are relative to the shelf, with `/` between their parts; "" is the shelf itself."""

    def listed(self, folder: str) -> Sequence[Listed]:
        """What is in the folder, in any order. Raises OSError."""

    def mark(self, folder: str) -> str:
        """The folder's own mark."""

    def read(self, name: str) -> bytes:
        """A file's bytes, 8 MB at most. Raises Refused."""


@dataclass(frozen=True, slots=True)
class LocalShelf:
    """A folder on a disk of this machine."""

    folder: Path

    def listed(self, folder: str) -> Sequence[Listed]:
        found = []
        with os.scandir(self.folder / folder) as entries:
            for entry in entries:
                try:
                    status = entry.stat()
                except OSError:  # a link to nowhere, or to itself: read() says which
                    found.append(Listed(entry.name, False, ""))
                    continue
                if stat.S_ISDIR(status.st_mode):
                    found.append(Listed(entry.name, True, _which(status)))
                else:
                    mark = f"{status.st_size}.{status.st_mtime_ns}"
                    found.append(Listed(entry.name, False, mark))
        return found

    def mark(self, folder: str) -> str:
        try:
            return _which((self.folder / folder).stat())
        except OSError:
            return ""

    def read(self, name: str) -> bytes:
        return read_bytes(self.folder / name, name)


def _which(status: os.stat_result) -> str:
    return f"{status.st_dev}.{status.st_ino}"


def reason(refused: Refused) -> str:
    """Why a file was refused, in one line: where in it, what, and how many more there are."""
    first, *others = refused.problems
    slots = {"line": first.place.line, "column": first.place.column, "what": first.what}
    if others:
        return say("{line}:{column}: {what} (and {count} more)", count=len(others), **slots)
    return say("{line}:{column}: {what}", **slots)
