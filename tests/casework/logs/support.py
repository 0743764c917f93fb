"""Reading a log from text or bytes, and what is wrong with it."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.logs.columns import Wish
from sootsayer.casework.logs.model import Log, Window
from sootsayer.casework.logs.read import Settings, read_log
from sootsayer.documents.problems import Problem, Refused

NAME = "drive.csv"


def read(folder: Path, content: str | bytes, *, columns: dict[str, str] | None = None,
         units: dict[str, str] | None = None, traced: bool = False) -> Log:  # fmt: skip
    """The log with this content."""
    file = folder / NAME
    file.write_bytes(content.encode() if isinstance(content, str) else content)
    wish = Wish(columns or {}, units or {})
    return read_log(file, Settings(wish=wish, traced=traced), shown_as=NAME)


def refusal(folder: Path, content: str | bytes) -> Problem:
    """The first thing wrong with a log that is refused."""
    with pytest.raises(Refused) as refused:
        read(folder, content)
    return refused.value.problems[0]


def points(log: Log) -> list[str]:
    """The points of the windows, those of a regeneration marked."""
    return [window.point + ("*" if window.regeneration else "") for window in log.windows]


def at(log: Log, point: str) -> Window:
    """The first window at a point."""
    return next(window for window in log.windows if window.point == point)


def told(log: Log) -> str:
    """All warnings as one text."""
    return "\n".join(f"{p.place}: {p.what} -> {p.instead}" for p in log.warnings)
