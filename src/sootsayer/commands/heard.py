"""What was typed, held against the ways to say a thing, in English and in the language in force."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from unicodedata import combining, normalize

from sootsayer.catalogue import spoken

_BETWEEN = "|"
WORD = re.compile(r"[^\W_]+", re.UNICODE)


def folded(text: str) -> str:
    """The text without capitals, accents and the blanks that say nothing: `Prés` is `pres`."""
    plain = text.casefold().replace("’", "'").replace("œ", "oe").replace("æ", "ae")
    if not plain.isascii():
        plain = "".join(sign for sign in normalize("NFD", plain) if not combining(sign))
    return " ".join(plain.split())


def heard(ways: str) -> frozenset[str]:
    """The ways of a template of `console.heard_texts`, folded."""
    return _ways(ways, spoken(ways))


def words_heard(ways: str) -> frozenset[str]:
    """The single words of the ways: `tr/min` and `l'` are `tr`, `min` and `l`."""
    return frozenset(word for way in heard(ways) for word in WORD.findall(way))


def says(typed: str, ways: str) -> bool:
    """Whether what was typed is one of the ways."""
    return folded(typed) in heard(ways)


def one_of(typed: str, table: Mapping[str, str]) -> str | None:
    """The key of the table whose ways what was typed is one of."""
    return next((key for key, ways in table.items() if says(typed, ways)), None)


def pattern(ways: str) -> str:
    """The ways as one pattern, with their accents and without, the longest first."""
    return _pattern(ways, spoken(ways))


def word_said(typed: str, words: Iterable[str], said: Mapping[str, str]) -> list[str]:
    """The declared words that a text is, by themselves or as they are said: of whole ones the
    one, else all that begin so."""
    wanted = folded(typed)
    ways = {word: {folded(said.get(word, word)), folded(word)} for word in words}
    by_said = [word for word in ways if folded(said.get(word, word)) == wanted]
    whole = by_said or [word for word, own in ways.items() if wanted in own]
    begun = [word for word, own in ways.items() if any(way.startswith(wanted) for way in own)]
    return whole[:1] or (begun if wanted else [])


@cache
def _ways(*texts: str) -> frozenset[str]:
    return frozenset(folded(way) for text in texts for way in text.split(_BETWEEN)) - {""}


@cache
def _pattern(*texts: str) -> str:
    ways = {" ".join(way.split()) for text in texts for way in text.split(_BETWEEN)} - {""}
    ways |= {folded(way) for way in ways}
    return "|".join(re.escape(way) for way in sorted(ways, key=lambda way: (-len(way), way)))
