"""Every wrong usage ends with the next action, and what it says to type can be typed."""

from __future__ import annotations

import argparse
import io
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from tests.commands.reference import commands

CASE = "sensor-offset"
# What a required argument may be in a line that is wrong in another place.
FITS = {
    "CASE": CASE, "THING": "soot-overload", "LOG": "log.csv", "PACK": "pack.yaml", "ID": "1",
    "FOLDER": "copy", "SHELL": "bash",
}  # fmt: skip


def places(parser: argparse.ArgumentParser) -> list[argparse.Action]:
    """The arguments without a name that have to be given."""
    return [
        each
        for each in parser._actions
        if not each.option_strings
        and each.nargs not in ("*", "?")
        and not isinstance(each, argparse._SubParsersAction)
    ]


def wrong() -> Iterator[list[str]]:
    """Lines that are wrong in one way each: of every command, and of every option."""
    for name, parser in commands().items():
        words = name.split()[1:]
        given = words + [FITS[str(each.metavar)] for each in places(parser)]
        yield [*given, "--no-such-option"]
        if not any(isinstance(each, argparse._SubParsersAction) for each in parser._actions):
            if not any(each.nargs == "*" for each in parser._actions):
                yield [*given, *["one-too-many"] * 3]
            if places(parser):
                yield words
        elif words and words != ["cases"]:
            yield words
            yield [*words, "no-such-action"]
        for action in parser._actions:
            if action.option_strings and action.nargs != 0:
                yield [*given, action.option_strings[0]]
            if action.dest == "shop":
                yield [*given, "--shop", "no-such-folder"]
            if action.dest == "language":
                yield [*given, "--language", "xx"]


LINES = sorted({tuple(line) for line in wrong()})


def test_there_is_a_walk() -> None:
    """Every command is walked into, in several ways."""
    assert len(LINES) > 150
    assert {line[0] for line in LINES} >= {name.split()[1] for name in list(commands())[1:]}


@pytest.mark.parametrize("line", LINES, ids=" ".join)
def test_an_error_ends_with_the_next_action(
    line: tuple[str, ...], capsys: pytest.CaptureFixture[str],
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    """Nothing on stdout, what is wrong and what to do on stderr, exit code 2."""
    monkeypatch.chdir(tmp_path)
    assert main(line) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("sootsayer: ") or re.match(r"\S+:\d+:\d+: ", err)
    assert err.splitlines()[-1].startswith("  → ")
    for typed in re.findall(r"sootsayer ([a-z ]+--help)", err):
        assert main(typed.split()) == 0
    assert not list(tmp_path.iterdir())


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_on_a_terminal_no_word_is_broken(monkeypatch: pytest.MonkeyPatch) -> None:
    """A long next action is laid into the width of the screen, word by word."""
    monkeypatch.setattr(sys, "stderr", Terminal())
    monkeypatch.setenv("COLUMNS", "60")
    assert main(["judge", "no-such-case-at-all"]) == 2
    assert isinstance(sys.stderr, Terminal)
    lines = sys.stderr.getvalue().splitlines()
    assert len(lines) > 3
    assert max(map(len, lines)) <= 60
    assert all(line.startswith("    ") for line in lines[2:])
