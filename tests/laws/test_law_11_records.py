"""Law 11 for records: nothing acknowledged is lost, the chain is whole whatever happens."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.documents.writing import CannotWrite
from sootsayer.ledger.adding import add
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.model import Wrong
from sootsayer.ledger.reading import records
from tests.laws.test_law_11_nothing_lost import full_after, mounted
from tests.ledger.making import body, ledger_of

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="fork, POSIX modes and signals")
ROOT = Path(__file__).parents[2]


def under_fire(how: str, folder: Path, first: int, second: int = 0) -> dict[str, Any]:
    numbers = str(first), str(second)
    done = subprocess.run(
        [sys.executable, "-m", "tests.ledger.under_fire", how, str(folder), *numbers],
        cwd=ROOT, capture_output=True, text=True, timeout=1800, check=True,
    )  # fmt: skip
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def written_together(folder: Path, writers: int, count: int) -> None:
    """Each writer's records are there once, whole, in its order, in one chain."""
    told = under_fire("together", folder, writers, count)
    assert told["codes"] == [0] * writers
    found = check(ledger_in(folder))
    assert (found.count, found.flaw) == (writers * count, None)
    kept = [each.line.digest for each in records(ledger_in(folder))]
    for heard in told["acknowledged"]:
        digests = [line.split()[2] for line in heard]
        assert len(digests) == count
        places = [kept.index(digest) for digest in digests]
        assert places == sorted(places)
    assert len(set(kept)) == writers * count
    left = {each.name for each in folder.iterdir()}
    assert left == {"ledger.jsonl", "kept"}


def killed_often(folder: Path, times: int) -> None:
    """Every acknowledged record is there, in a whole chain, and the next one is added."""
    told = under_fire("killed", folder, times)
    assert told["killed"] == times
    ledger = ledger_in(folder)
    add(ledger, body(1, writer="after"))
    found = check(ledger)
    assert found.flaw is None
    kept = [each.line.digest for each in records(ledger)]
    acknowledged = [line.split()[2] for line in told["acknowledged"]]
    assert len(acknowledged) > times
    assert set(acknowledged) <= set(kept)
    # Beyond those at most the one that each death cut short of its word, and the last.
    assert len(kept) <= len(acknowledged) + times + 1
    assert b'"ca' in (folder / "ledger.jsonl.torn").read_bytes()


def test_writers_at_once_make_one_chain(tmp_path: Path) -> None:
    """8 processes write 25 records each: 200 whole records, one chain."""
    written_together(tmp_path, 8, 25)


@pytest.mark.slow
def test_many_writers_at_once_make_one_chain(tmp_path: Path) -> None:
    """8 processes write 500 records each: 4,000 whole records, one chain."""
    written_together(tmp_path, 8, 500)


def test_a_killed_writer_loses_nothing(tmp_path: Path) -> None:
    """Killed at 25 random moments: nothing acknowledged is lost, and verify passes."""
    killed_often(tmp_path, 25)


@pytest.mark.slow
def test_a_writer_killed_often_loses_nothing(tmp_path: Path) -> None:
    """Killed at 200 random moments: nothing acknowledged is lost, and verify passes."""
    killed_often(tmp_path, 200)


def test_a_last_line_torn_at_any_byte_is_mended(tmp_path: Path) -> None:
    """Cut at each byte of its last line: found, set aside whole, and what was whole untouched."""
    ledger = ledger_of(tmp_path, 4)
    lines = ledger.file.read_bytes().splitlines(keepends=True)
    whole, last = b"".join(lines[:3]), lines[3]
    for cut in range(1, len(last)):
        ledger.file.write_bytes(whole + last[:cut])
        (tmp_path / "ledger.jsonl.torn").unlink(missing_ok=True)
        flaw = check(ledger).flaw
        assert flaw is not None
        assert (flaw.wrong, flaw.number) == (Wrong.TORN, 4)
        added = add(ledger, body(4))
        assert (added.number, added.torn) == (4, cut)
        assert ledger.file.read_bytes() == whole + last
        assert (tmp_path / "ledger.jsonl.torn").read_bytes() == last[:cut] + b"\n"


@pytest.mark.parametrize("hole", [64, 600, 4096])
def test_what_a_power_cut_leaves_is_torn_too(hole: int, tmp_path: Path) -> None:
    """A line with its newline but with sectors of zeros in it was never acknowledged."""
    ledger = ledger_of(tmp_path, 3)
    before = ledger.file.read_bytes()
    ledger.file.write_bytes(before + b'{"body":{"at"' + bytes(hole) + b'"}\n')
    flaw = check(ledger).flaw
    assert flaw is not None
    assert flaw.wrong is Wrong.TORN
    assert add(ledger, body(4)).number == 4
    assert ledger.file.read_bytes().startswith(before)
    assert check(ledger).flaw is None


def test_a_first_line_that_is_torn(tmp_path: Path) -> None:
    """A ledger with nothing but a torn line begins anew behind it."""
    ledger = ledger_of(tmp_path, 0)
    ledger.file.write_bytes(b'{"body"')
    assert add(ledger, body(1)).number == 1
    assert check(ledger).flaw is None


def fill(ledger: Ledger) -> str:
    """Add until it is refused; the reason. Each time the ledger is old or new."""
    for number in range(1, 10_000):
        before = ledger.file.read_bytes() if ledger.exists() else b""
        try:
            add(ledger, body(number))
        except CannotWrite as refusal:
            assert ledger.file.read_bytes() == before
            assert check(ledger).count == number - 1
            assert check(ledger).flaw is None
            return refusal.why
    pytest.fail("the disk never became full")


def test_a_full_disk_leaves_the_ledger_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a disk of 64 kB every record is whole on it, or refused with the ledger as it was."""
    with mounted(tmp_path / "disk", "size=64k") as really:
        if really:
            assert fill(ledger_of(tmp_path / "disk", 0)) == "the disk is full"
    ledger = ledger_of(tmp_path / "other", 2)  # the same without a right to mount
    with full_after(1200, monkeypatch):
        add(ledger, body(3))
        with pytest.raises(CannotWrite, match="the disk is full"):
            add(ledger, body(4, filling="x" * 800))
    assert check(ledger).flaw is None


@pytest.mark.parametrize("room", range(0, 700, 53))
def test_a_disk_full_at_any_byte(
    room: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Wherever in a record the disk is full, the ledger is what it was."""
    ledger = ledger_of(tmp_path, 2)
    before = ledger.file.read_bytes()
    with full_after(room, monkeypatch), pytest.raises(CannotWrite, match="the disk is full"):
        add(ledger, body(3, filling="x" * 800))
    assert ledger.file.read_bytes() == before
    assert add(ledger, body(3)).number == 3


def test_without_rights_nothing_is_added(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing may be written nothing is, and the reason is said."""
    ledger = ledger_of(tmp_path, 2)
    before = ledger.file.read_bytes()
    opened = os.open

    def denied(name: Any, flags: int, *rest: Any, **more: Any) -> int:
        if flags & (os.O_WRONLY | os.O_RDWR):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return opened(name, flags, *rest, **more)

    with monkeypatch.context() as patch:
        patch.setattr(os, "open", denied)
        with pytest.raises(CannotWrite, match="there is no right to write here"):
            add(ledger, body(3))
    assert ledger.file.read_bytes() == before


def test_an_export_is_never_added_to(tmp_path: Path) -> None:
    """A copy stays a copy: who went on writing in it would have two ledgers."""
    ledger = ledger_of(tmp_path, 2)
    ledger.file.rename(tmp_path / "export.jsonl")
    with pytest.raises(Refused):
        add(ledger_in(tmp_path), body(3))
    assert check(ledger_in(tmp_path)).count == 2
