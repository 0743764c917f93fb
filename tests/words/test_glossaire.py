"""One word for one thing: what the French glossary says stands in every label and statement.

Common practice, no source: it is how workshops speak.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.words import texts_of
from sootsayer.rulebook.words_files import load_words
from tests.laws.making_cases import rulebook

DOCS = Path(__file__).parents[2] / "docs"
PLAIN = ("label", "says", "when not")  # what names a thing; how to do it may say it otherwise
ROW = re.compile(r"^\| ([^|]+) \| ([^|]+) \|$", re.MULTILINE)


def trade_words() -> list[tuple[str, str]]:
    """English to French, as the glossary's table has them."""
    text = (DOCS / "glossaire.md").read_text(encoding="utf-8")
    rows = [(english.strip(), french.strip()) for english, french in ROW.findall(text)]
    return [row for row in rows if row[0] not in {"anglais", "---"}]


@cache
def both() -> tuple[tuple[str, str, str], ...]:
    """Where it stands, the English and the French of each label and statement of the packs."""
    french = {(t.id, t.field): t.text for t in load_words([shipped_rules()], "fr").translations}
    return tuple(
        (f"{text.pack}: {text.id} {text.field}", text.text.lower(), french[key].lower())
        for key, text in texts_of(rulebook().model).items()
        if text.field in PLAIN
    )


@pytest.mark.parametrize(("english", "french"), trade_words(), ids=lambda word: str(word))
def test_one_word_for_one_thing(english: str, french: str) -> None:
    """Wherever the English word names a thing, its French word does; plurals are the same word."""
    said = re.compile(rf"\b{re.escape(english.lower())}s?\b")
    stem = re.compile(re.escape(french.split()[0].lower().rstrip("se")))
    named = [row for row in both() if said.search(row[1])]
    assert named, f"nothing is called {english}"
    assert [row for row in named if not stem.search(row[2])] == []


def test_both_glossaries_explain_the_same_words() -> None:
    """Each word of the design stands in both, under its English name."""
    english = (DOCS / "glossary.md").read_text(encoding="utf-8").partition("## ")[0]
    french = (DOCS / "glossaire.md").read_text(encoding="utf-8").partition("## ")[0]
    words = {word.lower() for word in re.findall(r"^\*\*(\w+)\.\*\*", english, re.MULTILINE)}
    assert words == set(re.findall(r"^\*\*[^*]+\*\* \((\w+)\)\.", french, re.MULTILINE))
