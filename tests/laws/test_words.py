"""Law 13: no text promises safety; no caution is dropped."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parents[2]
PACKS = sorted((ROOT / "rules").glob("*.yaml"))
CASES = sorted((ROOT / "cases").rglob("*.yaml"))
PAGES = sorted([ROOT / "README.md", ROOT / "CHANGELOG.md", *(ROOT / "docs").rglob("*.md")])
SOURCES = sorted((ROOT / "src").rglob("*.py"))
WORDS = sorted((ROOT / "rules" / "words").rglob("*.yaml"))

_PROMISE = re.compile(
    r"\b(?:(?:is|are|be|it's) (?:safe|harmless)\b|safe to\b|safe for\b|safely\b|approved\b"
    r"|certified\b|guarantee[ds]?\b|risk-free\b)",
    re.IGNORECASE,
)
# A sentence may say that nothing here promises anything, or that something is dangerous.
_DENIAL = re.compile(
    r"\bno (?:text|word|sentence|output)\b|\bnever (?:says?|promises?)\b"
    r"|\b(?:not|never|un)[ -]?safe\b|\bnever (?:is|be) safe\b",
    re.IGNORECASE,
)
# What an instruction may never tell anyone to do to emission equipment.
_DISABLE = re.compile(
    r"\b(?:disable|delete|blank(?: it)? off|gut|hollow out|map out|code out|bypass)\b",
    re.IGNORECASE,
)
# Where a pack tells people to do something.
TELLING = (
    *("does", "then", "steps", "stop when", "resets", "oil afterwards", "tell the customer"),
)


def promises(text: str) -> list[str]:
    """The sentences of a text that promise something."""
    sentences = re.split(r"(?<=[.!?:;])\s+|\n\s*\n", text)
    joined = (" ".join(sentence.split()) for sentence in sentences)
    return [s for s in joined if _PROMISE.search(s) and not _DENIAL.search(s)]


def strings(source: str) -> Iterator[str]:
    """Every text in a Python file that could be shown: all but docstrings."""
    tree = ast.parse(source)
    docstrings = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or id(node) in docstrings:
            continue
        if isinstance(node.value, str):
            yield node.value


def named(files: list[Path]) -> list[object]:
    return [pytest.param(file, id=file.relative_to(ROOT).as_posix()) for file in files]


def instructions(data: object) -> Iterator[str]:
    """Every `does`, `then`, `steps` and so on of a pack: what it tells people to do."""
    if isinstance(data, dict):
        for key, value in data.items():
            if key in TELLING:
                yield from (v for v in [value, *_list(value)] if isinstance(v, str))
            yield from instructions(value)
    elif isinstance(data, list):
        for item in data:
            yield from instructions(item)


def _list(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def actions() -> dict[str, dict[str, object]]:
    """All actions of all packs."""
    found: dict[str, dict[str, object]] = {}
    for pack in PACKS:
        found |= yaml.safe_load(pack.read_text(encoding="utf-8")).get("actions") or {}
    return found


def test_there_is_something_to_read() -> None:
    """The laws of this file read packs, cases, pages and sources, not empty folders."""
    assert PACKS
    assert CASES
    assert len(PAGES) > 5
    assert len(SOURCES) > 10
    assert actions()


@pytest.mark.parametrize("file", named([*PACKS, *WORDS, *CASES, *PAGES]))
def test_no_shipped_text_promises(file: Path) -> None:
    """No pack, case, translation or page promises safety, approval or success."""
    assert promises(file.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("file", named([*SOURCES]))
def test_no_program_text_promises(file: Path) -> None:
    """No text inside the program promises safety, approval or success."""
    assert [p for text in strings(file.read_text(encoding="utf-8")) for p in promises(text)] == []


def test_every_action_has_its_caution() -> None:
    """What can hurt says how, to whom, and carries a caution."""
    bare = [
        name
        for name, action in actions().items()
        if not str(action.get("caution") or "").strip() or not action.get("hurts if wrong")
    ]
    assert bare == []


@pytest.mark.parametrize("file", named(PACKS))
def test_no_instruction_disables_emission_equipment(file: Path) -> None:
    """Nothing tells anyone to remove or disable emission equipment, not even as a test."""
    data = yaml.safe_load(file.read_text(encoding="utf-8"))
    assert [text for text in instructions(data) if _DISABLE.search(text)] == []


@pytest.mark.parametrize(
    "text",
    [
        "It is safe to drive.",
        "The van is\nsafe to drive.",
        "An approved method.",
        "Success is guaranteed",
        "says: Certified clean",
        "No text says so. This one is safe.",
        "It can safely be driven on.",
    ],
)
def test_a_promise_is_found(text: str) -> None:
    """The law hears a promise, across line ends and beside an honest sentence."""
    assert len(promises(text)) == 1


@pytest.mark.parametrize(
    "text",
    [
        "No text says that something is safe.",
        "It is not safe to start the engine.",
        "The safety page. Use safety stands. A safe_load of YAML.",
        "Starting it would be unsafe.",
    ],
)
def test_an_honest_sentence_passes(text: str) -> None:
    """Warnings, and sentences that deny any promise, are not accused."""
    assert promises(text) == []


def test_a_promise_inside_the_program_is_found() -> None:
    """The law reads the texts of a Python file, and leaves out what only developers read."""
    source = '"""Escaped, so it is safe."""\ndef f(x):\n    return f"{x} is safe to drive"\n'
    assert [p for text in strings(source) for p in promises(text)] == ["is safe to drive"]


def test_a_disabling_instruction_is_found() -> None:
    """The law hears an instruction to disable something, wherever it stands in a pack."""
    data = {"remedies": {"x": {"then": "Drive"}, "y": {"does": "Blank off the valve"}}}
    assert [t for t in instructions(data) if _DISABLE.search(t)] == ["Blank off the valve"]
    assert list(instructions([{"then": ["Drive", "Bypass it"]}])) == ["Drive", "Bypass it"]
    steps = {"steps": ["Cool", {"does": "Gut it", "caution": "Hot"}]}
    assert list(instructions(steps)) == ["Cool", "Gut it"]
