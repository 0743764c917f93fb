"""Driven in a real terminal: opening, correction, back, help, free entry, quit, resume, sheet."""

from __future__ import annotations

import re
import sys

import pytest

pytest.importorskip("pexpect")
if sys.platform == "win32":
    pytest.skip("needs a terminal of Unix", allow_module_level=True)

from tests.commands.asking.screens import SCENES, SCREENS, played


@pytest.mark.parametrize("name", sorted(SCENES))
def test_screen_is_as_kept(name: str) -> None:
    """A session looks as it did until somebody wants it otherwise; and it fits its terminal."""
    scene = SCENES[name]
    screen, code, case = played(scene)
    assert screen == (SCREENS / f"{name}.txt").read_text(encoding="utf-8")
    assert code == (130 if name == "quit" else 0)
    # no cursor is moved, nothing is coloured: it works over a slow line
    assert "\x1b" not in screen
    typed = {line for line in scene.typed if len(line) > 20}
    lines = [line for line in screen.split("\n") if not any(t in line for t in typed)]
    assert max(map(len, lines)) <= scene.columns
    assert case.startswith("case: van\n")


def test_every_kept_screen_is_of_a_scene() -> None:
    """No screen outlives its scene."""
    assert {file.stem for file in SCREENS.glob("*.txt")} == set(SCENES)


def test_what_was_acknowledged_stands_in_the_case() -> None:
    """Each `written, entry N` on the screen is entry N of the file."""
    screen, _, case = played(SCENES["free-entry"])
    entries = [line for line in case.splitlines() if line.startswith("- {")]
    said = [
        (slot, int(number))
        for slot, number in re.findall(r"(\S+) [^\n]*: written,\s+entry (\d+)\.", screen)
        if "@" in slot
    ]
    assert len(said) >= 4
    for slot, number in said:
        assert f"{slot}: " in entries[number - 1]


def test_ctrl_c_leaves_a_case_that_resumes() -> None:
    """What was answered is there, and the way back is on the screen."""
    screen, code, case = played(SCENES["quit"])
    assert code == 130
    assert "facts: {fire-signs: no}" in case
    assert "To go on: sootsayer ask van.yaml" in screen
