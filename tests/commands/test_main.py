"""The command line: usage, help, exit codes."""

from __future__ import annotations

import argparse

import pytest

from sootsayer import __version__
from sootsayer.commands.main import COMMANDS, main
from tests.commands.reference import PAGE, commands, page

CASE = "sensor-offset"


def test_alone_it_says_what_it_is_and_what_to_type(capsys: pytest.CaptureFixture[str]) -> None:
    """Without arguments it welcomes within one screen of 80x24, and what it says to type works."""
    assert main([]) == 0
    out = capsys.readouterr().out
    assert "diesel particulate filter" in out
    assert len(out.splitlines()) < 24
    assert max(map(len, out.splitlines())) <= 80
    for typed in ("judge blocked-by-short-trips", "cases list --demonstration", "--help"):
        assert f"  sootsayer {typed}" in out
        assert main(typed.split()) == 0


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    """--version names the version and exits 0."""
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"sootsayer {__version__}\n"


EVERY = [name.split()[1:] for name in commands()]


@pytest.mark.parametrize("arguments", EVERY, ids=" ".join)
def test_help_has_an_example_and_fits(
    arguments: list[str], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every help, of actions too, shows an example of itself, within 80 columns and whatever
    COLUMNS says."""
    monkeypatch.setenv("COLUMNS", "30")
    assert main([*arguments, "--help"]) == 0
    out = capsys.readouterr().out
    shown = out[out.index("example:\n") :]
    assert f"\n  sootsayer {' '.join(arguments or ['judge'])}" in shown
    assert max(map(len, out.splitlines())) <= 80


def test_reference_page_is_as_the_help() -> None:
    """The reference is the commands' own help, word for word, so it cannot drift."""
    assert PAGE.read_text(encoding="utf-8") == page()


def test_every_command_and_option_is_documented() -> None:
    """No command and no option is missing from the reference."""
    text = PAGE.read_text(encoding="utf-8")
    every = commands()
    assert set(every) >= {"sootsayer", *(f"sootsayer {name}" for name in COMMANDS)}
    for name, parser in every.items():
        assert f"## {name}\n" in text
        section = text.split(f"## {name}\n")[1].split("\n## ")[0]
        for action in parser._actions:
            assert action.help != argparse.SUPPRESS
            assert all(option in section for option in action.option_strings)
            assert action.help or action.dest in ("command", "action")


@pytest.mark.parametrize(
    ("arguments", "what", "instead"),
    [
        (["jugde", CASE], 'no command "jugde"', 'did you mean "judge"?'),
        (["frobnicate"], 'no command "frobnicate"', f"the commands are: {', '.join(COMMANDS)}"),
        (["judge"], "required: CASE", "sootsayer judge --help"),
        (["why", CASE], "required: THING", "sootsayer why --help"),
        (["judge", CASE, "--colour"], "--colour", "--help"),
        (["judge", CASE, "--mor"], "--mor", "--help"),
        (["judge", CASE, "extra"], "extra", "--help"),
        (["judge", "sensor-ofset"], 'no case "sensor-ofset"', f'did you mean "{CASE}"?'),
        (["judge", "zzzz"], 'no case "zzzz"', "additive-run-dry"),
        (["judge", ""], 'no case ""', "additive-run-dry"),
        (["judge", "a\0b"], "\\x00", "without the NUL"),
        (["judge", "no/such.yaml"], 'no file "no/such.yaml"', "check the path"),
        (["judge", "x" * 5000], "no case", "additive-run-dry"),
        (["judge", "\x1b[31m"], "\\x1b[31m", "additive-run-dry"),
        (["judge", CASE, "--language", "de"], '"de"', "one of: en"),
        (["judge", CASE, "--at", "now"], '"now"', "2031-03-14T09:02+01:00"),
        (["judge", CASE, "--at", "2031-03-14T09:02"], "no offset", "+01:00"),
        (["judge", CASE, "--as-of", "999"], "no entry 999", "from 1"),
        (["judge", CASE, "--as-of", "-1"], '"-1"', "from 1"),
        (["judge", CASE, "--as-of", "two"], '"two"', "from 1"),
        (["why", CASE, "sensor-ofset"], '"sensor-ofset"', "sensor-offset"),
        (["why", CASE, "\u202e"], "\\u202e", "--more"),
    ],
)
def test_wrong_usage_says_what_to_do(
    arguments: list[str], what: str, instead: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is wrong and the next action on stderr, nothing on stdout, exit 2."""
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert what in err
    assert instead in err.split("→")[1]
    assert "Traceback" not in err
    assert "fault of sootsayer" not in err
    assert len(err) < 1000


@pytest.mark.parametrize(
    "words", [["judge", "a\0b"], ["rules", "check", "x", "\0"], ["ask", "--answers", "\0"], ["\0"]]
)
def test_a_nul_is_refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """From whoever calls the program with one: nothing is begun."""
    assert main(words) == 2
    said = capsys.readouterr().err
    assert "has a NUL in it" in said
    assert "\0" not in said


def test_language_english_is_taken(capsys: pytest.CaptureFixture[str]) -> None:
    """English may be asked for by name."""
    assert main(["judge", CASE, "--language", "en", "--as-of", "1"]) == 0
    assert capsys.readouterr().out
