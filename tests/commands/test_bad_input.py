"""Bad input through the real command line: named with its place, soon, in little memory.

Each file is read by a process of its own, which may use 300 MB, and as root has given up the
right to read what it has no right to read.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryFile

import pytest

import sootsayer
from sootsayer.documents.escaping import visible
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from tests.commands.bad_files import CASES, FREE_CASE, MARKUP, PACKS, Bad

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="limits of a process are POSIX")

SECONDS = 2.0
MEMORY = 300 * 2**20
# Sets the limits and becomes the program. The two powers: to read and to search as one likes.
LAUNCH = """
import ctypes, os, resource, sys
memory = int(sys.argv[1])
resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
if os.geteuid() == 0 and sys.platform == "linux":
    drop, powers = 24, (1, 2)
    for power in powers:
        if ctypes.CDLL(None, use_errno=True).prctl(drop, power, 0, 0, 0):
            sys.exit("cannot give up a power")
os.execv(sys.executable, [sys.executable, "-m", "sootsayer", *sys.argv[2:]])
"""


@dataclass(frozen=True, slots=True)
class Ended:
    """How the program ended; `seconds` of processor time."""

    code: int
    out: str
    err: str
    seconds: float


def run(folder: Path, *arguments: str, program: Path | None = None) -> Ended:
    """The program run in `folder` with little memory; `program`: where another copy of it is."""
    environment = {**os.environ, "HOME": str(folder), "NO_COLOR": "1", "TERM": "dumb"}
    paths = [
        str(Path(p).resolve()) for p in environment.get("PYTHONPATH", "").split(os.pathsep) if p
    ]
    environment["PYTHONPATH"] = os.pathsep.join([*([str(program)] if program else []), *paths])
    with TemporaryFile() as out, TemporaryFile() as err:
        process = subprocess.Popen(
            [sys.executable, "-c", LAUNCH, str(MEMORY), *arguments],
            cwd=folder, env=environment, stdin=subprocess.DEVNULL, stdout=out, stderr=err,
        )  # fmt: skip
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        said = []
        for stream in (out, err):
            stream.seek(0)
            said.append(stream.read().decode())
    seconds = used.ru_utime + used.ru_stime
    return Ended(process.returncode, said[0], said[1], seconds)


def listing(folder: Path) -> list[tuple[str, int, int]]:
    """Everything in a folder, with size and time of change."""
    found = ((str(p.relative_to(folder)), p.lstat()) for p in sorted(folder.rglob("*")))
    return [(name, stat.st_size, stat.st_mtime_ns) for name, stat in found]


@dataclass(frozen=True, slots=True)
class Told:
    """One problem as it was told: where, what, the quoted line if there is one, what instead."""

    file: str
    line: int
    column: int
    what: str
    quoted: str | None
    instead: str


def problems(err: str) -> list[Told]:
    """The problems in what was said; anything that is no part of one is an error."""
    found = []
    for block in re.split(r"\n(?=\S)", err.rstrip("\n")):
        first, *rest = block.split("\n")
        place = re.fullmatch(r"(.+?):(\d+):(\d+): (.+)", first)
        assert place, first
        assert rest[-1].startswith("  → "), block
        assert len(rest) in (1, 2, 3), block
        assert all(line.startswith("    ") for line in rest[:-1]), block
        quoted = rest[0][4:] if len(rest) > 1 else None
        if len(rest) == 3:
            assert rest[1].strip() == "^", block
        number, column = int(place[2]), int(place[3])
        found.append(Told(place[1], number, column, place[4], quoted, rest[-1][4:]))
    return found


def is_named(ended: Ended, told: Sequence[Told], file: str, bad: Bad) -> None:
    """Every fault of a bad file is told, at its place, the line quoted, with what is right."""
    mine = [one for one in told if one.file == file]
    assert mine, (file, ended.err)
    lines = bad.data.decode("utf-8", "surrogateescape").split("\n")
    for one in mine:
        assert len(one.instead) > 4
        assert 1 <= one.line <= len(lines)
        line = visible(
            re.sub("[\udc80-\udcff]", lambda s: chr(ord(s[0]) - 0xDC00), lines[one.line - 1])
        )
        if line.strip() and "empty" not in one.what:
            assert one.quoted, one
            assert one.quoted.strip("… ") in line, one
    for number, words in bad.told:
        assert [one for one in mine if one.line == number and words in one.what], (words, mine)


def ended_in_time(ended: Ended, code: int) -> None:
    """With this exit code, within the time, no traceback, nothing that could steer a screen."""
    assert ended.code == code, ended.err
    assert ended.seconds < SECONDS
    said = ended.out + ended.err
    assert "Traceback" not in said
    assert "a fault of sootsayer" not in said
    assert {c for c in said if unicodedata.category(c) in {"Cc", "Cf", "Cs"}} <= {"\n"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder to work in, in which nothing may change."""
    place = tmp_path / "work"
    place.mkdir()
    return place


@pytest.mark.parametrize("name", sorted(CASES))
def test_bad_case_is_named(name: str, folder: Path) -> None:
    """Each fault of a bad case: file:line:column, what is wrong, what would be right, the line."""
    (folder / f"{name}.yaml").write_bytes(CASES[name].data)
    before = listing(folder)
    ended = run(folder, "judge", f"{name}.yaml")
    ended_in_time(ended, 2)
    assert ended.out == ""
    is_named(ended, problems(ended.err), f"{name}.yaml", CASES[name])
    assert listing(folder) == before


def test_case_that_cannot_be_read_is_named(folder: Path) -> None:
    """A folder, a file without the right to read it, and no file at all: named, with what to do."""
    (folder / "folder.yaml").mkdir()
    locked = folder / "locked.yaml"
    locked.write_text("case: locked\n", encoding="utf-8")
    locked.chmod(0)
    before = listing(folder)
    for name, what in (("folder", "this is a folder"), ("locked", "no right to read")):
        ended = run(folder, "judge", f"{name}.yaml")
        ended_in_time(ended, 2)
        (told,) = problems(ended.err)
        assert (told.file, told.line, told.column) == (f"{name}.yaml", 1, 1)
        assert what in told.what
    ended = run(folder, "why", "missing.yaml", "soot-overload")
    ended_in_time(ended, 2)
    assert 'there is no file "missing.yaml"' in ended.err
    assert "→ check the path" in ended.err
    assert listing(folder) == before


def test_markup_in_free_text_is_shown_as_typed(folder: Path) -> None:
    """Markup in a case's free texts is no order, and a mark that reverses text is written out."""
    (folder / "free.yaml").write_text(FREE_CASE, encoding="utf-8")
    before = listing(folder)
    ended = run(folder, "judge", "free.yaml", "--more")
    assert ended.code == 0, ended.err
    assert f"{MARKUP} \\u202estory" in ended.out
    assert f"{MARKUP} \\u202elabel" in ended.out
    assert {c for c in ended.out if unicodedata.category(c) in {"Cc", "Cf", "Cs"}} == {"\n"}
    assert listing(folder) == before


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the program with no packs of its own: `sootsayer/shipped/rules` is for bad ones."""
    source = Path(sootsayer.__file__).parent
    package = tmp_path / "program" / "sootsayer"
    shutil.copytree(source, package, ignore=shutil.ignore_patterns("shipped"))
    shutil.copytree(shipped_rules() / "schema", package / "shipped" / "rules" / "schema")
    shutil.copytree(shipped_cases(), package / "shipped" / "cases")
    return tmp_path / "program"


def test_bad_packs_are_named(copy: Path, folder: Path) -> None:
    """Every fault of every bad pack in one run; unreadable ones, folders and lost links too."""
    rules = copy / "sootsayer" / "shipped" / "rules"
    for name, bad in PACKS.items():
        (rules / f"{name}.yaml").write_bytes(bad.data.replace(b"NAME", name.encode()))
    (rules / "folder.yaml").mkdir()
    (rules / "lost.yaml").symlink_to(rules / "nowhere.yaml")
    (rules / "locked.yaml").write_text("pack: locked\n", encoding="utf-8")
    (rules / "locked.yaml").chmod(0)
    before = listing(rules), listing(folder)
    ended = run(folder, "judge", "sensor-offset", program=copy)
    ended_in_time(ended, 2)
    assert ended.out == ""
    told = problems(ended.err)
    for name, bad in PACKS.items():
        data = bad.data.replace(b"NAME", name.encode())
        is_named(ended, told, str(rules / f"{name}.yaml"), Bad(data, bad.told))
    unread = {"folder": "a folder", "locked": "no right to read", "lost": "no such file"}
    for name, what in unread.items():
        (one,) = [one for one in told if one.file == str(rules / f"{name}.yaml")]
        assert what in one.what
    assert {Path(one.file).stem for one in told} == {*PACKS, *unread}
    assert (listing(rules), listing(folder)) == before


def test_no_packs_at_all_is_named(copy: Path, folder: Path) -> None:
    """A program without a pack says so, and where it looked."""
    ended = run(folder, "judge", "sensor-offset", program=copy)
    ended_in_time(ended, 2)
    (told,) = problems(ended.err)
    assert told.file == str(copy / "sootsayer" / "shipped" / "rules")
    assert "no pack" in told.what


def test_markup_in_a_pack_is_shown_as_typed(copy: Path, folder: Path) -> None:
    """Markup in every free text of the shipped packs changes no more than those texts."""
    rules = copy / "sootsayer" / "shipped" / "rules"
    for pack in shipped_rules().glob("*.yaml"):
        text = pack.read_text("utf-8")
        marked = re.sub(
            r"(?m)^(\s+(?:says|caution|does|label): ).+$", rf"\g<1>'{MARKUP} \\u202e'", text
        )
        marked = marked.replace("\\u202e", "\u202e")
        (rules / pack.name).write_text(marked, encoding="utf-8")
    ended = run(folder, "judge", "sensor-offset", "--more", program=copy)
    assert ended.code == 0, ended.err[:2000]
    shown = re.sub(r"\s+", " ", ended.out)
    assert shown.count(f"{MARKUP} \\u202e") > 50
    assert {c for c in ended.out if unicodedata.category(c) in {"Cc", "Cf", "Cs"}} == {"\n"}
