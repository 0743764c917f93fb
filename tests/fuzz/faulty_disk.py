"""A disk that fails, or a process that dies, at the n-th thing that is done to files.

Run as a program in a new process, which forks: each attempt has a process of its own. What counts:
opening for writing, each write (half of it is done first), each flush to the disk, each rename,
removal, new folder, cutting short, connection of the index.
"""

from __future__ import annotations

import errno
import io
import json
import os
import signal
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

import pytest

from tests.fuzz.running import run
from tests.fuzz.world import AT, World, lay, world

FULL, KILLED = "full", "killed"
_WATCHED = {"os.rename", "os.remove", "os.truncate", "os.mkdir", "sqlite3.connect"}
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT
NEVER = 10_000
LATE = ("--at", AT)
LESSON = """\
There is soot at the clamp
new
1
Soot at the clamp of the front hose
Look at the clamp with a lamp
3
4
Let the exhaust cool first; gloves
yes
hose-leaks
usually
none
rarely
3
shop-soot-at-clamp
yes
"""


@dataclass(frozen=True, slots=True)
class Writing:
    """A command that writes. `gone_on`: run after a failure, it must end as the first would have;
    `derived`: how the names of files begin that may be lost, since they are made again; `grows`:
    files that are added to, line by line."""

    arguments: Sequence[str]
    files: Sequence[str] = ()
    typed: str | None = None
    derived: tuple[str, ...] = ()
    grows: tuple[str, ...] = ()


COMMANDS: dict[str, Writing] = {
    "ask, answers": Writing(
        ("ask", "case.yaml", "--answers", "answers.txt", *LATE), grows=("case.yaml",)
    ),
    "ask, a torn case": Writing(
        ("ask", "torn.yaml", "--answers", "answers.txt", *LATE), grows=("torn.yaml",)
    ),
    "ask, new": Writing(("ask", "new.yaml", "--new", *LATE), typed="van\n\n\n\n\n\n\n\n\ndone\n",
        grows=("new.yaml",),
    ),
    "readings": Writing(("readings", "log.csv", "case.yaml", "--all", *LATE), grows=("case.yaml",)),
    "readings, picture": Writing(("readings", "log.csv", "--picture", "new.svg")),
    "compare, picture": Writing(("compare", "two.yaml", "--picture", "new.svg", *LATE)),
    "report": Writing(("report", "two.yaml", "-o", "new.html", *LATE)),
    "plan, new shop": Writing(("plan", "--new-shop", "new.yaml")),
    "records keep, first": Writing(("records", "keep", "van", "--by", "t", "--ledger", "new"),
        grows=("new/ledger.jsonl",),
    ),
    "records keep": Writing(("records", "keep", "van", "--by", "t", "--ledger", "l"),
        grows=("l/ledger.jsonl",),
    ),
    "records outcome": Writing(
        ("records", "outcome", "2", "--by", "t", "--faults", "none", "--proved-by", "x",
         "--cured-by", "", "--case", "own.yaml", "--ledger", "open"),
        grows=("own.yaml", "open/ledger.jsonl"),
    ),
    "records explain": Writing(("records", "explain", "1", "-o", "new.html", "--ledger", "l")),
    "records list": Writing(("records", "list", "--ledger", "l"), derived=("l/index.sqlite",)),
    "records export": Writing(("records", "export", "new", "--ledger", "l")),
    "rules check, junit": Writing(("rules", "check", "--junit", "old.xml")),
    "rules new": Writing(("rules", "new", "--shop", "shop"), typed=LESSON),
    "rules rates": Writing(
        ("rules", "rates", "--cases", "closed", "--resume", "j.jsonl", "--processes", "1"),
        derived=("j.jsonl",),
    ),
    "cases make": Writing(
        ("cases", "make", "--n", "3", "--seed", "1", "--out", "new", "--processes", "1")
    ),
    "the kept rulebook": Writing(("judge", "van"), derived=("cache/",)),
}  # fmt: skip


def files_of(made: World) -> dict[str, bytes]:
    """What lies there before: all of it somebody's truth."""
    ledger = {f"l/{name}": data for name, data in made.ledger.items()}
    opened = {f"open/{name}": data for name, data in made.ledger.items()}
    opened["open/ledger.jsonl"] = b"".join(
        made.ledger["ledger.jsonl"].splitlines(keepends=True)[:2]
    )
    return {
        **ledger, **opened,
        "case.yaml": made.cases["van"],
        "torn.yaml": made.cases["van"] + b"- {at: 2031-03-1",
        "two.yaml": made.cases["two-rounds"],
        "own.yaml": made.own,
        "closed/closed.yaml": made.cases["closed"],
        "answers.txt": b"note soft hose\nnote and dry\n",
        "log.csv": made.logs[0],
        "old.xml": b"<testsuites/>\n",
        "shop/shop.yaml": b"format: 1\n",
    }  # fmt: skip


class _Half(io.FileIO):
    """Writes half of what it is given where the disk is full."""

    struck: Callable[[], bool]

    def write(self, data: Any) -> int:
        view = memoryview(data).cast("B")
        if self.struck():
            super().write(view[: len(view) // 2])
            _strike()
        return super().write(view) or 0


_how = FULL
_left = [NEVER]
_done = [0]


def _struck() -> bool:
    _done[0] += 1
    _left[0] -= 1
    return _left[0] == 0


def _strike() -> NoReturn:
    if _how == KILLED:
        os.kill(os.getpid(), signal.SIGKILL)
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _step() -> None:
    if _struck():
        _strike()


def _install(folder: Path) -> None:
    """From now on each thing done to a file below the folder counts."""
    write, fsync, fdopen = os.write, os.fsync, os.fdopen

    def watched(event: str, arguments: tuple[Any, ...]) -> None:
        writes = event == "open" and isinstance(arguments[2], int) and arguments[2] & _WRITING
        named = str(arguments[0]) if arguments else ""
        inside = not named.startswith(("/proc", "/dev"))
        if inside and (writes or event in _WATCHED):
            _step()

    def half(descriptor: int, data: bytes) -> int:
        if descriptor > 2 and _struck():
            write(descriptor, data[: len(data) // 2])
            _strike()
        return write(descriptor, data)

    def flushed(descriptor: int) -> None:
        _step()
        fsync(descriptor)

    def opened(descriptor: int, mode: str = "r", *more: Any, **named: Any) -> Any:
        if mode != "wb":
            return fdopen(descriptor, mode, *more, **named)
        raw = _Half(descriptor, "wb")
        raw.struck = _struck
        return io.BufferedWriter(raw)

    os.write, os.fsync, os.fdopen = half, flushed, opened  # type: ignore[assignment]
    sys.addaudithook(watched)
    assert folder.is_dir()


def attempt(writing: Writing, folder: Path, how: str, at: int) -> tuple[object, int]:
    """The command in a process of its own, struck at the n-th step: its exit code (a signal as a
    negative number), and how many steps there were; -1 where it did not come to tell."""
    global _how
    reading, told = os.pipe()
    process = os.fork()
    if process == 0:
        code = 99
        try:
            os.close(reading)
            signal.alarm(60)  # whatever hangs is ended
            os.chdir(folder)
            _how = how
            tell = os.write
            _install(folder)
            _left[0], _done[0] = at, 0
            ended = run(writing.arguments, writing.typed)
            steps = _done[0]
            _left[0] = NEVER
            said = json.dumps([ended.code, steps, ended.wrong, ended.err[-400:]])
            tell(told, said.encode())
            code = 0
        finally:
            os._exit(code)
    os.close(told)
    with os.fdopen(reading, "rb") as stream:
        heard = stream.read()
    status = os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])
    if status or not heard:
        return status, -1
    code, steps, wrong, err = json.loads(heard)
    if wrong:
        return f"{wrong} {err}", steps
    return code, steps


def _warm(writing: Writing, folder: Path) -> None:
    """Once in this process: what the command imports need not be imported in each of its own."""
    here = Path.cwd()
    os.chdir(folder)
    try:
        run(writing.arguments, writing.typed)
    finally:
        os.chdir(here)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file, but locks and passing files of a process that was killed."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith((".tmp", ".lock")) and ".open" not in path.name
    }


def flaws(
    writing: Writing, before: dict[str, bytes], now: dict[str, bytes], after: dict[str, bytes]
) -> list[str]:
    """Files that are neither old nor new. One that is added to may be any whole lines of the new,
    or, after a death, end in a torn line, which every reader leaves out."""
    found = []
    for name in {**before, **now}:
        if name.startswith(writing.derived) and writing.derived:
            continue
        old, new, is_now = before.get(name), after.get(name), now.get(name)
        if is_now in (old, new) or name.endswith(".torn"):
            continue
        if name in writing.grows and _begun(new, is_now):
            continue
        found.append(f"{name}: {len(is_now or b'')} bytes, neither old nor new")
    return found


def _begun(new: bytes | None, now: bytes | None) -> bool:
    """A journal or a ledger that is begun: it is what it will be, as far as it goes."""
    return new is not None and now is not None and new.startswith(now)


def all_steps(name: str, folder: Path, made: World, hows: Sequence[str]) -> dict[str, Any]:
    """The command struck at each of its steps."""
    writing = COMMANDS[name]
    files = files_of(made)

    def fresh() -> None:
        lay(folder, files)
        if writing.derived == ("cache/",):
            (folder / "cache").mkdir()

    fresh()
    _warm(writing, folder)
    fresh()
    code, steps = attempt(writing, folder, FULL, NEVER)
    after, found = contents(folder), list[str]()
    if code not in (0, 1):
        return {"name": name, "steps": steps, "found": [f"does not run: {code}"], "struck": 0}
    struck = 0
    for how in hows:
        for at in range(1, steps + 1):
            fresh()
            ended, _ = attempt(writing, folder, how, at)
            now = contents(folder)
            where = f"{name}, {how} at step {at} of {steps}"
            struck += 1
            if how == FULL and ended not in (0, 1, 2):
                found.append(f"{where}: {ended}")
            wrong = flaws(writing, files, now, after)
            if how == FULL and ended == 0 and not writing.derived and wrong == [] and now != after:
                found.append(f"{where}: acknowledged, and not written: {set(after) - set(now)}")
            found += [f"{where}: {each}" for each in wrong]
            if how == FULL:
                left = [p.name for p in folder.rglob("*") if p.name.endswith(".tmp")]
                found += [f"{where}: {each} was left" for each in left]
            if at % 3:
                continue
            again, _ = attempt(writing, folder, FULL, NEVER)
            if again not in (0, 1, 2):
                found.append(f"{where}: then {again}")
    return {"name": name, "steps": steps, "found": found, "struck": struck, "code": code}


def main(where: str, hows: Sequence[str], names: Sequence[str]) -> None:
    """A line of JSON for each command."""
    place = Path(where)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NO_COLOR", "1")
        patch.delenv("SOOTSAYER_SHOP", raising=False)
        made = world(place / "world", patch)
        for name in names or COMMANDS:
            if name == "the kept rulebook":
                from tests.fuzz.world import rulebook_opened_each_time

                rulebook_opened_each_time(patch)
                patch.setenv("SOOTSAYER_CACHE", str(place / "work" / "cache"))
            print(json.dumps(all_steps(name, place / "work", made, hows)), flush=True)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2].split(","), sys.argv[3:])
