"""The commands of the tutorials do what their pages say they do."""

from __future__ import annotations

import re

from tests.commands.tutorial import BLOCK, FIRST_VEHICLE, PAGE, played


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


def test_first_vehicle() -> None:
    """From an empty folder to a printed sheet each command prints what the page shows: python -m
    tests.commands.tutorial."""
    page = FIRST_VEHICLE.read_text(encoding="utf-8")
    assert len(BLOCK.findall(page)) == 5
    assert plain(played(page)) == plain(page)


def test_the_first_vehicle_shows_what_it_promises() -> None:
    """Unknown is no permission, a reading forbids something, a slip is put right, and no answer
    was refused."""
    page = FIRST_VEHICLE.read_text(encoding="utf-8")
    first, second = page.split("## With the scan tool")
    assert "May it be driven? That is not yet known." in first
    assert "May it be driven? Only to the workshop, and gently." in second
    assert "Forbidden now: Burn the filter free on the road." in second
    assert "112 mbar in place of 121 mbar: entry 11 corrects entry 10." in second
    assert page.count(" > done\n") == 2
    assert "sootsayer: " not in page
