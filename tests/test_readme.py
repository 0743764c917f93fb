"""What the README shows is what a reader gets."""

from __future__ import annotations

import re

from tests.refresh_readme import README, printed, screens

TEXT = README.read_text(encoding="utf-8")


def test_exactly_two_commands_of_one_line_each() -> None:
    """A fresh machine needs two copyable lines: the first shows, the second tests."""
    blocks = re.findall(r"^```sh\n(.*?)^```$", TEXT, re.DOTALL | re.MULTILINE)
    assert [block.count("\n") for block in blocks] == [1, 1]
    assert "sootsayer judge blocked-by-short-trips" in blocks[0]
    assert blocks[1].rstrip().endswith("-m pytest")


def test_the_screen_is_what_the_command_prints() -> None:
    """The screen in the README is the command's own, to the letter."""
    shown = screens(TEXT)
    assert list(shown) == ["judge blocked-by-short-trips"]
    assert shown == {arguments: printed(arguments) for arguments in shown}


def test_the_case_shown_says_something() -> None:
    """The demonstration is not an empty screen."""
    assert len(printed("judge blocked-by-short-trips").splitlines()) > 5
