"""The shipped rulebook is read once for all tests of a process: reading it again proves nothing."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest

from sootsayer.rulebook.compiled import Rulebook, load_rulebook


@cache
def _read(folders: tuple[Path, ...], _: Path) -> Rulebook:
    return load_rulebook(folders)


@pytest.fixture(autouse=True)
def rulebook_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Commands run in this process share one rulebook; those in their own read theirs."""

    def shared(folders: Sequence[Path]) -> Rulebook:
        return _read(tuple(folders), Path.cwd())  # a folder may be named from where one is

    monkeypatch.setattr("sootsayer.commands.opened.load_rulebook", shared)
