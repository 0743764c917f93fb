"""The language made of English in force, and pages drawn in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.words.drawing import Page, drawn, words
from tests.words.pseudo import Pseudo, spoken


@pytest.fixture(name="pseudo")
def _pseudo(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Pseudo:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    return spoken(monkeypatch, words())


@pytest.fixture(name="page")
def _page(pseudo: Pseudo, capsys: pytest.CaptureFixture[str]) -> Page:
    """Runs a command in that language, and looks through what it prints."""

    def run(*arguments: str, code: int = 0, known: frozenset[str] = frozenset()) -> str:
        return drawn(pseudo, capsys, arguments, code, known)

    return run
