"""Whole pages against the text files in `snapshots/`; `pages.py` says how to refresh them."""

from __future__ import annotations

import pytest

from tests.console.pages import SNAPSHOTS, pages

DRAWN = pages()


@pytest.mark.parametrize("name", sorted(DRAWN))
def test_page_is_as_kept(name: str) -> None:
    """A page changes only when somebody wanted it to."""
    assert DRAWN[name] == (SNAPSHOTS / f"{name}.txt").read_text(encoding="utf-8")


def test_every_snapshot_is_of_a_page() -> None:
    """No snapshot outlives its page."""
    assert {file.stem for file in SNAPSHOTS.glob("*.txt")} == set(DRAWN)
    assert len(DRAWN) > 20
