"""Where typed lines come from: a terminal, or a file of answers."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from sootsayer.catalogue import Said
from sootsayer.console.output import write
from sootsayer.documents.characters import text_of
from sootsayer.documents.escaping import visible
from sootsayer.documents.reading import LARGEST, check_size

# A leading mark of UTF-8, which programs on Windows write before anything else.
_MARK = "\ufeff"


class Typing(Protocol):
    """Gives one line after another."""

    interactive: bool

    def line(self, prompt: Said) -> str | None:
        """The next line, without its end; None where there is no more."""

    @property
    def place(self) -> str:
        """Where the last line stood, for a message; "" at a terminal."""


@dataclass(slots=True)
class AtTerminal:
    """Plain line input: the terminal's own editing, no cursor is moved."""

    interactive: bool = True
    place: str = ""

    def line(self, prompt: Said) -> str | None:
        write(prompt, sys.stdout)
        typed = sys.stdin.readline()
        if not typed:
            write("\n", sys.stdout)
            return None
        return typed.rstrip("\r\n")


@dataclass(slots=True)
class FromAnswers:
    """One answer a line; empty lines and lines that begin with # are passed over. Each is shown
    behind its prompt, so that the output reads like a session."""

    file: str
    lines: Sequence[str]
    interactive: bool = False
    number: int = field(default=0)

    def line(self, prompt: Said) -> str | None:
        while self.number < len(self.lines):
            typed = self.lines[self.number].strip()
            self.number += 1
            if typed and not typed.startswith("#"):
                write(f"{prompt}{visible(typed)}\n", sys.stdout)
                return typed
        return None

    @property
    def place(self) -> str:
        return f"{self.file}:{self.number}"


def answers_from(file: str) -> FromAnswers:
    """The answers of a file or pipe, or of standard input for `-`. Raises OSError, and Refused for
    what is no text in UTF-8, with its place."""
    if file == "-":
        text = sys.stdin.read() if sys.stdin is not None else ""
        return FromAnswers("answers", text.removeprefix(_MARK).splitlines())
    with Path(file).open("rb") as stream:
        data = stream.read(LARGEST + 1)
    check_size(data, file)
    return FromAnswers(file, text_of(data, file).split("\n"))


def at_a_terminal() -> bool:
    """Whether a person can be asked: input and output are both a terminal."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
