"""Files that cannot be read: one problem each, with what to do."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path

import pytest

from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.reading import LARGEST
from sootsayer.documents.yaml_source import parse_document, read_document

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="no such files there")


def why_not(path: Path) -> Problem:
    """The one problem of reading `path`."""
    with pytest.raises(Refused) as refused:
        read_document(path, shown_as="x.yaml")
    (problem,) = refused.value.problems
    assert str(problem.place) == "x.yaml:1:1"
    assert problem.instead
    return problem


def test_missing_file_names_its_neighbour(tmp_path: Path) -> None:
    """A missing file is told with the name that was probably meant."""
    (tmp_path / "pressure.yaml").write_text("a: 1\n", encoding="utf-8")
    problem = why_not(tmp_path / "presure.yaml")
    assert "no such file" in problem.what
    assert 'did you mean "pressure.yaml"?' in problem.instead


def test_missing_folder(tmp_path: Path) -> None:
    """A missing folder is told as such."""
    assert "no folder" in why_not(tmp_path / "away" / "x.yaml").instead


def test_folder(tmp_path: Path) -> None:
    """A folder is no file."""
    assert "folder" in why_not(tmp_path).what


def test_file_as_folder(tmp_path: Path) -> None:
    """A path through a file is refused."""
    (tmp_path / "a").write_text("x", encoding="utf-8")
    assert "file" in why_not(tmp_path / "a" / "b").what


@posix_only
def test_pipe_is_refused_without_waiting(tmp_path: Path) -> None:
    """A pipe is refused at once: nobody waits for a writer that never comes."""
    path = tmp_path / "pipe"
    os.mkfifo(path)
    assert "no ordinary file" in why_not(path).what


@posix_only
def test_device_and_socket(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A device and a socket are refused."""
    assert "no ordinary file" in why_not(Path("/dev/zero")).what
    monkeypatch.chdir(tmp_path)
    with socket.socket(socket.AF_UNIX) as server:
        server.bind("s")
        assert "no ordinary file" in why_not(Path("s")).what


@posix_only
def test_link_to_itself(tmp_path: Path) -> None:
    """A link in a circle is refused."""
    (tmp_path / "a").symlink_to(tmp_path / "a")
    assert "link" in why_not(tmp_path / "a").what


def test_no_right_to_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that may not be read is told as such."""
    path = tmp_path / "x.yaml"
    path.write_text("a: 1\n", encoding="utf-8")

    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    # The tests may run as root, whom no mode stops.
    monkeypatch.setattr(os, "open", refuse)
    assert "no right" in why_not(path).what


def test_strange_names() -> None:
    """A name with a NUL and one too long are refused like any other."""
    assert "no file name" in why_not(Path("a\0b")).what
    assert "too long" in why_not(Path("a" * 5000)).what


def test_too_large(tmp_path: Path) -> None:
    """More than 8 MB are refused, from a file and from bytes; 8 MB are read."""
    path = tmp_path / "x.yaml"
    with path.open("wb") as stream:
        stream.truncate(LARGEST + 1)
    assert "8 MB" in why_not(path).what
    with pytest.raises(Refused, match="1 problem"):
        parse_document(b"a" * (LARGEST + 1), "x.yaml")
    assert parse_document(b"a: " + b"x" * (LARGEST - 4) + b"\n", "x.yaml")


def test_empty_file(tmp_path: Path) -> None:
    """An empty file is told as such."""
    path = tmp_path / "x.yaml"
    path.touch()
    assert "empty" in why_not(path).what
