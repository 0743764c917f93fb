"""A file from the disk, or the reason why it cannot be read."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused, did_you_mean
from sootsayer.documents.system_words import refusal_said

LARGEST = 8 * 1024 * 1024

_CHECK_PATH = "check the path"
_CHECK_NAME = "check the name"
_WHY = {
    errno.EACCES: ("there is no right to read this file", "ask its owner for the right to read it"),
    errno.EPERM: ("there is no right to read this file", "ask its owner for the right to read it"),
    errno.ENOTDIR: ("a part of this path is a file, not a folder", _CHECK_PATH),
    errno.ELOOP: ("this link points at itself", "give the path of the file itself"),
    errno.ENAMETOOLONG: ("this name is too long", _CHECK_NAME),
    errno.EIO: ("the disk does not give this file back", "check the disk, take a copy of the file"),
}
_UNKNOWN = ("the file cannot be read ({reason})", "check the file")


def read_bytes(path: Path, file: str) -> bytes:
    """The bytes of a regular file of at most 8 MB; raises `Refused` with one problem."""
    try:
        # Looked at before it is opened: opening a pipe waits, opening a device can act on it.
        _check_kind(path.stat(), file)
        flags = os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0)
        descriptor = os.open(path, flags)
        with os.fdopen(descriptor, "rb") as stream:
            status = os.fstat(stream.fileno())
            _check_kind(status, file)
            # Room for as much as there is: for the most there may be takes longer than to read it.
            data = stream.read(status.st_size + 1)
            if len(data) > status.st_size:  # it grows, or is one of those that tell no size
                data += stream.read(LARGEST + 1 - len(data))
    except FileNotFoundError:
        raise _refused(file, say("there is no such file"), _near(path)) from None
    except ValueError:  # a NUL in the name
        raise _refused(file, say("this is no file name"), say(_CHECK_NAME)) from None
    except OSError as error:
        what, instead = _WHY.get(error.errno or 0, _UNKNOWN)
        raise _refused(file, say(what, reason=refusal_said(error)), say(instead)) from None
    check_size(data, file)
    return data


def check_size(data: bytes, file: str) -> None:
    """Raises `Refused` for more than 8 MB."""
    if len(data) > LARGEST:
        raise _too_large(file)


def _check_kind(status: os.stat_result, file: str) -> None:
    if stat.S_ISDIR(status.st_mode):
        what = say("this is a folder, not a file")
        raise _refused(file, what, say("give the path of a file in it"))
    if not stat.S_ISREG(status.st_mode):
        raise _refused(
            file,
            say("this is no ordinary file (a pipe, socket or device)"),
            say("save the text as a file and give its path"),
        )
    if status.st_size > LARGEST:
        raise _too_large(file)


def _too_large(file: str) -> Refused:
    return _refused(
        file,
        say("the file is larger than 8 MB"),
        say("check that it is the right file; split it if it is"),
    )


def _near(path: Path) -> Said:
    try:
        siblings = [entry.name for entry in os.scandir(path.parent)]
    except OSError:
        return say('there is no folder "{folder}" either; check the path', folder=path.parent)
    meant = did_you_mean(path.name, siblings)
    return say("check the path; {meant}", meant=meant) if meant else say(_CHECK_PATH)


def _refused(file: str, what: Said, instead: Said) -> Refused:
    return Refused([Problem(Place(file, 1, 1), what, instead)])
