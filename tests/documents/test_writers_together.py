"""Several writers, and writers that die: nothing acknowledged is lost."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import textwrap
import threading
from pathlib import Path

import pytest

from sootsayer.documents import locking, writing
from sootsayer.documents.locking import Busy, locked
from sootsayer.documents.writing import CannotWrite, append_line
from sootsayer.documents.yaml_source import read_document

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


def test_order_on_the_disk(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The torn line is kept and on the disk before the mended file takes the name."""
    case.write_bytes(case.read_bytes() + b"- {")
    steps: list[str] = []
    fsync, replace = os.fsync, Path.replace

    def noted_fsync(descriptor: int) -> None:
        steps.append("fsync")
        fsync(descriptor)

    def noted_replace(self: Path, target: Path) -> Path:
        steps.append(f"rename to {target.name}")
        return replace(self, target)

    monkeypatch.setattr(os, "fsync", noted_fsync)
    monkeypatch.setattr(Path, "replace", noted_replace)
    append_line(case, "- {at: 2}")
    assert steps[:2] == ["fsync", "rename to x.yaml.torn"]
    assert [step for step in steps if "rename" in step] == [
        "rename to x.yaml.torn", "rename to x.yaml"]  # fmt: skip
    assert steps[steps.index("rename to x.yaml") - 1] == "fsync"


def test_killed_between_the_two_renames(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A writer killed after NAME.torn is written loses nothing and doubles nothing."""
    before = case.read_bytes()
    case.write_bytes(before + b"- {a")
    swap = writing._swap

    def killed(real: Path, data: bytes, status: os.stat_result | None) -> None:
        if real.name == "x.yaml":
            raise KeyboardInterrupt
        swap(real, data, status)

    with monkeypatch.context() as patch:
        patch.setattr(writing, "_swap", killed)
        with pytest.raises(KeyboardInterrupt):
            append_line(case, "- {at: 2}")
    assert case.read_bytes() == before + b"- {a"
    append_line(case, "- {at: 2}")
    assert case.read_bytes() == before + b"- {at: 2}\n"
    assert case.with_name("x.yaml.torn").read_bytes() == b"- {a\n"


def _appends(path: Path, name: str, count: int) -> None:
    for number in range(count):
        append_line(path, f"- {{by: {name}, n: {number}}}")


def test_two_processes_append(case: Path) -> None:
    """Two processes that append at once both keep every line, whole and in their order."""
    context = multiprocessing.get_context("spawn")
    workers = [context.Process(target=_appends, args=(case, name, 40)) for name in ("p", "q")]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join(60)
        assert worker.exitcode == 0
    lines = case.read_text(encoding="utf-8").splitlines()[3:]
    for name in ("p", "q"):
        assert [line for line in lines if name in line] == [
            f"- {{by: {name}, n: {n}}}" for n in range(40)]  # fmt: skip
    assert len(lines) == 80
    assert only(case)


def test_threads_append_and_replace(case: Path) -> None:
    """Threads that append while another mends torn tails lose no acknowledged line."""

    def tear() -> None:
        for _ in range(15):
            with locked(case), case.open("ab") as stream:
                stream.write(b"- {torn")

    threads = [threading.Thread(target=_appends, args=(case, n, 15)) for n in ("p", "q")]
    threads.append(threading.Thread(target=tear))
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    text = case.read_text(encoding="utf-8")
    assert all(text.count(f"- {{by: {name}, n: {n}}}\n") == 1
               for name in ("p", "q") for n in range(15))  # fmt: skip


@posix_only
def test_killed_while_appending(case: Path) -> None:
    """A process killed at any moment leaves every line that it had acknowledged."""
    program = textwrap.dedent("""
        import sys
        from pathlib import Path
        from sootsayer.documents.writing import append_line
        number = 0
        while True:
            append_line(Path(sys.argv[1]), f"- {{n: {number}}}")
            print(number, flush=True)
            number += 1
    """)
    for _ in range(3):
        case.write_text(f"{HEADER}{ENTRY}\n", encoding="utf-8")
        with subprocess.Popen(
            [sys.executable, "-c", program, str(case)], stdout=subprocess.PIPE, text=True
        ) as process:
            assert process.stdout is not None
            acknowledged = [process.stdout.readline() for _ in range(5)]
            process.send_signal(signal.SIGKILL)
            acknowledged += process.stdout.readlines()
        read_document(case, may_be_torn=True)
        lines = case.read_text(encoding="utf-8").splitlines()
        told = [int(number) for number in acknowledged if number.endswith("\n")]
        assert told == list(range(len(told)))
        assert all(f"- {{n: {number}}}" in lines for number in told)
        append_line(case, "- {at: 9}")
        assert case.read_text(encoding="utf-8").endswith("- {at: 9}\n")


def test_busy_file_is_told(case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that another keeps too long is left alone, and that is said."""
    monkeypatch.setattr(locking, "LONGEST_WAIT_S", 0.05)
    before = case.read_bytes()
    with locked(case):
        with pytest.raises(CannotWrite, match="another program"):
            append_line(case, "- {at: 2}")
        with pytest.raises(Busy), locked(case, 0.01):
            pytest.fail("locked twice")
    assert case.read_bytes() == before
    append_line(case, "- {at: 2}")
