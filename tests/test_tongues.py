"""Catalogues of other languages: what they say, and that a bad one never stops anything."""

from __future__ import annotations

import threading
from contextlib import suppress
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from hypothesis import given
from hypothesis import strategies as st

from sootsayer import tongues
from sootsayer.catalogue import has_words, language, listed, say, say_count, speak, speaking, spoken
from sootsayer.tongues import Tongue, fits, read_catalogue
from tests.words.catalogue import Kept, mo_bytes
from tests.words.told import Told

WORDS = {
    "{count} check": "",
    "the {thing} is {state}": "{state} : {thing}",
    "no more": "plus rien",
    "dropped {thing}": "perdu",
    "wrong {thing}": "faux {chose}",
    "reached {thing}": "atteint {thing.__class__}",
    "open {thing}": "ouvert {thing",
    "shaped {thing}": "mis en forme {thing!r:>4}",
}


def compiled(folder: Path) -> Path:
    """A small catalogue of French, with some sentences that are wrong."""
    made = Kept("fr")
    made.mime_headers = [("Plural-Forms", "nplurals=2; plural=(n > 1);")]
    for text, said in WORDS.items():
        if said:
            made.add(text, said)
    made.add(("{count} check", "{count} checks"), ("{count} contrôle", "{count} contrôles"))
    made.add(("one day", "{count} days"), ("un jour", "{count} jours"))
    file = folder / "sootsayer.mo"
    file.write_bytes(mo_bytes(made))
    return file


@pytest.fixture(name="french")
def _french(tmp_path: Path) -> Tongue:
    read = read_catalogue(compiled(tmp_path))
    assert read is not None
    return read


def test_a_sentence_is_said_in_the_language_in_force(french: Tongue) -> None:
    """Its slots may stand in another order; what has no words is said in English."""
    with speaking("fr", french):
        assert say("the {thing} is {state}", thing="hose", state="leaking") == "leaking : hose"
        assert say("no more") == spoken("no more") == "plus rien"
        assert say("not in it") == "not in it"
        assert language() == "fr"
    assert say("no more") == "no more"
    assert language() == "en"


def test_french_counts_none_as_one(french: Tongue) -> None:
    """0 and 1 take the singular, as French does; a form without its number is for one alone."""
    with speaking("fr", french):
        said = [say_count("{count} check", "{count} checks", count=n) for n in (0, 1, 2, 1000000)]
        assert said == ["0 contrôle", "1 contrôle", "2 contrôles", "1\u00a0000\u00a0000 contrôles"]
        days = [say_count("one day", "{count} days", count=n) for n in (0, 1, 5)]
        assert days == ["0 days", "un jour", "5 jours"]


@pytest.mark.parametrize("text", ["dropped", "wrong", "reached", "open", "shaped"])
def test_words_with_other_slots_are_not_said(text: str, french: Tongue) -> None:
    """A translation that drops, invents or reaches into a slot is passed over: English stands."""
    with speaking("fr", french):
        assert say(text + " {thing}", thing="hose") == f"{text} hose"


def test_what_fills_a_slot_is_escaped_in_any_language(french: Tongue) -> None:
    """A case's text steers no screen in French either."""
    with speaking("fr", french):
        said = say("the {thing} is {state}", thing="\x1b[1m", state="{thing}")
    assert said == "{thing} : \\x1b[1m"


def test_languages_nest_and_hold_for_every_thread(french: Tongue) -> None:
    """A page in another language ends, whatever happens in it; a thread says what is in force."""
    heard: list[str] = []
    with speaking("fr", french):
        with suppress(ValueError), speaking("en"):
            heard.append(say("no more"))
            raise ValueError
        thread = threading.Thread(target=lambda: heard.append(say("no more")))
        thread.start()
        thread.join()
    assert heard == ["no more", "plus rien"]


def test_a_list_is_parted_as_the_language_does() -> None:
    """What parts a list is a text like any other."""
    with speaking("fr", Told({"; ": "\u00a0; "})):
        assert listed([say("a"), say("b")]) == "a\u00a0; b"


@pytest.mark.parametrize("data", [b"", b"\xde\x12\x04\x95", b"not a catalogue", b"\x00" * 40])
def test_garbage_is_no_catalogue(data: bytes, tmp_path: Path) -> None:
    """What is no catalogue is none; English is said."""
    file = tmp_path / "sootsayer.mo"
    file.write_bytes(data)
    assert read_catalogue(file) is None


def test_no_file_a_folder_and_no_right_are_no_catalogue(tmp_path: Path) -> None:
    """A file that cannot be read is no catalogue."""
    assert read_catalogue(tmp_path / "none.mo") is None
    assert read_catalogue(tmp_path) is None


@given(st.integers(min_value=0), st.binary(max_size=3))
def test_a_torn_or_changed_catalogue_never_raises(
    tmp_path_factory: pytest.TempPathFactory, at: int, put: bytes
) -> None:
    """Cut off or overwritten anywhere, it says English or French, and every sentence is whole."""
    folder = tmp_path_factory.mktemp("torn")
    whole = compiled(folder).read_bytes()
    at %= len(whole)
    for data in (whole[:at], whole[:at] + put + whole[at + len(put) :]):
        (folder / "sootsayer.mo").write_bytes(data)
        with speaking("fr", read_catalogue(folder / "sootsayer.mo")):
            said = say("the {thing} is {state}", thing="hose", state="leaking")
            assert "hose" in said
            assert "leaking" in said
            assert "3" in say_count("{count} check", "{count} checks", count=3)


def test_a_broken_rule_of_plurals_is_passed_over(tmp_path: Path) -> None:
    """A rule that divides by nothing, or names a form that is not there, gives English."""
    for rule in ("n % 0", "7"):
        made = Catalog("fr")
        made.mime_headers = [("Plural-Forms", f"nplurals=2; plural=({rule});")]
        made.add(("{count} check", "{count} checks"), ("{count} contrôle", "{count} contrôles"))
        file = tmp_path / "sootsayer.mo"
        file.write_bytes(mo_bytes(made))  # type: ignore[arg-type]
        with speaking("fr", read_catalogue(file)):
            assert say_count("{count} check", "{count} checks", count=2) == "2 checks"


@pytest.mark.parametrize("code", ["../fr", "fr/..", "", "FR", "f", "french", "fr-ca", "\0"])
def test_what_is_no_code_reaches_no_file(code: str) -> None:
    """A language is the code of one; nothing else is looked for on the disk."""
    assert tongues.tongue(code) is None
    assert not has_words(code)


def test_a_missing_catalogue_says_english(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Without its catalogue a language is in force all the same, for packs and numbers."""
    monkeypatch.setattr(tongues, "WORDS", tmp_path)
    tongues.tongue.cache_clear()
    try:
        with speaking("fr"):
            assert say("no more") == "no more"
            assert language() == "fr"
            assert tongues.tongues() == ("en",)
            assert not has_words("fr")
    finally:
        tongues.tongue.cache_clear()


def test_shipped_languages() -> None:
    """English and French are spoken; English needs no file."""
    assert tongues.tongues() == ("en", "fr")
    assert has_words("en")
    assert has_words("fr")
    assert tongues.tongue("en") is None
    speak("en")


def test_fits() -> None:
    """The same slots in any order and number; braces that are text stay text."""
    assert fits("{b} {a} {a}", "{a} {b}")
    assert not fits("{a}", "{a} {b}")
    assert not fits("{a:>4}", "{a}")
    assert fits("clé {{a}}", "key {{a}}")
    assert fits("anything {", "help {")
