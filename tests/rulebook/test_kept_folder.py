"""Where things are kept, and whom they are trusted from."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

import pytest

from sootsayer.rulebook.kept_folder import MOST, kept_folder, read_kept, still_wanted, write_kept

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="POSIX owners and modes")
root_only = pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root can give a file away"
)
NAME, LIKE = "rulebook-1.json", "rulebook-*.json"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one kept file."""
    found = tmp_path / "cache" / "sootsayer"
    write_kept(found, NAME, "x\n", LIKE)
    assert read_kept(found, NAME) == b"x\n"
    return found


@pytest.mark.parametrize(
    ("environment", "platform", "expected"),
    [
        ({"XDG_CACHE_HOME": "/x", "HOME": "/h"}, "linux", "/x/sootsayer"),
        ({"XDG_CACHE_HOME": "x", "HOME": "/h"}, "linux", "/h/.cache/sootsayer"),
        ({"XDG_CACHE_HOME": "", "HOME": "/h"}, "linux", "/h/.cache/sootsayer"),
        ({"HOME": "/h", "XDG_CACHE_HOME": "/x"}, "darwin", "/h/Library/Caches/sootsayer"),
        ({"SOOTSAYER_CACHE": "/s", "HOME": "/h"}, "linux", "/s"),
        ({"SOOTSAYER_CACHE": "here", "HOME": "/h"}, "win32", "here"),
        ({"SOOTSAYER_CACHE": "off", "HOME": "/h"}, "linux", None),
        ({"SOOTSAYER_CACHE": " OFF ", "HOME": "/h"}, "darwin", None),
        ({"HOME": "h"}, "linux", None),
        ({}, "linux", None),
        ({}, "darwin", None),
        ({"HOME": "/h"}, "win32", None),
    ],
)
@posix_only
def test_where(environment: dict[str, str], platform: str, expected: str | None) -> None:
    """SOOTSAYER_CACHE first, then each platform's own folder, nowhere without a home."""
    found = kept_folder(environment, platform)
    assert found == (None if expected is None else Path(expected))


def test_where_on_windows(tmp_path: Path) -> None:
    """In the local part of the user's application data."""
    found = kept_folder({"LOCALAPPDATA": str(tmp_path)}, "win32")
    assert found == tmp_path / "sootsayer" / "Cache"


@posix_only
def test_for_the_owner_alone(folder: Path) -> None:
    """Neither folder nor file can be read or written by others, whatever the umask."""
    before = os.umask(0)
    try:
        write_kept(folder.with_name("other"), NAME, "x", LIKE)
    finally:
        os.umask(before)
    assert folder.with_name("other").stat().st_mode & 0o777 == 0o700
    assert (folder.with_name("other") / NAME).stat().st_mode & 0o777 == 0o600
    assert [each.name for each in folder.iterdir()] == [NAME]


@posix_only
@pytest.mark.parametrize("mode", [0o620, 0o602, 0o666])
def test_a_file_that_others_may_write(folder: Path, mode: int) -> None:
    """What somebody else may have written is not read."""
    (folder / NAME).chmod(mode)
    assert read_kept(folder, NAME) is None


@posix_only
@pytest.mark.parametrize("mode", [0o720, 0o702, 0o777])
def test_a_folder_that_others_may_write(folder: Path, mode: int) -> None:
    """Where somebody else may put a file, none is read and none is written."""
    folder.chmod(mode)
    assert read_kept(folder, NAME) is None
    write_kept(folder, "rulebook-2.json", "x", LIKE)
    assert not (folder / "rulebook-2.json").exists()


@root_only
@pytest.mark.parametrize("what", ["folder", "file"])
def test_of_somebody_else(folder: Path, what: str) -> None:
    """Another user's file or folder is not trusted, even by root."""
    os.chown(folder if what == "folder" else folder / NAME, 65534, -1)
    assert read_kept(folder, NAME) is None


@posix_only
def test_no_link_is_followed(folder: Path, tmp_path: Path) -> None:
    """A link in the place of file or folder is not read; writing replaces it, not what it names."""
    victim = tmp_path / "victim"
    victim.write_bytes(b"x\n")
    victim.chmod(0o600)
    (folder / NAME).unlink()
    (folder / NAME).symlink_to(victim)
    assert read_kept(folder, NAME) is None
    write_kept(folder, NAME, "y\n", LIKE)
    assert victim.read_bytes() == b"x\n"
    assert read_kept(folder, NAME) == b"y\n"
    link = tmp_path / "link"
    link.symlink_to(folder)
    assert read_kept(link, NAME) is None
    write_kept(link, "rulebook-2.json", "x", LIKE)
    assert not (folder / "rulebook-2.json").exists()


@posix_only
def test_no_pipe_is_waited_for(folder: Path) -> None:
    """A pipe or a folder in its place is as good as nothing."""
    (folder / NAME).unlink()
    os.mkfifo(folder / NAME, 0o600)
    assert read_kept(folder, NAME) is None
    (folder / NAME).unlink()
    (folder / NAME).mkdir()
    assert read_kept(folder, NAME) is None
    write_kept(folder, NAME, "x", LIKE)
    assert (folder / NAME).is_dir()


def test_what_cannot_be_written_is_not(tmp_path: Path) -> None:
    """A file in the folder's place, a missing home and a name that is none end in silence."""
    (tmp_path / "file").write_text("")
    for place in (tmp_path / "file", tmp_path / "no" / "home" / "here", Path("\0")):
        write_kept(place, NAME, "x", LIKE)
        assert read_kept(place, NAME) is None
    assert not (tmp_path / "no").exists()


def test_old_ones_go(folder: Path) -> None:
    """Only the newest stay; one that was used stays longer; what a killed writer left goes."""
    for number in range(2, MOST + 3):
        path = folder / f"rulebook-{number}.json"
        path.write_text("")
        os.utime(path, (1e9 + number, 1e9 + number))
    os.utime(folder / NAME, (1e8, 1e8))
    still_wanted(folder, NAME)
    (folder / "notes.txt").write_text("mine")
    left = folder / ".rulebook-7.json.tmp"
    left.write_text("")
    os.utime(left, (1e9, 1e9))
    write_kept(folder, "rulebook-99.json", "x", LIKE)
    there = {each.name for each in folder.iterdir()}
    assert len(there) == MOST + 1
    assert {NAME, "rulebook-99.json", f"rulebook-{MOST + 2}.json", "notes.txt"} <= there
    assert not {"rulebook-2.json", "rulebook-3.json", left.name} & there


def test_used_today_is_left_alone(folder: Path) -> None:
    """Reading does not write each time."""
    recent = time.time() - 3600
    os.utime(folder / NAME, (recent, recent))
    still_wanted(folder, NAME)
    assert (folder / NAME).stat().st_mtime == pytest.approx(recent)
