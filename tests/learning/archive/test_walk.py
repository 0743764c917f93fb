"""Through a folder of cases."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.archive.walk import LOOP, items
from tests.learning.archive.support import put


def names(folder: Path) -> list[str]:
    return [item.name for item in items(LocalShelf(folder)) if not item.trouble]


def test_one_order(tmp_path: Path) -> None:
    """Names sorted, folder by folder; people, settings, hidden files, other endings and
    expectations are passed over."""
    for name in ("b/2.yaml", "b/1.yaml", "a.yaml", "c.yaml", "b/x/3.yaml"):
        put(tmp_path, name, "case")
    for name in ("people.yaml", "shop.yaml", ".b.yaml", "a.yaml.torn", "b/expected/1.yaml"):
        put(tmp_path, name, "no case")
    put(tmp_path, ".git/a.yaml", "no case")
    assert names(tmp_path) == ["a.yaml", "b/1.yaml", "b/2.yaml", "b/x/3.yaml", "c.yaml"]


def test_a_link_that_leads_back(tmp_path: Path) -> None:
    """A link into its own folder, or one above, is told and not followed; another is followed."""
    put(tmp_path, "a/1.yaml", "case")
    put(tmp_path, "elsewhere/2.yaml", "case")
    (tmp_path / "a" / "self").symlink_to(tmp_path / "a")
    (tmp_path / "a" / "up").symlink_to(tmp_path)
    (tmp_path / "a" / "over").symlink_to(tmp_path / "elsewhere")
    found = list(items(LocalShelf(tmp_path)))
    assert names(tmp_path) == ["a/1.yaml", "a/over/2.yaml", "elsewhere/2.yaml"]
    assert [(i.name, i.trouble) for i in found if i.trouble] == [("a/self", LOOP), ("a/up", LOOP)]


def test_a_link_to_nowhere_is_a_file_to_be_told_of(tmp_path: Path) -> None:
    """What cannot even be looked at is left to be read, and refused there."""
    (tmp_path / "gone.yaml").symlink_to(tmp_path / "nothing")
    (tmp_path / "own.yaml").symlink_to(tmp_path / "own.yaml")
    assert names(tmp_path) == ["gone.yaml", "own.yaml"]


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="no rights to take away")
def test_a_folder_without_rights(tmp_path: Path) -> None:
    """It is named, and the walk goes on."""
    shut = put(tmp_path, "a/1.yaml", "case").parent
    put(tmp_path, "b/2.yaml", "case")
    shut.chmod(0)
    try:
        found = list(items(LocalShelf(tmp_path)))
    finally:
        shut.chmod(0o700)
    assert [(i.name, bool(i.trouble)) for i in found] == [("a", True), ("b/2.yaml", False)]


def test_a_folder_that_vanished(tmp_path: Path) -> None:
    """Told as trouble, not raised."""
    (found,) = items(LocalShelf(tmp_path / "gone"))
    assert found.trouble


def test_a_changed_file_has_another_mark(tmp_path: Path) -> None:
    """So that what was kept of it is not used."""
    path = put(tmp_path, "a.yaml", "case")
    (before,) = items(LocalShelf(tmp_path))
    path.write_text("case, longer", encoding="utf-8")
    (after,) = items(LocalShelf(tmp_path))
    assert before.mark != after.mark
