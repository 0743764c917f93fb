"""The line as it would be right."""

from __future__ import annotations

import pytest

from sootsayer.catalogue import Said
from sootsayer.documents.mended import mended
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import DID_YOU_MEAN, WRITE_NAME, Problem


@pytest.mark.parametrize(
    ("line", "at", "what", "instead", "right"),
    [
        (
            "  when: {dpp: {above: 3}}", "dpp", 'there is no signal "dpp"',
            'did you mean "dp"?', "  when: {dp: {above: 3}}",
        ),
        (
            '  a: "Dp"', '"Dp"', 'there is no signal "Dp"', 'did you mean "dp"?', "  a: dp",
        ),
        ("pack: x", "x", 'the pack "x" is', 'write "y"', "pack: y"),
        (
            "- {at: [a, b], was: {low: 1, high: 99}, now: 3}  # why", "{low",
            "the number beneath has moved", "look again; if it holds, write `was: 5`",
            "- {at: [a, b], was: 5, now: 3}  # why",
        ),
        ("format: 2", "2", "unknown format", "write `format: 1`", "format: 1"),
        ("x: {then: true}", "{then", "it says true", "mend it, or write `then: false`",
         "x: {then: false}"),
    ],
)  # fmt: skip
def test_mended(line: str, at: str, what: str, instead: str, right: str) -> None:
    """One word or one value replaced, the rest of the line as it was."""
    problem = Problem(Place("f", 1, line.index(at) + 1), what, instead, line)
    assert mended(problem) == right


@pytest.mark.parametrize(
    ("what", "instead"),
    [
        ('there is no "a"', "name one that a pack has"),
        ('there is no "zzz"', 'did you mean "dp"?'),
        ("it is wrong", "write `other: 3`"),
        ("it is wrong", "write `a: 1`"),
    ],
)
def test_not_mended(what: str, instead: str) -> None:
    """Where it is not sure what would stand there, no line is offered."""
    assert mended(Problem(Place("f", 1, 1), what, instead, "b: {a: 2, a: 3}")) is None


OTHERWISE_SAID = {DID_YOU_MEAN: 'vouliez-vous dire "{name}" ?', WRITE_NAME: 'écrire "{name}"'}


@pytest.mark.parametrize(
    "instead", ['vérifier le nom ; vouliez-vous dire "dp" ?', 'écrire "dp"', "écrire `a: dp`"]
)
def test_mended_in_any_language(monkeypatch: pytest.MonkeyPatch, instead: str) -> None:
    """The word is found in the sentence that `say` makes, whatever the language is."""
    monkeypatch.setattr(
        "sootsayer.documents.mended.say",
        lambda template, **slots: Said(OTHERWISE_SAID[template].format(**slots)),
    )
    for what in ('pas de relevé "dpp"', "pas de relevé «\u00a0dpp\u00a0»"):
        problem = Problem(Place("f", 1, 4), what, instead, "a: dpp")
        assert mended(problem) == "a: dp"
