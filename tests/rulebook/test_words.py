"""Words apart: texts by id and field, translations that know what they translate."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from sootsayer.documents.nodes import Place, plain
from sootsayer.documents.problems import Refused
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook import model as contract
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.digests import WORDS, logic
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.words import (
    FIELDS,
    Text,
    Translation,
    Words,
    report,
    text_digest,
    texts_of,
    translated,
)
from sootsayer.rulebook.words_files import languages, load_words, schema
from tests.rulebook.bad_packs import GOLDEN
from tests.rulebook.test_pack_page import example

HERE = Path(__file__).parent / "golden_words"
MODEL = load_rulebook([GOLDEN]).model
TEXTS = texts_of(MODEL)
XX = load_words([HERE], "xx")
PAGE = Path(__file__).parents[2] / "docs" / "reference" / "words-format.md"


def backwards(text: Text) -> Translation:
    return Translation(text.id, text.field, text.digest, text.text[::-1], text.pack, text.place)


def said(model: Model) -> dict[tuple[str, str], str]:
    return {key: text.text for key, text in texts_of(model).items()}


def test_every_text_is_found() -> None:
    """Points apart from things, lists by number, and what does not hold beside what does."""
    assert TEXTS["@2500", "label"].text == "at 2,500 rpm"
    assert TEXTS["drive-hot", "then 2"].text == "Ask about trips in a month"
    assert TEXTS["oil-good", "when not"].text
    assert TEXTS["drive-on", "caution"].pack == "one-of-everything"
    assert TEXTS["resistance", "label"].place == MODEL.quantities["resistance"].place


def test_no_text_of_the_model_is_forgotten() -> None:
    """Every field that holds words for people is translated, or known to be for the record."""
    for_the_record = {"source", "note", "why", "apart_because"}
    assert {*FIELDS} | for_the_record == WORDS
    names = {
        each.name
        for part in vars(contract).values()
        if is_dataclass(part) and isinstance(part, type)
        for each in fields(part)
        if each.type in ("str", "tuple[str, ...]")
    }
    ids = {
        *("file", "id", "pack", "finding", "of", "state", "was", "now", "successor", "revision"),
        *("logic", "words", "unit", "formula", "choices", "levels", "points", "members"),
        *("proven_by", "nearest_first", "gives", "tools", "ask", "blocked_by", "path", "codes"),
        *("hurts", "needs", "heeds", "by_actions", "verify_by", "voids"),
        *("checks", "customary_order", "acquits_at"),
        *("needs_mended", "hides_faults"),
    }
    assert names == ids | WORDS


def test_golden_words_translate_everything() -> None:
    """The whole pack in another language: nothing stale, missing or unknown, every text other."""
    found = report(MODEL, XX)
    assert (found.stale, found.missing, found.unknown) == ((), (), ())
    assert said(translated(MODEL, XX)) == {key: each.text[::-1] for key, each in TEXTS.items()}


def test_declared_words_are_said_and_stay_ids() -> None:
    """A choice and a level are said in the other language, a family's by all its members, and
    what cases and rules write stays."""
    spoken = translated(MODEL, XX)
    assert spoken.signals["power-loss"].choices == ("none", "gradual", "sudden")
    assert spoken.signals["power-loss"].choice_words["gradual"] == "laudarg"
    family = spoken.families["restriction"]
    assert family.levels == MODEL.families["restriction"].levels
    assert family.level_words == {"low": "wol", "normal": "lamron", "raised": "desiar"}
    assert [spoken.findings[each].level_words for each in family.members] == [
        family.level_words
    ] * len(family.members)
    fields_of = {key[1] for key in TEXTS if key[0] in family.members}
    assert fields_of == {"says", "basis note"}
    assert ("oil-good", "level true") not in TEXTS


def test_a_declared_word_without_translation_is_itself() -> None:
    """Levels of which one has no translation: that one is said as it is written, and is listed."""
    fewer = tuple(each for each in XX.translations if each.field != "level raised")
    assert [(each.id, each.field) for each in report(MODEL, Words("xx", fewer)).missing] == [
        ("restriction", "level raised")
    ]
    assert said(translated(MODEL, Words("xx", fewer)))["restriction", "level raised"] == "raised"


def test_translated_logic_is_the_same() -> None:
    """Another language changes the digest of words, and nothing of the logic."""
    spoken = translated(MODEL, XX)
    assert logic(spoken) == logic(MODEL)
    assert spoken.digests.logic == MODEL.digests.logic
    assert spoken.digests.words != MODEL.digests.words
    assert translated(MODEL, Words("yy")) == MODEL


def test_a_changed_text_makes_its_translation_stale() -> None:
    """Where the original has changed since, it stands itself, and the translation is told."""
    action = replace(MODEL.actions["drive-on"], caution="Only gently, and not far")
    changed = replace(MODEL, actions={"drive-on": action})
    found = report(changed, XX)
    assert [(each.id, each.field) for each in found.stale] == [("drive-on", "caution")]
    assert found.missing == ()
    spoken = translated(changed, XX)
    assert spoken.actions["drive-on"].caution == "Only gently, and not far"
    assert spoken.actions["drive-on"].does == MODEL.actions["drive-on"].does[::-1]


def test_a_text_without_translation_stands_as_it_was_written() -> None:
    """A missing translation leaves the original, and is told with what it would translate."""
    fewer = tuple(each for each in XX.translations if each.field != "caution")
    found = report(MODEL, Words("xx", fewer))
    assert {each.field for each in found.missing} == {"caution"}
    assert [each.id for each in found.missing] == ["drive-hot", "drive-on", "read-dp-running"]
    spoken = translated(MODEL, Words("xx", fewer))
    assert spoken.actions["drive-on"].caution == MODEL.actions["drive-on"].caution


def test_what_translates_nothing_is_told() -> None:
    """A wrong id, a wrong field, or the file of another pack: unknown, and of no effect."""
    place = Place("words.yaml", 1, 1)
    label = TEXTS["dp", "label"]
    strange = (
        Translation("dp-gone", "label", "0" * 8, "x", label.pack, place),
        Translation("dp", "caution", "0" * 8, "x", label.pack, place),
        Translation("dp", "label", label.digest, "x", "another", place),
    )
    found = report(MODEL, Words("xx", strange))
    assert set(found.unknown) == set(strange)
    assert found.stale == ()
    assert translated(MODEL, Words("xx", strange)) == MODEL


@settings(deadline=None, max_examples=40)
@given(
    st.sets(st.sampled_from(sorted(TEXTS))),
    st.sets(st.sampled_from(sorted(TEXTS))),
    st.booleans(),
)
def test_no_text_is_ever_lost(
    here: set[tuple[str, str]], stale: set[tuple[str, str]], old_last: bool
) -> None:
    """Whatever is translated, stale or there twice, every text stands in one of two ways."""
    now = [backwards(TEXTS[key]) for key in sorted(here)]
    old = [replace(backwards(TEXTS[key]), of="0" * 8, text="old") for key in sorted(stale)]
    words = Words("xx", tuple([*now, *old] if old_last else [*old, *now]))
    spoken = said(translated(MODEL, words))
    assert spoken == {
        key: each.text[::-1] if key in here else each.text for key, each in TEXTS.items()
    }
    found = report(MODEL, words)
    assert {(each.id, each.field) for each in found.stale} == stale - here
    assert {(each.id, each.field) for each in found.missing} == set(TEXTS) - here - stale


HEAD = "words: own\nformat: 1\nlanguage: xx\n"
BAD = {
    HEAD + 'texts: {dp: {label: {of: 1234abcd, text: " "}}}\n': [
        "4:42: write the translation, or leave the whole entry out"
    ],
    HEAD + "texts: {dp: {label: {of: 1234abcd}}}\n": [
        "4:21: add text: (write the translation, or leave the whole entry out)"
    ],
    HEAD + "texts: {dp: {label: Druck}}\n": ["4:21: write a mapping (key: value)"],
    HEAD + "text: {dp: {label: {of: a, text: b}}}\n": ['4:1: did you mean "texts"?'],
    "words: other\nformat: 1\nlanguage: yy\n": [
        '1:8: write "own", or name the file after its pack: own.yaml',
        '3:11: write "xx", or put the file into the folder of its language',
    ],
    "words: own\nformat: 2\nlanguage: 3\n": [
        "2:9: write `format: 1`, or use a newer version of this program"
    ],
    "words: own\nformat: 1\n": ["1:1: add language: (write the code of a language, such as en)"],
}


@pytest.mark.parametrize("text", sorted(BAD))
def test_a_bad_words_file_is_refused_in_plain_words(text: str, tmp_path: Path) -> None:
    """Each fault of a words file is told at its place, with what would be right."""
    folder = tmp_path / "words" / "xx"
    folder.mkdir(parents=True)
    (folder / "own.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(Refused) as refused:
        load_words([tmp_path], "xx")
    assert [
        f"{each.place.line}:{each.place.column}: {each.instead}" for each in refused.value.problems
    ] == BAD[text]


def test_all_bad_files_are_told_at_once(tmp_path: Path) -> None:
    """A file that cannot be read does not hide what is wrong with the next."""
    folder = tmp_path / "words" / "xx"
    folder.mkdir(parents=True)
    (folder / "a.yaml").write_text("words: [\n", encoding="utf-8")
    (folder / "b.yaml").write_text("words: b\nformat: 1\nlanguage: yy\n", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        load_words([tmp_path], "xx")
    assert {Path(each.place.file).name for each in refused.value.problems} == {"a.yaml", "b.yaml"}


@pytest.mark.parametrize("language", ["../xx", "english", "", "X", "xx/..", "pt-br"])
def test_a_language_is_a_code(language: str) -> None:
    """What is no code of a language is refused before any file is looked for."""
    with pytest.raises(Refused):
        load_words([HERE], language)


def test_languages_are_those_that_have_words(tmp_path: Path) -> None:
    """English, and every language with a file in one of the folders."""
    (tmp_path / "words" / "yy").mkdir(parents=True)
    (tmp_path / "words" / "not-one").mkdir()
    assert languages([tmp_path, HERE]) == ("en", "xx")
    assert languages([shipped_rules()]) == ("en", "fr")
    assert load_words([tmp_path, HERE], "yy") == Words("yy")


def test_the_later_folder_stands(tmp_path: Path) -> None:
    """A shop's own translation stands instead of the shipped one."""
    folder = tmp_path / "words" / "xx"
    folder.mkdir(parents=True)
    of = TEXTS["dp", "label"].digest
    body = f"texts: {{dp: {{label: {{of: {of}, text: Ours}}}}}}\n"
    (folder / "one-of-everything.yaml").write_text(
        "words: one-of-everything\nformat: 1\nlanguage: xx\n" + body, encoding="utf-8"
    )
    ours = load_words([HERE, tmp_path], "xx")
    assert translated(MODEL, ours).signals["dp"].label == "Ours"
    theirs = load_words([tmp_path, HERE], "xx")
    assert translated(MODEL, theirs).signals["dp"].label == TEXTS["dp", "label"].text[::-1]


def test_schema_is_a_schema() -> None:
    """The schema is valid, and takes the golden words in another validator."""
    Draft202012Validator.check_schema(schema())
    data = plain(read_document(HERE / "words" / "xx" / "one-of-everything.yaml").root)
    assert list(Draft202012Validator(schema()).iter_errors(data)) == []


def test_a_digest_is_of_the_text_alone() -> None:
    """SHA-256 of the UTF-8 text, its first eight digits: as any tool computes it."""
    # FIPS 180-4 example: the digest of "abc" begins so.
    assert text_digest("abc") == "ba7816bf"


def test_the_page_tells_the_truth(tmp_path: Path) -> None:
    """The file on the reference page translates the pack on the page of the pack format."""
    page = PAGE.read_text(encoding="utf-8")
    folder = tmp_path / "words" / "de"
    folder.mkdir(parents=True)
    text = page.split("```yaml\n")[1].partition("```")[0]
    (folder / "example.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "example.yaml").write_text(example(), encoding="utf-8")
    words = load_words([tmp_path], "de")
    found = report(load_rulebook([tmp_path]).model, words)
    assert (found.stale, found.unknown) == ((), ())
    assert len(words.translations) == 8
    for field in FIELDS:
        assert f"`{field.replace('_', ' ')}" in page
    assert 'printf %s "at rest" | sha256sum | cut -c1-8`' in page
    assert text_digest("at rest") in text
