"""The folder of what is kept to save time: where it is, and whom it is trusted from.

Nothing in it is needed. It may be emptied at any moment, and every failure in here only costs
the time that it would have saved.
"""

from __future__ import annotations

import os
import stat
import sys
import time
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

VARIABLE = "SOOTSAYER_CACHE"
OFF = "off"
NAME = "sootsayer"
LARGEST = 64 * 1024 * 1024  # a hundred times what the shipped rulebook takes
MOST = 8  # rulebooks: the shipped one and those of a few shops, or of a pack that is being written
_LEFT_BEHIND_S = 3600.0
_OTHERS_MAY_WRITE = stat.S_IWGRP | stat.S_IWOTH


def kept_folder(environment: Mapping[str, str], platform: str = sys.platform) -> Path | None:
    """Where things are kept, which may not be there yet; None where nothing is.

    `SOOTSAYER_CACHE` names the folder, or says `off`. Else it is `sootsayer` in the user's own
    cache folder: of the XDG base directories, on Windows and on macOS as it is usual there.
    """
    named = environment.get(VARIABLE, "")
    if named:
        return None if named.strip().lower() == OFF else Path(named)
    if platform == "win32":
        return _inside(environment.get("LOCALAPPDATA", ""), NAME, "Cache")
    if platform == "darwin":
        return _inside(environment.get("HOME", ""), "Library", "Caches", NAME)
    return _inside(environment.get("XDG_CACHE_HOME", ""), NAME) or _inside(
        environment.get("HOME", ""), ".cache", NAME
    )


def _inside(base: str, *names: str) -> Path | None:
    """Only in a folder named in full: the XDG specification has others ignored."""
    return Path(base, *names) if base and Path(base).is_absolute() else None


def read_kept(folder: Path, name: str) -> bytes | None:
    """A file of the folder; None where there is none, or none that can be trusted."""
    try:
        if not _is_ours(folder.lstat(), stat.S_ISDIR):
            return None
        flags = os.O_RDONLY | getattr(os, "O_BINARY", 0)
        # Neither a link that somebody put there is followed, nor a pipe waited for.
        flags |= getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
        with os.fdopen(os.open(folder / name, flags), "rb") as stream:
            status = os.fstat(stream.fileno())
            if not _is_ours(status, stat.S_ISREG) or status.st_size > LARGEST:
                return None
            return stream.read(LARGEST)
    except (OSError, ValueError):
        return None


def write_kept(folder: Path, name: str, text: str, like: str) -> None:
    """Puts a file into the folder, makes that where it is missing, and leaves only the newest of
    the files whose names match `like`. Where it cannot be done it is not done."""
    # Imported here: it needs the YAML parser, which nobody does who finds what is kept.
    from sootsayer.documents.writing import CannotWrite, replace_private

    with suppress(OSError, ValueError, CannotWrite):
        _make(folder)
        if not _is_ours(folder.lstat(), stat.S_ISDIR):
            return
        replace_private(folder / name, text)
        _prune(folder, like)


def still_wanted(folder: Path, name: str) -> None:
    """Marks a file as used today, so that it is not the first to be pruned."""
    with suppress(OSError):
        path = folder / name
        if time.time() - path.lstat().st_mtime > 24 * _LEFT_BEHIND_S:
            os.utime(path, follow_symlinks=False)


def _make(folder: Path) -> None:
    """The folder and the one that it is in; not a whole home for a user who has none."""
    with suppress(FileExistsError):
        folder.parent.mkdir(mode=0o700)
    with suppress(FileExistsError):
        folder.mkdir(mode=0o700)


def _is_ours(status: os.stat_result, kind: object) -> bool:
    """Of the kind that it should be, made by this very user, and nobody else may write to it."""
    if not (callable(kind) and kind(status.st_mode)):
        return False
    if not hasattr(os, "geteuid"):
        return True  # the user's own folder by the system's rights, which have no mode
    return status.st_uid == os.geteuid() and not status.st_mode & _OTHERS_MAY_WRITE


def _prune(folder: Path, like: str) -> None:
    newest = sorted(_dated(folder.glob(like)), reverse=True)
    for _, path in newest[MOST:]:
        with suppress(OSError):
            path.unlink()
    for age, path in _dated(folder.glob(f".{like}.*")):
        if time.time() - age > _LEFT_BEHIND_S:  # of a writer that was killed
            with suppress(OSError):
                path.unlink()


def _dated(paths: Iterable[Path]) -> list[tuple[float, Path]]:
    found = []
    for path in paths:
        with suppress(OSError):
            found.append((path.lstat().st_mtime, path))
    return found
