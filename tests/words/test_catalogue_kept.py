"""The catalogues are whole: `python -m tests.words.catalogue` leaves nothing to look at."""

from __future__ import annotations

from gettext import GNUTranslations
from io import BytesIO

import pytest

from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.words_files import load_words
from sootsayer.tongues import file_of
from tests.words.catalogue import (
    faults,
    languages,
    main,
    mo_bytes,
    po_bytes,
    po_file,
    read,
    refreshed,
)
from tests.words.collecting import is_text, texts
from tests.words.extracting import template
from tests.words.typography import as_set

TONGUES = languages()


def test_french_is_kept() -> None:
    """There is a catalogue, and so the tests below have something to try."""
    assert "fr" in TONGUES


@pytest.mark.parametrize("language", TONGUES)
def test_every_text_has_its_words(language: str) -> None:
    """Nothing is without words, unsure, with other slots, or left over from what is gone."""
    catalogue = refreshed(read(language), template(), language)
    assert list(faults(catalogue)) == []
    assert po_bytes(catalogue) == po_file(language).read_bytes(), "python -m tests.words.catalogue"


@pytest.mark.parametrize("language", TONGUES)
def test_what_is_read_is_what_is_written(language: str) -> None:
    """The compiled catalogue says what the written one says, text for text."""
    again = GNUTranslations(BytesIO(mo_bytes(refreshed(read(language), template(), language))))
    with file_of(language).open("rb") as opened:
        kept = GNUTranslations(opened)
    assert vars(kept)["_catalog"] == vars(again)["_catalog"]


@pytest.mark.parametrize("language", TONGUES)
def test_texts_are_set_as_the_language_sets_them(language: str) -> None:
    """No line ends before a colon: its space holds, in the program's texts and in the packs'."""
    said = [text for message in read(language) if message.id for text in _strings(message.string)]
    said += [each.text for each in load_words([shipped_rules()], language).translations]
    assert len(said) > 1000
    assert [text for text in said if as_set(text, language) != text] == []


def _strings(string: object) -> tuple[str, ...]:
    return (string,) if isinstance(string, str) else tuple(string)  # type: ignore[arg-type]


def test_a_check_finds_what_is_to_be_done(capsys: pytest.CaptureFixture[str]) -> None:
    """`--check` changes nothing and ends with 0 where nothing is left for a person."""
    assert main(["--check"]) == 0
    assert "0 to look at" in capsys.readouterr().out


def test_faults_are_seen() -> None:
    """A text without words, an unsure one and one with other slots are each told."""
    catalogue = refreshed(read("fr"), template(), "fr")
    slotted = [m for m in catalogue if isinstance(m.id, str) and "{" in m.id][:3]
    slotted[0].string = ""
    slotted[1].flags.add("fuzzy")
    slotted[2].string = f"{slotted[2].string} {{more}}"
    told = [each.split(":")[0] for each in faults(catalogue)]
    assert sorted(told) == ["fuzzy", "no words", "other slots"]


def test_the_collector_finds_every_kind_of_text() -> None:
    """A literal, a constant, one in a table, a pair, a help text, what stands for a value."""
    found = {each.text: each.many for each in texts()}
    for text in (
        "not known",  # given to `say` as it is
        'there is no command "{command}"',  # a constant
        "almost certain",  # in a table
        "judge as the case stood after entry ENTRY, counted from 1",
        "ENTRY",
        "the printable page: one for the customer, one for the file",
        "commands",
    ):
        assert text in found, text
    assert found["the case has {count} entry, so there is no entry {number}"]
    assert "customer" not in {e.text for e in texts() if e.file.name == "customer_texts.py"}


def test_what_is_no_text() -> None:
    """Slots alone and ids are none; one word is one where it is said by name."""
    assert not is_text("{slot} {typed}", sure=True)
    assert not is_text("after-clean", sure=False)
    assert is_text("likely", sure=True)
    assert is_text("{label}: {state}", sure=True)
    assert is_text("two words", sure=False)
