"""Pages drawn in the language made of English, and what may stay in plain letters on them."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from sootsayer.commands.main import main
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from sootsayer.rulebook.words import Words
from tests.words.collecting import texts
from tests.words.pseudo import LANGUAGE, Pseudo, ids_of, left_over, template, words_in, words_of

CASE, ROUNDS = "sensor-offset", "estate-before-and-after"

# Words that are the same in every language: our own name, trade abbreviations, keys of files.
DECLARED = frozenset({
    "sootsayer", "JSON", "HTML", "XML", "JUnit", "YAML", "UTF-8", "CSV", "SHA-256", "tech-1",
    "m3/h", "m3", "h",
})  # fmt: skip

Page = Callable[..., str]


@cache
def model() -> Model:
    """The shipped rulebook."""
    return load_rulebook([shipped_rules()]).model


@cache
def words() -> Words:
    """All its texts in that language."""
    return words_of(model())


@cache
def known_words() -> frozenset[str]:
    """What may stay as it is: ids, and the names of the demonstration cases."""
    cases = {file.stem for file in shipped_cases().glob("*.yaml")}
    return DECLARED | ids_of(model()) | cases


def written(case: str) -> frozenset[str]:
    """The words of a demonstration case."""
    return words_in(shipped_cases() / f"{case}.yaml")


def drawn(
    pseudo: Pseudo,
    capsys: pytest.CaptureFixture[str],
    arguments: tuple[str, ...],
    code: int,
    known: frozenset[str],
) -> str:
    """What a command prints in that language; nothing but what is known may be left in plain
    letters, and everything that was asked for is in the catalogues."""
    came = main([*arguments, "--language", LANGUAGE])
    out, err = capsys.readouterr()
    assert came == code, out + err
    typed = {part for each in arguments for part in (each, *each.split("@"))}
    assert_said(out + err, pseudo, known | typed)
    return out + err


def assert_said(page: str, pseudo: Pseudo, known: frozenset[str]) -> None:
    """Nothing on the page is in plain letters but what is known, and nothing was asked for that is
    not in the catalogues."""
    left = sorted(set(left_over(page, known_words() | known)))
    assert not left, "\n".join(f"{word}: {line}" for word, line in left)
    lacking = sorted(_not_in_catalogues(pseudo) - known_words() - known)
    assert not lacking, f"not in the catalogues: {lacking}"


@cache
def _collected() -> frozenset[str]:
    return frozenset(text for each in texts() for text in (each.text, each.many))


def _not_in_catalogues(pseudo: Pseudo) -> set[str]:
    """What `say` was given and the collector did not find; what is said already is asked again."""
    asked = {each for each in pseudo.asked if "⟦" not in each and template(each) != each}
    return asked - _collected()
