"""Law 11 at the disk: nothing acknowledged is lost; a file is old or new, never neither."""

from __future__ import annotations

import errno
import os
import stat
import sys
from pathlib import Path

import pytest

from sootsayer.documents.writing import CannotWrite, append_line, replace_file

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="POSIX modes and signals")
HEADER = "case: x\nentries:\n"
ENTRY = "- {at: 1, by: tech-1}"


@pytest.fixture
def case(tmp_path: Path) -> Path:
    """A case file with one entry."""
    path = tmp_path / "x.yaml"
    path.write_text(f"{HEADER}{ENTRY}\n", encoding="utf-8", newline="")
    return path


def only(path: Path) -> bool:
    """Whether `path` stands alone in its folder: no lock, no temporary file."""
    return [entry.name for entry in path.parent.iterdir()] == [path.name]


def test_append(case: Path) -> None:
    """A line goes to the end, with its newline, and leaves nothing else behind."""
    before = case.read_bytes()
    append_line(case, "- {at: 2, note: 'é'}")
    assert case.read_bytes() == before + "- {at: 2, note: 'é'}\n".encode()
    assert only(case)


def test_append_makes_the_file(tmp_path: Path) -> None:
    """A missing file is made, unless it must be there."""
    path = tmp_path / "new.yaml"
    with pytest.raises(CannotWrite, match="no such file"):
        append_line(path, "a", create=False)
    assert not path.exists()
    append_line(path, "a: 1")
    assert path.read_bytes() == b"a: 1\n"
    assert only(path)


def test_append_keeps_the_file(case: Path) -> None:
    """Appending edits the very file: whoever has it open sees the new line."""
    inode = case.stat().st_ino
    append_line(case, "- {at: 2}")
    assert case.stat().st_ino == inode


@pytest.mark.parametrize("line", ["a\nb", "a\r", "\n"])
def test_append_is_one_line(case: Path, line: str) -> None:
    """A text of several lines is no line."""
    with pytest.raises(ValueError, match="one line"):
        append_line(case, line)


def test_append_to_whole_line_without_newline(case: Path) -> None:
    """A whole last line without newline gets it first."""
    before = case.read_bytes()
    case.write_bytes(before[:-1])
    append_line(case, "- {at: 2}")
    assert case.read_bytes() == before + b"- {at: 2}\n"
    assert only(case)


@pytest.mark.parametrize("cut", range(1, len(ENTRY)))
def test_append_to_torn_line(case: Path, cut: int) -> None:
    """A torn line, cut anywhere, moves to NAME.torn and the new line stands whole."""
    before = case.read_bytes()
    case.write_bytes(before + ENTRY[:cut].encode())
    append_line(case, "- {at: 2}")
    assert case.read_bytes() == before + b"- {at: 2}\n"
    torn = case.with_name("x.yaml.torn")
    assert torn.read_bytes() == ENTRY[:cut].encode() + b"\n"
    assert {entry.name for entry in case.parent.iterdir()} == {"x.yaml", "x.yaml.torn"}


def test_torn_lines_gather(case: Path) -> None:
    """Later torn lines are added to NAME.torn; one moved twice stands there once."""
    for tail in (b"- {a", b"- {\xc3", b"- {\xc3", bytes(3)):
        with case.open("ab") as stream:
            stream.write(tail)
        append_line(case, "- {at: 2}")
    assert case.with_name("x.yaml.torn").read_bytes() == b"- {a\n- {\xc3\n\0\0\0\n"
    assert case.read_bytes().count(b"- {at: 2}\n") == 4


def test_replace(case: Path) -> None:
    """The new text stands in the place of the old."""
    replace_file(case, "a: ö\n")
    assert case.read_bytes() == "a: ö\n".encode()
    assert only(case)


def test_replace_makes_the_file(tmp_path: Path) -> None:
    """A missing file is made; with `new` one that is there is left alone."""
    path = tmp_path / "x.yaml"
    replace_file(path, "a: 1\n", new=True)
    with pytest.raises(CannotWrite, match="already"):
        replace_file(path, "a: 2\n", new=True)
    assert path.read_bytes() == b"a: 1\n"
    assert only(path)


def test_replace_only_what_was_read(case: Path) -> None:
    """A file changed since it was read is not overwritten silently."""
    was = case.read_text(encoding="utf-8")
    append_line(case, "- {at: 2}")
    now = case.read_bytes()
    with pytest.raises(CannotWrite, match="changed meanwhile"):
        replace_file(case, "a: 1\n", was=was)
    assert case.read_bytes() == now
    replace_file(case, "a: 1\n", was=now)
    assert case.read_bytes() == b"a: 1\n"


@posix_only
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_mode_is_kept(case: Path, mode: int) -> None:
    """A replaced file, and one mended after a torn line, keep their mode."""
    case.chmod(mode)
    replace_file(case, "a: 1\n- {")
    append_line(case, "b: 1")
    assert stat.S_IMODE(case.stat().st_mode) == mode
    assert case.read_bytes() == b"a: 1\nb: 1\n"


@posix_only
def test_new_file_has_the_usual_mode(tmp_path: Path) -> None:
    """A new file is as readable as any that the user makes."""
    replace_file(tmp_path / "a", "x")
    (tmp_path / "b").touch()
    assert (tmp_path / "a").stat().st_mode == (tmp_path / "b").stat().st_mode


@posix_only
def test_links_are_followed(case: Path, tmp_path: Path) -> None:
    """Writing through a link changes the file it points at and keeps the link."""
    link = tmp_path / "link.yaml"
    link.symlink_to(case)
    replace_file(link, "a: 1\n- {")
    append_line(link, "b: 2")
    assert link.is_symlink()
    assert case.read_bytes() == b"a: 1\nb: 2\n"


@posix_only
def test_leftovers_of_a_killed_writer(case: Path, tmp_path: Path) -> None:
    """An old lock file and temporary file stop nobody; a planted link is not written through."""
    victim = tmp_path / "victim"
    victim.write_text("mine", encoding="utf-8")
    (tmp_path / ".x.yaml.lock").touch()
    (tmp_path / ".x.yaml.tmp").symlink_to(victim)
    replace_file(case, "a: 1\n")
    assert case.read_bytes() == b"a: 1\n"
    assert victim.read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / ".x.yaml.tmp").exists()


@posix_only
def test_what_is_no_file(tmp_path: Path, case: Path) -> None:
    """Folders, pipes, marked files, missing folders and strange names are refused in words."""
    os.mkfifo(tmp_path / "pipe")
    case.chmod(0o444)
    for path, why in [
        (tmp_path, "folder"), (tmp_path / "pipe", "ordinary"), (case, "read-only"),
        (tmp_path / "away" / "x", "folder does not exist"), (case / "x", "not a folder"),
        (tmp_path / ("n" * 300), "too long"), (tmp_path / "a\0b", "no file name"),
    ]:  # fmt: skip
        for write in (append_line, replace_file):
            with pytest.raises(CannotWrite, match=why) as refused:
                write(path, "a")
            assert refused.value.path == path
            assert why in refused.value.why


def test_half_a_character(case: Path) -> None:
    """A lone surrogate cannot be stored and is told before anything is touched."""
    before = case.read_bytes()
    for write in (append_line, replace_file):
        with pytest.raises(CannotWrite, match="half a character"):
            write(case, "a: \ud800")
    assert case.read_bytes() == before


FAILURES = [(errno.ENOSPC, "disk is full"), (errno.EROFS, "read-only"),
            (errno.EACCES, "no right"), (errno.EIO, "fault")]  # fmt: skip


@pytest.mark.parametrize(("number", "why"), FAILURES)
@pytest.mark.parametrize("call", ["open", "fsync", "write"])
def test_a_failing_disk_leaves_the_old_file(
    case: Path, monkeypatch: pytest.MonkeyPatch, call: str, number: int, why: str
) -> None:
    """Whatever fails, wherever, the file is as it was and the reason is told."""
    before = case.read_bytes()

    def fail(*_: object) -> int:
        raise OSError(number, "told by the system")

    with monkeypatch.context() as patch:
        patch.setattr(os, call, fail)
        with pytest.raises(CannotWrite, match=why):
            append_line(case, "- {at: 2}")
        if call != "write":  # a replaced file is not written through os.write
            with pytest.raises(CannotWrite, match=why):
                replace_file(case, "a: 1\n")
    assert case.read_bytes() == before
    assert only(case)


def test_disk_full_half_way(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the disk fills up within a line, the half line is taken back."""
    before = case.read_bytes()
    real = os.write
    calls = []

    def short(descriptor: int, data: bytes) -> int:
        calls.append(len(data))
        if len(calls) > 1:
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(descriptor, data[:4])

    with monkeypatch.context() as patch:
        patch.setattr(os, "write", short)
        with pytest.raises(CannotWrite, match="full"):
            append_line(case, "- {at: 2}")
    assert len(calls) == 2
    assert case.read_bytes() == before


def test_short_writes_are_completed(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A system that takes a few bytes at a time gets the whole line in the end."""
    before = case.read_bytes()
    real = os.write
    with monkeypatch.context() as patch:
        patch.setattr(os, "write", lambda descriptor, data: real(descriptor, data[:3]))
        append_line(case, "- {at: 2}")
    assert case.read_bytes() == before + b"- {at: 2}\n"


def test_failing_rename_leaves_the_old_file(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the rename fails the old file stays and the temporary one goes."""
    before = case.read_bytes()

    def fail(*_: object) -> Path:
        raise OSError(errno.EACCES, "Access is denied")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", fail)
        with pytest.raises(CannotWrite, match="no right"):
            replace_file(case, "a: 1\n")
    assert case.read_bytes() == before
    assert only(case)
