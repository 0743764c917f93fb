"""The ledger's folder: which files it has, and how the ledger itself is opened.

`ledger.jsonl` is the truth: one record a line. `kept/` holds texts by their digest, once each.
`index.sqlite` only makes lists fast. An export has `export.jsonl` instead, so that nobody goes on
writing in a copy.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.system_words import refusal_said
from sootsayer.documents.writing import reason_of

LEDGER, EXPORT = "ledger.jsonl", "export.jsonl"
KEPT, INDEX = "kept", "index.sqlite"
NO_NAME = "this is no name of a folder"
FIRST_RECORD = "keep a first record: sootsayer records keep CASE --by NAME; or name the folder"


@dataclass(frozen=True, slots=True)
class Ledger:
    """A folder with records. `file` holds them, whether it is there yet or not."""

    folder: Path
    file: Path

    @property
    def kept(self) -> Path:
        return self.folder / KEPT

    @property
    def index(self) -> Path:
        return self.folder / INDEX

    @property
    def is_export(self) -> bool:
        return self.file.name == EXPORT

    def exists(self) -> bool:
        """Raises OSError where nobody may look."""
        return self.file.exists()

    def place(self, line: int = 1) -> Place:
        return Place(str(self.file), line, 1)


def ledger_in(folder: Path) -> Ledger:
    """The ledger of a folder, or the export that lies there."""
    own, export = folder / LEDGER, folder / EXPORT
    return Ledger(folder, export if export.exists() and not own.exists() else own)


def opened(ledger: Ledger) -> BinaryIO:
    """The ledger, to be read. Raises Refused where there is none or it may not be read."""
    path = ledger.file
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            what = say("this is no ordinary file")
            raise refused(ledger, what, say("name the folder that holds a ledger"))
        return path.open("rb")
    except FileNotFoundError:
        what = say("there is no {file} in this folder", file=LEDGER)
        instead = say(FIRST_RECORD)
        raise Refused([Problem(Place(str(ledger.folder), 1, 1), what, instead)]) from None
    except OSError as error:
        raise refused(
            ledger,
            say("the ledger cannot be read ({why})", why=refusal_said(error)),
            say("ask its owner for the right to read it"),
        ) from None


def lines(ledger: Ledger) -> Iterator[tuple[int, bytes]]:
    """Every line with its newline (the last may lack it), and where it begins. Raises Refused."""
    offset = 0
    with opened(ledger) as stream:
        for line in stream:
            yield offset, line
            offset += len(line)


def line_at(ledger: Ledger, offset: int) -> bytes:
    """The line that begins there, without its newline."""
    with opened(ledger) as stream:
        stream.seek(offset)
        return stream.readline().removesuffix(b"\n")


def refused(ledger: Ledger, what: str, instead: str, line: int = 1) -> Refused:
    return Refused([Problem(ledger.place(line), what, instead)])


def prepared(folder: Path) -> None:
    """The folder, made where it is missing. Raises Refused."""
    try:
        (folder / KEPT).mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        why = reason_of(error) if isinstance(error, OSError) else say(NO_NAME)
        problem = Problem(
            Place(os.fspath(folder), 1, 1),
            say("no records can be kept in this folder: {why}", why=why),
            say("make room or give the right to write there, or name another with --ledger"),
        )
        raise Refused([problem]) from None
