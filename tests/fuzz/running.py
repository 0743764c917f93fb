"""One input through the real command line: what must hold of every run, whatever the input.

An exit code of the documented ones; a complaint that ends with the next action, or an answer; no
traceback and nothing on the screen that steers it; two seconds of processor time; files as they
were, or grown by what was acknowledged.
"""

from __future__ import annotations

import io
import json
import os
import re
import resource
import signal
import sys
import time
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from unittest.mock import patch

from sootsayer.commands.main import main

SECONDS = 2.0
MEMORY = 300 * 2**20
NEVER = ("Traceback", "a fault of sootsayer")
NEVER_ON_A_PAGE = ("<script>alert", "<img src=x")
BETWEEN_SHEETS = f"\n{'=' * 78}\n\f\n"  # our own: a printer begins anew
# Format characters that are seen: signs before numbers and letters, which some scripts need.
SEEN = {*map(chr, (*range(0x600, 0x606), 0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD))}
SEEN |= {*map(chr, range(0x13430, 0x13440))}
_RAW = {"Cc", "Cf", "Cs", "Zl", "Zp"}


@dataclass(frozen=True, slots=True)
class Attempt:
    """Files to lay in a folder, and what is run there, one after another.

    `typed`: what a person types, None where there is no terminal. `grows`: files that may get more
    at their end; `changes`: files that are nobody's truth; `appears`: beginnings of names of files
    that may be new. `after`: what must succeed after all. `expects`: what must be said.
    """

    files: Mapping[str, bytes]
    commands: Sequence[Sequence[str]]
    typed: str | None = None
    grows: Sequence[str] = ()
    appears: Sequence[str] = ()
    changes: Sequence[str] = ()
    after: Sequence[str] | None = None
    expects: str | None = None


@dataclass(frozen=True, slots=True)
class Ended:
    """How one run ended; `seconds` of processor time; `wrong`: what must not be."""

    arguments: tuple[str, ...]
    code: object
    out: str
    err: str
    seconds: float
    wrong: list[str] = field(default_factory=list)


class TooLong(BaseException):
    """Raised inside a run that has used up its time. No wall of the program holds it."""


class Typed(io.StringIO):
    """What is typed at a terminal."""

    def isatty(self) -> bool:
        return True

    def reconfigure(self, **_: object) -> None:
        """As the real one: here every character is one already."""


class Screen(io.StringIO):
    """A terminal, without colour."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


@contextmanager
def _limited(seconds: float) -> Iterator[None]:
    """Processor time, so that a busy machine makes nothing fail."""

    def stop(_: int, __: FrameType | None) -> None:
        raise TooLong

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds, 0.5)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def run(arguments: Sequence[str], typed: str | None = None) -> Ended:
    """The program run in this process and folder."""
    out, err = (io.StringIO() if typed is None else Screen()), io.StringIO()
    stdin = io.StringIO() if typed is None else Typed(typed)
    wrong: list[str] = []
    code: object = None
    began = time.process_time()
    try:
        with (
            _limited(SECONDS), redirect_stdout(out), redirect_stderr(err),
            patch.object(sys, "stdin", stdin),
        ):  # fmt: skip
            code = main(arguments)
    except TooLong:
        wrong.append(f"longer than {SECONDS} s")
    except BaseException as trouble:
        wrong.append(f"{type(trouble).__name__} came out: {trouble}")
    seconds = time.process_time() - began
    ended = Ended(tuple(arguments), code, out.getvalue(), err.getvalue(), seconds, wrong)
    if not wrong:
        wrong += _ended_badly(ended)
    return ended


def _ended_badly(ended: Ended) -> Iterator[str]:
    said = ended.out + ended.err
    if ended.code not in (0, 1, 2):
        yield f"exit code {ended.code}"
    if ended.code == 2 and not _next_action(ended):
        yield "refused without the next action"
    if ended.code != 2 and not ended.out and not {"-o", "--new-shop"} & set(ended.arguments):
        yield "silence"
    yield from (f"said {words!r}" for words in NEVER if words in said)
    if ended.out.lower().startswith("<!doctype"):
        yield from (f"a page with {words!r}" for words in NEVER_ON_A_PAGE if words in said)
    if ended.arguments[:1] == ("report",):
        said = said.replace(BETWEEN_SHEETS, "\n")
    raw = {c for c in said if unicodedata.category(c) in _RAW} - {"\n"} - SEEN
    if raw:
        yield f"raw on the screen: {sorted(raw)!r}"
    if _is_json(ended.arguments) and ended.code != 2:
        try:
            json.loads(ended.out)
        except ValueError as no:
            yield f"no JSON: {no}"


def _next_action(ended: Ended) -> bool:
    """On stderr; of `rules check`, whose answer are the errors, on stdout."""
    if ended.arguments[:2] == ("rules", "check") and ended.out:
        return "→" in ended.out or '"instead"' in ended.out
    return "→" in ended.err and len(ended.err) > 20


def _is_json(arguments: Sequence[str]) -> bool:
    return "--json" in arguments and "--help" not in arguments and "-h" not in arguments


def tried(attempt: Attempt, folder: Path) -> list[str]:
    """Everything that went wrong with an input; its files lie in the folder, and that is where the
    program runs."""
    os.chdir(folder)
    was = _memory()
    wrong: list[str] = []
    for arguments in attempt.commands:
        ended = run(arguments, attempt.typed)
        wrong += [f"{' '.join(arguments)!r}: {each}\n{ended.err[-600:]}" for each in ended.wrong]
        if attempt.expects is not None and ended.out != attempt.expects:
            wrong.append(f"{' '.join(arguments)!r} said something else")
    wrong += _lost(attempt, folder)
    if attempt.after is not None:
        ended = run(attempt.after)
        if ended.code != 0 or ended.wrong:
            wrong.append(f"{attempt.after} does not go any more: {ended.wrong}\n{ended.err[-600:]}")
    if _memory() > MEMORY >= was:
        wrong.append(f"memory grew from {was // 2**20} to {_memory() // 2**20} MB")
    return wrong


def _memory() -> int:
    """The most memory that this process ever held, in bytes. (What Linux counts as used by a
    process holds what the one that started it had held, so the status is read there.)"""
    status = Path("/proc/self/status")
    if status.exists():
        found = re.search(r"^VmHWM:\s+([0-9]+) kB$", status.read_text("ascii"), re.MULTILINE)
        if found is not None:
            return int(found[1]) * 1024
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit


def _lost(attempt: Attempt, folder: Path) -> Iterator[str]:
    """Files that are gone, changed, or left behind."""
    now = {str(path.relative_to(folder)): path for path in folder.rglob("*") if path.is_file()}
    for name, data in attempt.files.items():
        path = now.pop(name, None)
        if name in attempt.changes:
            continue
        if path is None:
            yield f"{name} is gone"
            continue
        kept = path.read_bytes()
        if kept != data and not (name in attempt.grows and _grown(data, kept, path)):
            yield f"{name} is not what it was"
    for name, path in now.items():
        if path.suffix in (".html", ".svg"):
            written = path.read_text("utf-8")
            yield from (f"{name} has {words!r}" for words in NEVER_ON_A_PAGE if words in written)
        if not name.startswith(tuple(attempt.appears)) or name.endswith((".tmp", ".lock")):
            yield f"{name} is left behind"


def _grown(data: bytes, kept: bytes, path: Path) -> bool:
    """More at the end; a last line that was torn lies in a file beside."""
    if kept.startswith(data):
        return True
    whole, torn = data[: data.rfind(b"\n") + 1], data[data.rfind(b"\n") + 1 :]
    beside = path.with_name(f"{path.name}.torn")
    return bool(torn) and kept.startswith(whole) and beside.exists() and torn in beside.read_bytes()
