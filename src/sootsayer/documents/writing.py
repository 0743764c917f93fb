"""Writing that loses nothing: a file is old or new, never neither, and a line is kept or refused.

Both writers hold a lock beside the file, flush to the disk before they return, and never edit
in place. `.NAME.lock` and `.NAME.tmp` may be left by a process that was killed; the next
writer uses them again.
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from sootsayer.catalogue import Said, say, shown
from sootsayer.documents.locking import Busy, locked
from sootsayer.documents.torn import split_torn

_BINARY = getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)
_WHY = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is used up",
    errno.EFBIG: "the file would become too large for this disk",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "there is no right to write here",
    errno.EPERM: "there is no right to write here",
    errno.ENOENT: "its folder does not exist",
    errno.ENOTDIR: "a part of the path is a file, not a folder",
    errno.EISDIR: "it is a folder, not a file",
    errno.ENAMETOOLONG: "the name is too long",
    errno.ELOOP: "the link points at itself",
    errno.EIO: "the disk reports a fault",
}
_BUSY = "another program is writing it; try again"
_CHANGED = "it was changed meanwhile; read it again"
NOT_WRITTEN = "{path} cannot be written: {why}"


class CannotWrite(Exception):  # noqa: N818 (reads as it is said)
    """Nothing was written: `path` is as it was, `why` says the reason in plain words."""

    def __init__(self, path: Path, why: str) -> None:
        self.path = path
        self.why = why
        super().__init__(say(NOT_WRITTEN, path=path, why=why))


class Changed(CannotWrite):
    """As CannotWrite: the file is not what the caller had read."""

    def __init__(self, path: Path) -> None:
        super().__init__(path, say(_CHANGED))


def append_line(path: Path, line: str, *, create: bool = True) -> None:
    """Appends `line` and a newline, and returns once they are on the disk.

    A torn last line is first moved to `NAME.torn`; a whole one without newline gets its
    newline. `create=False` refuses a missing file. Raises `CannotWrite`, and `ValueError`
    for a `line` with a newline in it.
    """
    append_lines(path, (line,), create=create)


def append_lines(
    path: Path, lines: Sequence[str], *, create: bool = True, was: bytes | None = None
) -> None:
    """As `append_line`, for several lines in one write: a failure takes back all of them.

    With `was` (the content that the caller had read) a file that holds anything else by now is
    left alone: raises `Changed`.
    """
    if any("\n" in line or "\r" in line for line in lines):
        raise ValueError("one line, please")
    if not lines:
        return
    data = b"".join(_encoded(path, line) + b"\n" for line in lines)
    with plain_words(path):
        real = behind_links(path)
        with locked(real):
            status = status_of(real, path)
            if status is None and not create:
                raise CannotWrite(path, say("there is no such file"))
            if was is not None and (status is None or real.read_bytes() != was):
                raise Changed(path)
            ending = _unended(real) if status is not None and status.st_size else b""
            if not ending:
                append_bytes(real, data, is_new=status is None)
            elif not (torn := split_torn(ending)[1]):
                append_bytes(real, b"\n" + data, is_new=False)
            else:
                set_aside(real, torn)
                kept = real.read_bytes()
                _swap(real, kept[: len(kept) - len(torn)] + data, status)


def replace_file(
    path: Path, text: str, *, was: str | bytes | None = None, new: bool = False
) -> None:
    """Puts `text` in the place of the file, or makes it; its mode stays, a link is followed.

    With `was` (the content that the caller had read) a file that holds anything else by now
    is left alone; with `new` any file that is there already. Raises `CannotWrite`.
    """
    data = _encoded(path, text)
    with plain_words(path):
        real = behind_links(path)
        with locked(real):
            status = status_of(real, path)
            if new and status is not None:
                raise CannotWrite(path, say("there is such a file already"))
            if was is not None:
                expected = was if isinstance(was, bytes) else _encoded(path, was)
                if status is None or real.read_bytes() != expected:
                    raise Changed(path)
            _swap(real, data, status)


def replace_private(path: Path, text: str) -> None:
    """As `replace_file`, for what can be made again at any time: only its owner may read it, a
    link in its place is replaced and not followed, and a writer who is at it already is not waited
    for. Raises `CannotWrite`."""
    data = _encoded(path, text)
    with plain_words(path), locked(path, longest_wait_s=0):
        _swap(path, data, None, mode=0o600)


def reason_of(error: OSError) -> Said:
    """Why the system refused to write, in plain words."""
    why = _WHY.get(error.errno or 0)
    if why is not None:
        return say(why)
    return shown(error.strerror) if error.strerror else say("the system refused")


@contextmanager
def plain_words(path: Path) -> Iterator[None]:
    try:
        yield
    except Busy:
        raise CannotWrite(path, say(_BUSY)) from None
    except OSError as error:
        raise CannotWrite(path, reason_of(error)) from error
    except ValueError:  # a NUL in the name
        raise CannotWrite(path, say("this is no file name")) from None


def _encoded(path: Path, text: str) -> bytes:
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError:
        why = say("the text holds half a character, which no file can")
        raise CannotWrite(path, why) from None


def behind_links(path: Path) -> Path:
    """Behind any links, so that the rename replaces the file and not the link to it."""
    return Path(os.path.realpath(path))


def status_of(real: Path, path: Path) -> os.stat_result | None:
    try:
        status = real.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(status.st_mode):
        raise CannotWrite(path, say(_WHY[errno.EISDIR]))
    if not stat.S_ISREG(status.st_mode):
        raise CannotWrite(path, say("it is no ordinary file"))
    # A rename would get past the mark that somebody set on purpose.
    if not status.st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH):
        raise CannotWrite(path, say("it is marked read-only"))
    return status


def _unended(real: Path) -> bytes:
    """The last line where it lacks its newline, else nothing."""
    with real.open("rb") as stream:
        stream.seek(-1, os.SEEK_END)
        if stream.read(1) == b"\n":
            return b""
        stream.seek(0)
        data = stream.read()
    return data[data.rfind(b"\n") + 1 :]


def append_bytes(real: Path, data: bytes, *, is_new: bool) -> None:
    descriptor = os.open(real, os.O_WRONLY | os.O_APPEND | os.O_CREAT | _BINARY, 0o666)
    try:
        before = os.fstat(descriptor).st_size
        written = 0
        try:
            while written < len(data):
                written += os.write(descriptor, data[written:])
            os.fsync(descriptor)
        except OSError:
            # Takes back what is ours and not yet acknowledged; else the next reader finds
            # it torn.
            with suppress(OSError):
                if os.fstat(descriptor).st_size == before + written:
                    os.ftruncate(descriptor, before)
            raise
    finally:
        os.close(descriptor)
    if is_new:
        _sync_folder(real.parent)


def set_aside(real: Path, torn: bytes) -> None:
    """Adds the torn tail to `NAME.torn`, once: a writer killed after this comes here again."""
    beside = real.with_name(f"{real.name}.torn")
    earlier = beside.read_bytes() if beside.exists() else b""
    addition = torn + b"\n"
    if earlier == addition or earlier.endswith(b"\n" + addition):
        return
    _swap(beside, earlier + addition, beside.stat() if beside.exists() else None)


def _swap(real: Path, data: bytes, status: os.stat_result | None, mode: int = 0o666) -> None:
    """A temporary file in the same folder, on the disk, then renamed over the old one."""
    temporary = real.with_name(f".{real.name}.tmp")
    # Left by a killed writer; ours alone while the lock is held. Never written through: it
    # might be a link that somebody put there.
    temporary.unlink(missing_ok=True)
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY
    try:
        with os.fdopen(os.open(temporary, flags, mode), "wb") as stream:
            stream.write(data)
            stream.flush()
            if status is not None:
                temporary.chmod(stat.S_IMODE(status.st_mode))
            os.fsync(stream.fileno())
        temporary.replace(real)
    except BaseException:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)
        raise
    _sync_folder(real.parent)


def _sync_folder(folder: Path) -> None:
    """Makes a new name last. Not every system lets a folder be opened; then it does it itself."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
