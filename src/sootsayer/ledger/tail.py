"""The end of the ledger: its last whole line, and what a writer that died left behind it."""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import BinaryIO

_CHUNK = 64 * 1024
# After a power cut a file may have its new length and not its content: whole sectors of zeros.
# A record holds no zero byte at all.
_HOLE = bytes(64)


@dataclass(frozen=True, slots=True)
class Tail:
    """`line`: the last whole line without newline, b"" where there is none. `end`: how long the
    file is up to and with it. `torn`: what stands behind it."""

    line: bytes
    end: int
    torn: bytes


def tail_of(stream: BinaryIO) -> Tail:
    """The end of the ledger, read backwards: it does not matter how long the ledger is."""
    size = stream.seek(0, os.SEEK_END)
    torn_from = _after_newline(stream, size)
    torn = _read(stream, torn_from, size)
    begin = _after_newline(stream, torn_from - 1) if torn_from else 0
    line = _read(stream, begin, torn_from)
    if _HOLE in line:
        torn, torn_from = line + torn, begin
        begin = _after_newline(stream, torn_from - 1) if torn_from else 0
        line = _read(stream, begin, torn_from)
    return Tail(line.removesuffix(b"\n"), torn_from, torn)


def is_torn(line: bytes) -> bool:
    """Whether a last line is what a writer that died left, rather than a changed record."""
    return not line.endswith(b"\n") or _HOLE in line


def _after_newline(stream: BinaryIO, until: int) -> int:
    """Behind the last newline before `until`; 0 where there is none."""
    end = until
    while end > 0:
        begin = max(0, end - _CHUNK)
        found = _read(stream, begin, end).rfind(b"\n")
        if found >= 0:
            return begin + found + 1
        end = begin
    return 0


def _read(stream: BinaryIO, begin: int, end: int) -> bytes:
    stream.seek(begin)
    return stream.read(end - begin)
