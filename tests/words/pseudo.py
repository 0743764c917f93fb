"""A language made of English: every letter another one, and each text 40 % longer.

What is still in plain letters on a page was never given to `say`: text that no translation reaches.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from sootsayer import tongues
from sootsayer.rulebook import words_files
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.words import Translation, Words, texts_of

LANGUAGE = "qx"
_PLAIN = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
_OTHER = "ÁƁÇÐÉƑĜĤÍĴĶĹṀÑÓṔɊŔŠŢÚṼŴẊÝŽáƀçðéƒĝĥíĵķĺṁñóṕɋŕšţúṽŵẋýž"
_LETTERS = str.maketrans(_PLAIN, _OTHER)
_SLOT = re.compile(r"(\{\{|\}\}|\{[^{}]*\})")
_BEGINS, _ENDS, _LONGER = "⟦", "⟧", "~"


def other(text: str) -> str:
    """A text that is no template: with other letters, between marks, and longer."""
    return _marked(text, text.translate(_LETTERS))


def template(text: str) -> str:
    """A template with its slots as they are."""
    parts = enumerate(_SLOT.split(text))
    return _marked(text, "".join(p if i % 2 else p.translate(_LETTERS) for i, p in parts))


def _marked(text: str, said: str) -> str:
    """Between marks inside what is blank around it; a text without letters stays as it is."""
    if said == text:
        return text
    core = said.strip()
    before, after = said[: len(said) - len(said.lstrip())], said[len(said.rstrip()) :]
    return f"{before}{_BEGINS}{core}{_LONGER * (len(core) * 2 // 5)}{_ENDS}{after}"


class Pseudo:
    """That language, for every template there is; `asked` is all that was asked for."""

    def __init__(self) -> None:
        self.asked: set[str] = set()

    def one(self, text: str) -> str | None:
        self.asked.add(text)
        return text if text.startswith("|") else template(text)  # what is typed is typed in English

    def counted(self, one: str, many: str, count: int) -> str | None:
        self.asked |= {one, many}
        return template(one if count == 1 else many)


def words_of(model: Model) -> Words:
    """Every text of a rulebook in that language."""
    return Words(
        LANGUAGE,
        tuple(
            Translation(id_, field, text.digest, other(text.text), text.pack, text.place)
            for (id_, field), text in texts_of(model).items()
        ),
    )


def spoken(monkeypatch: pytest.MonkeyPatch, words: Words) -> Pseudo:
    """From now on the program knows the language, for itself and for a rulebook."""
    pseudo = Pseudo()
    monkeypatch.setattr(tongues, "tongues", lambda: ("en", LANGUAGE))
    monkeypatch.setattr(tongues, "tongue", lambda code: pseudo if code == LANGUAGE else None)
    monkeypatch.setattr(words_files, "languages", lambda _folders: ("en", LANGUAGE))
    for module in ("rulebook.words_files", "ledger.rebuilding"):
        monkeypatch.setattr(f"sootsayer.{module}.load_words", lambda _folders, _language: words)
    return pseudo


_TOKEN = re.compile(r"(?<![\w@])(?:--)?[A-Za-z][A-Za-z0-9_@./:+-]*")
_NEVER_TEXT = re.compile(
    r"--?[a-z-]+"  # an option
    r"|[A-Za-z]"  # a mark in a picture
    r"|(?:code:)?[PCBU][0-9A-F]{4}"  # a trouble code
    r"|[0-9a-f]{7,64}|T[0-9]{2}.*"  # a digest, the time of a moment
    r"|[\w./-]+\.(?:yaml|csv|jsonl|html|svg|txt|torn|json|xml)(?::[0-9]+)*:?"  # a file
)


def left_over(page: str, known: frozenset[str]) -> Iterator[tuple[str, str]]:
    """Each word in plain letters that is not known, with its line."""
    for line in page.splitlines():
        for token in _TOKEN.findall(line):
            word = token.rstrip(".:-+/")
            if word and not _NEVER_TEXT.fullmatch(word) and not _is_known(word, known):
                yield word, line.strip()


def _is_known(word: str, known: frozenset[str]) -> bool:
    return word in known or all(part in known for part in re.split(r"[@./:+]", word) if part)


def ids_of(model: Model) -> frozenset[str]:
    """The ids of a rulebook, and the words of its units and of files."""
    found: set[str] = set()
    for part in (
        *("signals", "points", "channels", "limits", "checks", "findings", "families", "faults"),
        *("actions", "interlocks", "quantities", "remedies"),
    ):
        found |= set(getattr(model, part))
    for signal in model.signals.values():
        found |= set((signal.unit or "").replace("/", " ").split())
    return frozenset(found)


def words_in(file: Path) -> frozenset[str]:
    """Every word of a case: what somebody wrote is shown as it is."""
    return frozenset(
        token.rstrip(".:-+/") for token in _TOKEN.findall(file.read_text(encoding="utf-8"))
    )
