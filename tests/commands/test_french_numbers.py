"""Whole pages in the French that ships: every number, day and declared word on them is French."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

import pytest

from sootsayer.catalogue import OWN, speak
from sootsayer.commands.main import main
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules

CASE = "estate-before-and-after"
PAGES = {
    "judge": ["judge", CASE, "--more"],
    "plan": ["plan", CASE, "--more"],
    "compare": ["compare", CASE],
    "why": ["why", CASE, "resistance-at-2500"],
    "report": ["report", CASE, "--text"],
    "signal": ["rules", "show", "oil-level"],
    "finding": ["rules", "show", "resistance-at-2500"],
    "check": ["rules", "show", "read-dipstick"],
}
# A number with a decimal point, thousands parted by a comma, an ISO day.
ENGLISH = re.compile(
    r"(?<![\w.])\d+\.\d+(?!\w|\.\d)|(?<![\w,])[1-9]\d{0,2}(?:,\d{3})+(?!\d)|\d{4}-\d\d-\d\d"
)
# The vehicle's label and the program's version are no numbers of ours.
NOT_OURS = re.compile(r"1\.6 L estate car|[Ss]ootsayer \d+\.\d+\.\d+|\S+\.yaml:\d+")


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    """The language that a command has chosen is in force in the whole process."""
    yield
    speak(OWN)


def page(arguments: list[str], capsys: pytest.CaptureFixture[str], language: str) -> str:
    assert main([*arguments, "--language", language]) == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("name", sorted(PAGES))
def test_no_english_number_is_left(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """No decimal point, no comma between thousands, no ISO day: in French they are written so."""
    french = NOT_OURS.sub("", page(PAGES[name], capsys, "fr"))
    assert ENGLISH.findall(french) == []
    assert re.search(r"\d", french)


def test_the_test_would_see_them(capsys: pytest.CaptureFixture[str]) -> None:
    """The English page has what the French one has not."""
    found = ENGLISH.findall(NOT_OURS.sub("", page(PAGES["judge"], capsys, "en")))
    assert any("." in each for each in found)
    assert any("-" in each for each in found)


def test_levels_and_answers_are_french(capsys: pytest.CaptureFixture[str]) -> None:
    """The words of a signal and of a finding, as the packs' French has them."""
    signal = page(PAGES["signal"], capsys, "fr")
    assert "entre les repères" in signal
    assert "between marks" not in signal
    finding = page(PAGES["finding"], capsys, "fr")
    words = load_rulebook([shipped_rules()]).model.findings["resistance-at-2500"].levels
    assert (
        re.findall(rf"(?<![\w-])(?:{'|'.join(words)})(?![\w-])", finding.replace("normale", ""))
        == []
    )


def test_json_has_ids_and_points(capsys: pytest.CaptureFixture[str]) -> None:
    """A verdict for programs is the same in both languages but for its texts."""
    english, french = (
        json.loads(page(["judge", CASE, "--json"], capsys, language)) for language in ("en", "fr")
    )
    told = [*_texts(english, french)]
    assert told
    assert {key for key, _ in told} <= {
        "label", "says", "when_not", "does", "caution", "what", "story", "words", "how", "hurts",
        "then", "steps", "stop_when", "consumes", "resets", "oil_afterwards", "tell_the_customer",
    }  # fmt: skip
    levels = {finding["level"] for finding in french["findings"]}
    assert levels == {finding["level"] for finding in english["findings"]}


def _texts(one: object, other: object, key: str = "") -> Iterator[tuple[str, object]]:
    """What differs, by the name of the innermost key."""
    assert type(one) is type(other)
    if isinstance(one, dict) and isinstance(other, dict):
        assert [*one] == [*other]
        for name in one:
            yield from _texts(one[name], other[name], name)
    elif isinstance(one, list) and isinstance(other, list):
        assert len(one) == len(other)
        for mine, theirs in zip(one, other, strict=True):
            yield from _texts(mine, theirs, key)
    elif one != other:
        assert isinstance(one, str), (key, one, other)
        yield key, one
