"""Bytes spoiled by chance, as disks, editors, mails and people with bad intent spoil them."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from random import Random

DEEP = 3_000  # levels: ten times what Python's own stack bears
SNIPPETS: tuple[bytes, ...] = (
    # What steers a terminal, raw and written as YAML and JSON write it.
    b"\x1b[2J", b"\x1b]0;x\x07", b"\x1b]8;;http://x\x1b\\", b"\xc2\x9b31m", b"\x9b", b"\r", b"\x08",
    b'"\\x1b[2J"', b'"\\u001b[2J"', b'"\\e[2J"', b"\\u202e", b'"\\u202e"', b'"\\ud800"', b'"\\0"',
    # What reorders or hides text: overrides, isolates, marks, tags, joiners, half characters.
    b"\xe2\x80\xae", b"\xe2\x81\xa6", b"\xe2\x80\x8f", b"\xf3\xa0\x81\x81", b"\xe2\x80\x8b",
    b"\xc2\xad", b"\xed\xa0\x80", b"\xe2\x80\xa8", b"\xc2\x85", b"\xef\xbf\xbf", b"\x00", b"\xff",
    b"\xcc\x81" * 60, b"\xf0\x9f\x91\xa9\xe2\x80\x8d\xf0\x9f\x94\xa7",
    # Other encodings.
    b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\xff\xfe\x00\x00", b"\xe9", b"\x80\x81",
    # Orders to rich, HTML, templates, shells, spreadsheets, paths.
    b"[bold red]x[/]", b"[/]", b"[link=http://x]y[/link]", b":smile:", b"<script>alert(1)</script>",
    b"\"><img src=x onerror=alert(1)>", b"&lt;b&gt;", b"]]>", b"<!--", b"{0}", b"{says}", b"{",
    b"}",
    b"%s", b"%(x)s", b"$HOME", b"`id`", b"=1+1", b"@SUM(1)", b"../../etc/passwd", b"/dev/stdin",
    # YAML's own traps.
    b"&a ", b"*a", b"&a [*a, *a]", b"!!python/object/apply:os.system ['x']", b"!!binary ", b"<<: ",
    b"---\n", b"...\n", b"%YAML 1.1\n", b"? ", b": ", b"- ", b"\n- {}\n", b"|\n", b">-\n", b"#",
    b"'",
    b'"', b"[", b"]", b", ", b"~", b"null", b"yes", b"no", b"on", b"\t", b"\n", b"\r\n", b"\n\n",
    # Numbers.
    b"9" * 400, b"-" + b"9" * 5000, b"0." + b"0" * 400 + b"1", b"1e999", b"-1e-999", b".nan",
    b"-.inf", b"NaN", b"Infinity", b"0x10", b"0o7", b"1_000", b"1:30", b"08", b"-0", b"0,5",
    b"1.5.2",
    "٣".encode(), "½".encode(), "１".encode(), b"5 mbar", b"-7 hPa", b"1 of 0", b"5 of 4",
    b"0 of 0",
    # Times.
    b"2031-02-30T09:02+01:00", b"9999-12-31T23:59-14:00", b"0001-01-01T00:00+14:00", b"2031-03-14",
    b"2031-03-14T24:00Z", b"2031-03-14T09:02", b"2031-03-14T09:02+99:99",
    # Length and depth.
    b"[" * DEEP,
    b"{a: " * DEEP, b"[" * 60 + b"]" * 60, b"x" * 20_000, b"x " * 5_000, b"\n" * 3_000,
    b", " * 3_000, b"a: 1, " * 2_000, b"\xc3\xa9" * 3_000,
    # JSON.
    b"\\u0000", b'{"a":1,"a":2}', b"true", b"false", b"{}", b"[]", b'""', b"1.0", b"1E400",
    # Words that a reader expects.
    b"unknown", b"not asked", b"not fitted", b"do not know", b"cannot", b"none", b"other",
    b"drive-on",
    b"dp@rest", b"dp@", b"@", b"@idle", b"",
)  # fmt: skip


def spoiled(data: bytes, chance: Random, others: Sequence[bytes] = ()) -> bytes:
    """The data with one to four things done to it; `others`: what may be spliced in."""
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 4))):
        data = chance.choice(_WAYS)(data, chance, others)
    if chance.random() < 0.02:
        data = data.decode("utf-8", "replace").encode(
            chance.choice(("utf-16", "utf-16-le", "utf-32"))
        )
    return data


def _place(data: bytes, chance: Random) -> int:
    return chance.randint(0, len(data))


def _flip(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    if not data:
        return data
    at = chance.randrange(len(data))
    return data[:at] + bytes([data[at] ^ 1 << chance.randrange(8)]) + data[at + 1 :]


def _cut(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    at = _place(data, chance)
    return data[:at] + data[at + chance.choice((1, 2, 5, 20, 100)) :]


def _cut_short(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    return data[: _place(data, chance)]


def _repeat(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    at = _place(data, chance)
    part = data[at : at + chance.choice((1, 3, 10, 60))]
    return data[:at] + part * chance.choice((2, 2, 3, 30, 300)) + data[at:]


def _splice(data: bytes, chance: Random, others: Sequence[bytes]) -> bytes:
    other = chance.choice(others) if others else data
    return data[: _place(data, chance)] + other[_place(other, chance) :]


def _insert(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    at = _place(data, chance)
    return data[:at] + chance.choice(SNIPPETS) + data[at:]


def _exchange(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    """A word for a snippet, or for another word of the same file: it stays nearly right."""
    words = [found.span() for found in re.finditer(rb"[\w.+@-]+", data[:200_000])]
    if not words:
        return data
    (start, end), (first, last) = chance.choice(words), chance.choice(words)
    put = chance.choice(SNIPPETS) if chance.random() < 0.6 else data[first:last]
    return data[:start] + put + data[end:]


def _lines(data: bytes, chance: Random, _: Sequence[bytes]) -> bytes:
    """Whole lines left out, doubled, or in another order."""
    lines = data.splitlines(keepends=True)
    if len(lines) < 2:
        return data
    at, to = chance.randrange(len(lines)), chance.randrange(len(lines))
    way = chance.randrange(3)
    if way == 0:
        del lines[at]
    elif way == 1:
        lines.insert(to, lines[at])
    else:
        lines[at], lines[to] = lines[to], lines[at]
    return b"".join(lines)


_WAYS: tuple[Callable[[bytes, Random, Sequence[bytes]], bytes], ...] = (
    _flip, _cut, _cut_short, _repeat, _splice, _insert, _insert, _exchange, _exchange, _exchange,
    _lines,
)  # fmt: skip
