"""Words are never identifiers: what programs read is the same bytes in every language, but for the
fields of words that `docs/reference/verdict.md` names."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.catalogue import speaking
from sootsayer.judgement import compare_json, verdict_json, why_json
from sootsayer.judgement.compare import compare, rounds_of
from sootsayer.judgement.compare_remains import what_remains
from sootsayer.judgement.judge import tell
from sootsayer.judgement.why import why
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from sootsayer.rulebook.words import translated
from sootsayer.rulebook.words_files import load_words
from tests.laws.demonstrations import A_FEW, NAMES, closing_moment
from tests.laws.making_cases import rulebook

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "verdict.md"


@cache
def fields_of_words() -> frozenset[str]:
    """The fields that hold words, as the page of the verdict names them."""
    section = PAGE.read_text(encoding="utf-8").split("\n## Words\n")[1].split("\n## ")[0]
    listed = section.split("\n\n")[1]
    return frozenset(re.findall(r"`([^`]+)`", listed))


@cache
def book(language: str) -> Rulebook:
    if language == "en":
        return rulebook()
    words = load_words([shipped_rules()], language)
    return replace(rulebook(), model=translated(rulebook().model, words))


def without_words(told: Any, path: str = "") -> Any:
    """The same with nothing in the fields of words; `path` as the page writes it."""
    if isinstance(told, dict):
        return {
            key: None if _is_words(key, path) else without_words(each, key)
            for key, each in told.items()
        }
    return [without_words(each, path) for each in told] if isinstance(told, list) else told


def _is_words(key: str, above: str) -> bool:
    return key in fields_of_words() or f"{above}.{key}" in fields_of_words()


def worked(name: str, language: str) -> Workings:
    case = read_case(Path(shipped_cases()) / f"{name}.yaml", book(language).model)
    return work_out(case, book(language), closing_moment(case), None)


def compared(work: Workings) -> dict[str, Any]:
    rounds = rounds_of(work)
    if len(rounds) < 2:
        return {}
    verdict = tell(work, proposing=False)
    found = compare(work, rounds[0], rounds[-1])
    remains = what_remains(work, verdict, found.to_round)
    return compare_json.as_json(found, (), remains, verdict.program)


def asked_why(name: str, language: str) -> Iterator[dict[str, Any]]:
    """One thing of each sort."""
    case = read_case(Path(shipped_cases()) / f"{name}.yaml", book(language).model)
    for thing in ("soot-overload", "dp-not-zero-at-rest", "drive-on", "dp@idle", "dp-rest-max"):
        answer = why(case, book(language), thing, now=closing_moment(case))
        yield why_json.as_json(answer)


def in_both(tell_it: Callable[[str], Any]) -> tuple[str, str]:
    """What is told in English and in French, both without their words, as text."""
    found = []
    for language in ("en", "fr"):
        with speaking(language):
            found.append(json.dumps(without_words(tell_it(language)), indent=1))
    return found[0], found[1]


@pytest.mark.parametrize("name", NAMES)
def test_verdicts_and_comparisons(name: str) -> None:
    """Every demonstration case: the verdict without its plan, and before and after."""
    english, french = in_both(
        lambda language: [
            verdict_json.as_json(tell(work := worked(name, language), proposing=False)),
            compared(work),
        ]
    )
    assert english == french


@pytest.mark.parametrize("name", A_FEW)
def test_plans_and_reasons(name: str) -> None:
    """One case of each sort: next checks, the plan with its ways, and reasons."""
    english, french = in_both(
        lambda language: [
            verdict_json.as_json(tell(worked(name, language), planning=True)),
            list(asked_why(name, language)),
        ]
    )
    assert english == french


def test_the_words_are_french() -> None:
    """The fields named hold the words, so leaving them out compares something."""
    found = {}
    for language in ("en", "fr"):
        with speaking(language):
            told = verdict_json.as_json(tell(worked("sensor-offset", language), planning=True))
            found[language] = json.dumps(told, ensure_ascii=False)
    assert found["en"] != found["fr"]
    assert "Capteur de pression" in found["fr"]
    assert "Capteur de pression" not in json.dumps(
        without_words(json.loads(found["fr"])), ensure_ascii=False
    )
