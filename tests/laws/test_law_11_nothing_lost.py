"""Law 11. Nothing acknowledged is lost; a file is old or new, never neither."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from sootsayer.casework.append import append_entry
from sootsayer.casework.case_file import case_of, read_case
from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.writing import CannotWrite, replace_file
from tests.casework.small_model import small_model
from tests.laws.writing_under_fire import HEADER, line

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="fork, POSIX modes and signals")
ROOT = Path(__file__).parents[2]
WRITTEN, DEATHS = 200, 45
MODEL = small_model()


def under_fire(how: str, path: Path, number: int) -> dict[str, Any]:
    """What tests.laws.writing_under_fire says, run as a program."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.laws.writing_under_fire", how, str(path), str(number)],
        cwd=ROOT, capture_output=True, text=True, timeout=300, check=True,
    )  # fmt: skip
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def notes(path: Path) -> list[str]:
    """What is in the case, as `writer number` in the order of the file, read by our own reader."""
    return [" ".join((e.note or "").split()[:2]) for e in read_case(path, MODEL).entries]


def test_two_writers_at_once_keep_everything(tmp_path: Path) -> None:
    """Two processes append 200 entries each: all are there, whole, each writer's in its order."""
    path = tmp_path / "x.yaml"
    told = under_fire("together", path, WRITTEN)
    assert told["codes"] == [0, 0]
    kept = path.read_text(encoding="utf-8").removeprefix(HEADER).splitlines()
    for writer, heard in zip(("tech-1", "tech-2"), told["acknowledged"], strict=True):
        assert heard == [f"{writer} {n}" for n in range(WRITTEN)]
        mine = [one for one in kept if f"by: {writer}" in one]
        assert mine == [line(writer, n) for n in range(WRITTEN)]
    assert len(kept) == 2 * WRITTEN
    assert len(notes(path)) == 2 * WRITTEN
    assert [each.name for each in tmp_path.iterdir()] == ["x.yaml"]


def test_a_killed_writer_loses_nothing_acknowledged(tmp_path: Path) -> None:
    """Killed at 45 random moments, every acknowledged entry is there once, and the case opens."""
    path = tmp_path / "x.yaml"
    told = under_fire("killed", path, DEATHS)
    assert told["killed"] == DEATHS
    acknowledged = told["acknowledged"]
    assert len(acknowledged) > DEATHS
    kept = notes(path)  # the case opens
    assert set(acknowledged) <= set(kept)
    assert len(kept) == len(set(kept))
    # Beyond what was acknowledged, at most the one entry that each death cut short of its word.
    assert len(kept) <= len(acknowledged) + DEATHS
    append_entry(path, line("after", 0))
    assert notes(path)[-1] == "after 0"


@contextmanager
def mounted(where: Path, options: str) -> Iterator[bool]:
    """A small disk of its own at `where`, or False where the system lets nobody mount one."""
    where.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(where)]
    try:
        done = subprocess.run(command, capture_output=True, check=False).returncode == 0
    except OSError:
        done = False
    try:
        yield done
    finally:
        if done:
            subprocess.run(["umount", str(where)], capture_output=True, check=True)


@contextmanager
def full_after(size: int, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A disk that takes so many bytes more, half of the last write too, and then is full."""
    left, write = [size], os.write

    def limited(descriptor: int, data: bytes) -> int:
        if not left[0]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        taken = write(descriptor, data[: left[0]])
        left[0] -= taken
        return taken

    with monkeypatch.context() as patch:
        patch.setattr(os, "write", limited)
        yield


def fill(path: Path) -> str:
    """Append until it is refused; the reason. Each time the file is old or new."""
    for number in range(10_000):
        before = path.read_bytes()
        try:
            append_entry(path, line("tech-1", number))
        except CannotWrite as refusal:
            assert path.read_bytes() == before
            assert notes(path) == [f"tech-1 {n}" for n in range(number)]
            return refusal.why
        assert path.read_bytes() == before + line("tech-1", number).encode() + b"\n"
    pytest.fail("the disk never became full")


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On a disk of 64 kB every entry is written whole, or refused with the old file intact."""
    with mounted(tmp_path / "disk", "size=64k") as really:
        path = tmp_path / "disk" / "x.yaml"
        path.write_text(HEADER, encoding="utf-8")
        if really:
            assert fill(path) == "the disk is full"
            before = path.read_bytes()
            with pytest.raises(CannotWrite, match="the disk is full"):
                replace_file(path, "case: y\n" * 9000)
            assert path.read_bytes() == before
            assert [each.name for each in path.parent.iterdir()] == ["x.yaml"]
    short = tmp_path / "y.yaml"  # the same without any right to mount, at a byte of an entry
    short.write_text(HEADER, encoding="utf-8")
    with full_after(700, monkeypatch):
        assert fill(short) == "the disk is full"


@pytest.mark.parametrize("room", range(0, 60, 7))
def test_a_disk_full_at_any_byte(room: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip # noqa: E501
    """Wherever in an entry the disk is full, the case is what it was."""
    path = tmp_path / "x.yaml"
    path.write_text(HEADER, encoding="utf-8")
    with full_after(room, monkeypatch), pytest.raises(CannotWrite, match="the disk is full"):
        append_entry(path, line("tech-1", 0))
    assert path.read_text(encoding="utf-8") == HEADER
    append_entry(path, line("tech-1", 1))
    assert notes(path) == ["tech-1 1"]


def test_a_folder_without_rights_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing may be written nothing is, and the reason is said."""
    path = tmp_path / "x.yaml"
    path.write_text(HEADER, encoding="utf-8")
    with mounted(tmp_path / "disk", "size=64k") as really:
        if really:  # root may write anywhere but on a disk that is read-only
            inside = tmp_path / "disk" / "x.yaml"
            inside.write_text(HEADER, encoding="utf-8")
            remount = ["mount", "-o", "remount,ro", str(inside.parent)]
            subprocess.run(remount, capture_output=True, check=True)
            refused(inside, "the disk is read-only")
    if os.geteuid():
        tmp_path.chmod(0o555)
        refused(path, "there is no right to write here")
        tmp_path.chmod(0o755)
        return
    opened = os.open

    def denied(name: Any, flags: int, *rest: Any, **more: Any) -> int:
        if flags & (os.O_WRONLY | os.O_RDWR):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return opened(name, flags, *rest, **more)

    monkeypatch.setattr(os, "open", denied)
    refused(path, "there is no right to write here")


def refused(path: Path, why: str) -> None:
    """Neither an entry nor a new file is taken, for this reason."""
    with pytest.raises(CannotWrite) as caught:
        append_entry(path, line("tech-1", 0))
    assert caught.value.why == why
    with pytest.raises(CannotWrite) as caught:
        replace_file(path, "case: y\n")
    assert caught.value.why == why
    assert path.read_text(encoding="utf-8") == HEADER


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """An entry goes into the file that a link names; the link is neither broken nor replaced."""
    real, link = tmp_path / "real.yaml", tmp_path / "x.yaml"
    real.write_text(HEADER, encoding="utf-8")
    link.symlink_to(real)
    append_entry(link, line("tech-1", 0))
    real.write_bytes(real.read_bytes() + b"- {torn")
    append_entry(link, line("tech-1", 1))
    assert link.is_symlink()
    assert notes(real) == notes(link) == ["tech-1 0", "tech-1 1"]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (HEADER.replace("entries:\n", "entries: []\n"), "no entry can follow `entries: []`"),
        (HEADER + "  " + line("tech-1", 0) + "\n", "no entry can follow line 5"),
        (HEADER + "story: late\n", "no entry can follow line 5"),
        ("case: x\nformat: 1\n", "it has no line `entries:`"),
    ],
)
def test_what_could_never_be_read_is_not_acknowledged(text: str, why: str, tmp_path: Path) -> None:
    """Behind `entries: []`, indented entries or another key nothing is appended."""
    path = tmp_path / "x.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(CannotWrite) as caught:
        append_entry(path, line("tech-1", 1))
    assert caught.value.why.startswith(why)
    assert path.read_text(encoding="utf-8") == text


def test_a_last_line_torn_at_any_byte(tmp_path: Path) -> None:
    """Cut at each byte of its last line a case still opens, with the entry whole or left out."""
    whole = (HEADER + line("tech-1", 0) + "\n").encode()
    last = (line("tech-1", 1) + "\n").encode()
    for cut in range(len(last) + 1):
        case = case_of(parse_case(whole + last[:cut], "x.yaml"), MODEL)
        assert len(case.entries) == (2 if cut >= len(last) - 1 else 1), cut
        torn = 0 < cut < len(last) - 1
        assert (case.torn == last[:cut].decode()) if torn else case.torn is None
    path = tmp_path / "x.yaml"
    path.write_bytes(whole + last[: len(last) // 2])
    append_entry(path, line("tech-1", 2))
    assert notes(path) == ["tech-1 0", "tech-1 2"]
    assert last[: len(last) // 2] in (tmp_path / "x.yaml.torn").read_bytes()
