"""The bytes of a log as lines, in flat memory: encoding by content, lines of bounded length."""

from __future__ import annotations

import codecs
import hashlib
import io
import stat
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import whole
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

if TYPE_CHECKING:
    from _typeshed import WriteableBuffer

LONGEST_LINE = 4_000_000
"""Characters. Longer than any log has, short enough to hold."""
_HEAD = 65_536
_CHUNK = 1 << 18

Progress = Callable[[int], None]

NO_LOGS = (
    (b"\x89PNG", "this is a PNG picture, not a log"),
    (b"\xff\xd8\xff", "this is a JPEG picture, not a log"),
    (b"GIF8", "this is a GIF picture, not a log"),
    (b"BM", "this is a bitmap picture, not a log"),
    (b"II*\x00", "this is a TIFF picture, not a log"),
    (b"MM\x00*", "this is a TIFF picture, not a log"),
    (b"%PDF", "this is a PDF document, not a log"),
    (b"PK\x03\x04", "this is a packed file: a zip, or a spreadsheet's own format, not a log"),
    (b"\x1f\x8b", "this is a packed file (gzip), not a log"),
    (b"\xd0\xcf\x11\xe0", "this is an old spreadsheet or text document, not a log"),
)
EXPORT = "export the log as text with separators (CSV) and give that file"


class Source:
    """An open log: `lines` gives each line without its end; `digest` once all was read."""

    def __init__(self, path: Path, shown_as: str, progress: Progress | None = None) -> None:
        """Raises Refused for what is no text, and OSError."""
        self.file = shown_as
        if not stat.S_ISREG(path.stat().st_mode):
            raise _refused(
                shown_as, say("this is no ordinary file"), say("give the file of the log")
            )
        self._hashing = _Hashing(path, progress)
        self.size = path.stat().st_size
        self.unended = 0  # the number of a last line that lacks its end
        buffered = io.BufferedReader(self._hashing, _CHUNK)
        head = buffered.peek(_HEAD)[:_HEAD]
        self.encoding = _encoding_of(head, shown_as)
        # newline=None: the three kinds of line end, mixed or not, all end a line.
        self._text = io.TextIOWrapper(
            buffered, encoding=self.encoding, errors="replace", newline=None
        )

    def __enter__(self) -> Source:
        return self

    def __exit__(self, *_: object) -> None:
        self._text.close()

    @property
    def line_ends(self) -> str | tuple[str, ...] | None:
        """The line ends met so far; several in a tuple."""
        return self._text.newlines

    @property
    def digest(self) -> str:
        """Of all bytes read so far; reads the rest first."""
        while self._hashing.read(_CHUNK):
            pass
        return self._hashing.sha.hexdigest()

    def lines(self) -> Iterator[str]:
        """Each line without its end. Raises Refused for one that is too long."""
        number = 0
        readline = self._text.readline
        while line := readline(LONGEST_LINE):
            number += 1
            if line[-1] == "\n":
                yield line[:-1]
            elif len(line) >= LONGEST_LINE:
                raise _refused(
                    self.file,
                    say(
                        "this line is longer than {count} characters: this is no log",
                        count=whole(LONGEST_LINE),
                    ),
                    say(EXPORT),
                    line=number,
                    text=line[:200],
                )
            else:
                self.unended = number
                yield line


class _Hashing(io.RawIOBase):
    """A file that digests what is read from it and tells how far it is."""

    def __init__(self, path: Path, progress: Progress | None) -> None:
        self._raw = path.open("rb", buffering=0)
        self.sha = hashlib.sha256()
        self._progress = progress

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: WriteableBuffer) -> int:
        view = memoryview(buffer)
        count = self._raw.readinto(view) or 0
        self.sha.update(view[:count])
        if self._progress is not None and count:
            self._progress(count)
        return count

    def close(self) -> None:
        self._raw.close()
        super().close()


def _encoding_of(head: bytes, file: str) -> str:
    """Raises Refused for an empty file, a picture, or bytes that are no text."""
    if not head.strip():
        raise _refused(
            file, say("the log is empty: it has no rows"), say("record it again, or give another")
        )
    for mark, what in NO_LOGS:
        if head.startswith(mark) and (len(mark) > 2 or b"\x00" in head[:64]):
            raise _refused(file, say(what), say(EXPORT))
    if head.startswith(codecs.BOM_UTF8):
        return "utf-8-sig"
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        return "utf-32"
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    unmarked = _unmarked_utf16(head)
    if unmarked:
        return unmarked
    _refuse_binary(head, file)
    try:
        codecs.getincrementaldecoder("utf-8")().decode(head, final=False)
    except UnicodeDecodeError:
        return "cp1252" if not any(0x80 <= b < 0xA0 for b in head) else _eight_bit(head)
    return "utf-8"


def _eight_bit(head: bytes) -> str:
    """Windows-1252 where it knows all bytes, else Latin-1, which knows every byte."""
    try:
        head.decode("cp1252")
    except UnicodeDecodeError:
        return "latin-1"
    return "cp1252"


def _unmarked_utf16(head: bytes) -> str:
    even = head[: len(head) // 2 * 2]
    if len(even) < 16:
        return ""
    pairs = len(even) // 2
    if even[1::2].count(0) > 0.9 * pairs and even[::2].count(0) == 0:
        return "utf-16-le"
    if even[::2].count(0) > 0.9 * pairs and even[1::2].count(0) == 0:
        return "utf-16-be"
    return ""


def _refuse_binary(head: bytes, file: str) -> None:
    odd = sum(head.count(code) for code in range(32) if code not in (9, 10, 11, 12, 13, 26))
    if b"\x00" in head or odd > len(head) // 100:
        at = head.find(b"\x00")
        line = head[: max(at, 0)].count(b"\n") + 1
        raise _refused(file, say("this is a binary file, not text"), say(EXPORT), line=line)


def _refused(file: str, what: str, instead: str, *, line: int = 1, text: str = "") -> Refused:
    return Refused([Problem(Place(file, line, 1), what, instead, text)])
