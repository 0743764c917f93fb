"""One archive, however many processes and however often it was stopped: the same rows."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Any

import pytest

from sootsayer.catalogue import language, speaking
from sootsayer.documents.problems import Refused
from sootsayer.learning.archive import running
from sootsayer.learning.archive.counted import Counted, once_each
from sootsayer.learning.archive.journal import Journal
from sootsayer.learning.archive.rows import Row, as_line, from_line
from sootsayer.learning.archive.running import Died, replayed
from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.backtest.tally import tallied
from sootsayer.learning.backtest.task import BacktestTask
from tests.learning.archive.support import HEALTHY, case_text, put, some_archive, tried

TASK = tried(("label: Filter blocked, kind: condition, prior: 0.1", "label: Filter blocked, "
              "kind: condition, prior: 0.4"))  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return some_archive(tmp_path / "archive")


def lines(rows: Iterator[Row[Any]]) -> list[str]:
    return [as_line(TASK, row, "") for row in rows]


def test_two_processes_as_one(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Row for row the same, in the same order."""
    monkeypatch.setattr(running, "AT_ONCE", 2)
    shelf = LocalShelf(folder)
    one, two = (lines(replayed(TASK, shelf, processes=n)) for n in (1, 2))
    assert one == two
    assert len(one) == 7


def test_rows_travel_whole(folder: Path) -> None:
    """What is written in a journal reads back to the same row, to the last bit."""
    for row in replayed(TASK, LocalShelf(folder)):
        assert from_line(TASK, as_line(TASK, row, "mark")) == (row, "mark")


@dataclass(frozen=True, slots=True)
class KilledOnce:
    """A task whose process is killed at one file, the first time (`always`: each time)."""

    inner: BacktestTask
    at: str
    flag: Path
    always: bool = False

    @property
    def key(self) -> str:
        return self.inner.key

    def worker(self) -> KilledWorker:
        return KilledWorker(self)

    def plain(self, found: Any) -> Any:
        return self.inner.plain(found)

    def from_plain(self, plain: Any) -> Any:
        return self.inner.from_plain(plain)


class KilledWorker:
    def __init__(self, task: KilledOnce) -> None:
        self._task, self._inner = task, task.inner.worker()

    def row(self, name: str, data: bytes) -> Row[Any]:
        if name == self._task.at and (self._task.always or not self._task.flag.exists()):
            self._task.flag.touch()
            os.kill(os.getpid(), signal.SIGKILL)
        return self._inner.row(name, data)


@dataclass(frozen=True, slots=True)
class Asked:
    """A task, and its worker, whose rows say which language is in force where they are made."""

    key: str = "asked"

    def worker(self) -> Asked:
        return self

    def row(self, name: str, data: bytes) -> Row[str]:  # noqa: ARG002 (nothing is read)
        return Row(name, "", language())

    def plain(self, found: str) -> str:
        return found

    def from_plain(self, plain: str) -> str:
        return plain


def test_processes_speak_as_the_one_that_started_them(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a process says of a file is in the language of whoever asked."""
    monkeypatch.setattr(running, "AT_ONCE", 2)
    with speaking("xx"):
        rows = list(replayed(Asked(), LocalShelf(folder), processes=2))
    assert {row.found for row in rows} == {"xx"}


@pytest.mark.skipif(os.name == "nt", reason="no SIGKILL there")
def test_a_killed_process(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its files are done again; one that kills each time ends the run and is named."""
    monkeypatch.setattr(running, "AT_ONCE", 2)
    shelf, plain = LocalShelf(folder), lines(replayed(TASK, LocalShelf(folder)))
    once = KilledOnce(TASK, "1/case-3.yaml", tmp_path / "flag")
    assert lines(replayed(once, shelf, processes=2)) == plain
    assert once.flag.exists()
    always = KilledOnce(TASK, "1/case-3.yaml", tmp_path / "flag", always=True)
    with pytest.raises(Died, match=r"1/case-3\.yaml"):
        list(replayed(always, shelf, processes=2))


def test_stopped_and_resumed(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A run that was stopped goes on where it was, and comes to the same."""
    shelf, kept = LocalShelf(folder), tmp_path / "kept"
    whole = lines(replayed(TASK, shelf))
    stopped: Any = replayed(TASK, shelf, journal=Journal(kept, TASK, "a"))
    assert len(list(islice(stopped, 4))) == 4
    stopped.close()
    done = count_judged(monkeypatch)
    assert lines(replayed(TASK, shelf, journal=Journal(kept, TASK, "a"))) == whole
    assert len(done) == 3
    assert lines(replayed(TASK, shelf, journal=Journal(kept, TASK, "a"))) == whole
    assert len(done) == 3


def count_judged(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The files that are really replayed from here on."""
    done: list[str] = []
    before = running._row

    def counting(worker: Any, shelf: Any, item: Any) -> Row[Any]:
        done.append(item.name)
        return before(worker, shelf, item)

    monkeypatch.setattr(running, "_row", counting)
    return done


def test_a_half_written_line_of_the_journal(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is none: its file is done again."""
    shelf, kept = LocalShelf(folder), tmp_path / "kept"
    whole = lines(replayed(TASK, shelf, journal=Journal(kept, TASK, "a")))
    kept.write_bytes(kept.read_bytes()[:-5])
    done = count_judged(monkeypatch)
    assert lines(replayed(TASK, shelf, journal=Journal(kept, TASK, "a"))) == whole
    assert done == ["1/case-5.yaml"]


def test_a_case_that_changed_meanwhile(folder: Path, tmp_path: Path) -> None:
    """What was kept of it, and of all behind it, is worked out again."""
    shelf, kept = LocalShelf(folder), tmp_path / "kept"
    list(replayed(TASK, shelf, journal=Journal(kept, TASK, "a")))
    put(folder, "0/case-4.yaml", case_text("case-4", HEALTHY, ["sensor-stuck"]))
    put(folder, "0/case-7.yaml", case_text("case-7", HEALTHY, []))
    (folder / "1/case-1.yaml").unlink()
    again = lines(replayed(TASK, shelf, journal=Journal(kept, TASK, "a")))
    assert again == lines(replayed(TASK, shelf))


def test_a_journal_of_another_run(folder: Path, tmp_path: Path) -> None:
    """Another pack, archive or option, or a file that is none: refused, and left as it is."""
    kept = tmp_path / "kept"
    list(replayed(TASK, LocalShelf(folder), journal=Journal(kept, TASK, "a")))
    other = tried(("label: Filter blocked", "label: Filter blocked or wet"))
    mine = put(tmp_path, "mine.txt", "dear diary\n")
    for path, task, name in ((kept, other, "a"), (kept, TASK, "b"), (mine, TASK, "a")):
        before = path.read_bytes()
        with pytest.raises(Refused, match="1 problem"):
            Journal(path, task, name)
        assert path.read_bytes() == before


def test_the_first_of_an_id_counts(folder: Path) -> None:
    """A copy of a case is counted as one and named with the file that counts."""
    put(folder, "2/copy.yaml", case_text("case-3", HEALTHY, []))
    counted = Counted()
    found = dict(once_each(replayed(TASK, LocalShelf(folder)), counted))
    assert len(found) == counted.replayed == 7
    (named,) = counted.named
    assert (named.name, named.case, named.detail) == ("2/copy.yaml", "case-3", "1/case-3.yaml")


def test_sums_to_the_last_bit(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is added up over processes is what is added up in one."""
    monkeypatch.setattr(running, "AT_ONCE", 2)
    shelf = LocalShelf(folder)
    one, two = (tallied(replayed(TASK, shelf, processes=n)) for n in (1, 2))
    assert one == two
    assert one.squared_after.hex() == two.squared_after.hex()
