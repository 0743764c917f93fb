"""A record made in another language is given again in it, byte for byte."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from sootsayer import tongues
from sootsayer.catalogue import language, speak, speaking
from sootsayer.ledger.adding import add
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.gathering import Sources
from sootsayer.ledger.keeping import give, verdict_body
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.model import Record
from sootsayer.ledger.reading import find
from sootsayer.ledger.rebuilding import rebuild
from sootsayer.ledger.replay_model import Again, Why
from sootsayer.ledger.replaying import replay
from sootsayer.rulebook.words import text_digest
from tests.ledger.books import AT, CASE, book, kept

WORDS = f"""\
words: book
format: 1
language: fr
texts:
  offset:
    label: {{of: {text_digest("Offset")}, text: Décalage}}
  drive-on:
    caution: {{of: {text_digest("Gently")}, text: En douceur}}
"""


def french() -> Sources:
    return replace(book(), language="fr", words={"book.yaml": WORDS.encode()})


@pytest.fixture(autouse=True)
def _english_again() -> object:
    yield
    speak("en")
    tongues.tongue.cache_clear()


def made(folder: Path) -> tuple[object, Record]:
    with speaking("fr"):
        return kept(folder, french())


def test_what_was_said_is_kept_in_its_language(tmp_path: Path) -> None:
    """The record holds the language, its words as texts, and the verdict in them."""
    _, record = made(tmp_path)
    assert record.body["language"] == "fr"
    assert list(record.body["rulebook"]["translations"]) == ["book.yaml"]
    assert record.body["verdict"]["faults"][0]["label"] == "Décalage"
    assert {"of": "drive-on", "caution": "En douceur"} in record.body["cautions"]


@pytest.mark.parametrize("now", ["en", "fr"])
def test_it_is_given_again_in_its_language(now: str, tmp_path: Path) -> None:
    """Whatever is spoken today: the same bytes, and today's language is still in force."""
    ledger, record = made(tmp_path)
    with speaking(now):
        found = replay(ledger, record)  # type: ignore[arg-type]
        assert language() == now
    assert found.again is Again.SAME
    assert found.told is not None
    assert found.told["faults"][0]["label"] == "Décalage"


def test_the_words_of_that_day_count_not_todays(tmp_path: Path) -> None:
    """The kept words give the verdict again, not those that the program ships now."""
    ledger, record = made(tmp_path)
    kept_words = next(
        each for each in tmp_path.rglob("*.yaml") if "Décalage" in each.read_text(encoding="utf-8")
    )
    kept_words.unlink()
    found = replay(ledger, record)  # type: ignore[arg-type]
    assert (found.again, found.why) == (Again.NOT_REPLAYABLE, Why.TEXT_LOST)


def test_without_the_catalogue_it_says_why(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the program itself said in that language cannot be said again without its catalogue;
    a verdict that holds nothing of it comes out the same."""
    ledger, record = made(tmp_path / "one")
    monkeypatch.setattr(tongues, "WORDS", tmp_path / "nowhere")
    tongues.tongue.cache_clear()
    assert replay(ledger, record).again is Again.SAME  # type: ignore[arg-type]
    rebuilt = rebuild(french())
    given = give(CASE.encode(), "made.yaml", rebuilt, french(), now=AT, as_of=None, patterns=())
    said = {**given.told, "case": "Ce que le programme disait"}
    body = verdict_body(replace(given, told=said), at=AT, by="tech-1", decided=None)
    other = ledger_in(tmp_path / "two")
    keep_texts(other, french().all())
    found = replay(other, find(other, str(add(other, body).number)))
    assert (found.again, found.why, found.detail) == (Again.NOT_REPLAYABLE, Why.LANGUAGE, "fr")
