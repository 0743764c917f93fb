"""No text from outside reaches the screen raw, wherever in a verdict it stands."""

from __future__ import annotations

import unicodedata
from dataclasses import fields, is_dataclass, replace
from enum import Enum

import pytest
from rich.cells import cell_len

from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.judge_page import judge_page
from sootsayer.console.paper import Page
from sootsayer.console.screen import drawn
from sootsayer.console.why_page import why_page
from tests.console import answers, verdicts

HOSTILE = [
    "\x1b[31mred\x1b[0m\x1b]0;title\x07",
    "[bold]loud[/bold] [link=http://x]here[/link] :smile:",
    "\u202egnorw\u202c \u2066isolated\u2069 \u200bnothing\ufeff",
    "first\nsecond\r\x08\x0b\x0c\x85\u2028third\ttab",
    "\x9b2J\x90q\x9c \ud800 \U000e0041",
    "{format} {0} %s %(x)s",
    "x" * 500,
    "wide 漢字 " * 40,
]
# What a drawing looks up; all other text fields are overwritten.
KEYS = {"kind", "origin", "op"}


def poisoned(value: object, text: str, name: str = "") -> object:
    """The value with every text in it, at any depth, replaced by `text`."""
    if isinstance(value, Enum) or name in KEYS:
        return value
    if isinstance(value, str):
        return text
    if isinstance(value, tuple):
        return tuple(poisoned(item, text) for item in value)
    if isinstance(value, dict):
        return value if name == "none" else {k: poisoned(v, text) for k, v in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        changes = {f.name: poisoned(getattr(value, f.name), text, f.name) for f in fields(value)}
        return replace(value, **changes)
    return value


def pages(text: str) -> list[Page]:
    names = poisoned(verdicts.NAMES_REFUSED, text)
    drawings: list[Page] = []
    # Between them these two have every field filled.
    for make in (verdicts.blocked_filter, verdicts.hidden_by_hose):
        verdict = poisoned(make(), text)
        drawings += [judge_page(verdict, names), judge_more_page(verdict, names)]  # type: ignore[arg-type]
    # A long text in every field is slow to fold; three kinds of answer then do.
    asked = list(answers.ALL.values())[: 3 if len(text) > 100 else None]
    drawings += [why_page(poisoned(a, text), names) for a in asked]  # type: ignore[arg-type]
    return drawings


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_nothing_raw_reaches_the_screen(text: str) -> None:
    """In every text field of every page what could steer a screen is written out, and folded."""
    for page in pages(text):
        screen = drawn(page)
        raw = {c for c in screen if unicodedata.category(c) in {"Cc", "Cf", "Cs", "Zl", "Zp"}}
        assert raw <= {"\n"}
        screen.encode("utf-8")
        assert max(map(cell_len, screen.splitlines())) <= 80


def test_markup_is_shown_as_typed() -> None:
    """Square brackets and colons are text, not orders."""
    for page in pages("[bold]x[/bold]:smile:"):
        assert "[bold]x[/bold]:smile:" in drawn(page)


def test_escape_is_written_out() -> None:
    """What was hidden becomes readable: the reader sees that somebody tried."""
    assert "\\x1b[31m" in drawn(pages("\x1b[31m")[0])


def test_colour_does_not_open_a_door() -> None:
    """On a colour terminal the only escapes are those that the program itself writes."""
    for page in pages("\x1b[31mred"):
        coloured = drawn(page, colour=True)
        assert "\x1b[31m" not in coloured
        assert "\x1b[" in coloured
