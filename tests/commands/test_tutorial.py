"""The tutorial's commands do what the page says they do."""

from __future__ import annotations

import re

from tests.commands.tutorial import BLOCK, PAGE, played


def plain(text: str) -> str:
    """The page without what changes with every shipped pack: numbers, and the gaps beside them."""
    return re.sub(r" +", " ", re.sub(r"\d+", "0", text))


def test_first_rule() -> None:
    """From an empty folder each command prints what the page shows: python -m
    tests.commands.tutorial."""
    page = PAGE.read_text(encoding="utf-8")
    assert len(BLOCK.findall(page)) == 7
    assert plain(played(page)) == plain(page)


def test_the_page_shows_what_it_promises() -> None:
    """A proven rule, a mended line, and nothing wrong in the end."""
    page = PAGE.read_text(encoding="utf-8")
    assert "Checked with the rules in force: 0 errors, 0 warnings." in page
    assert "  + seen with: {front-hose-leaks: 17 of 20}" in page
    assert page.rindex("1 error, ") < page.rindex("Nothing is wrong.")
