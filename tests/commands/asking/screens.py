"""Whole sessions in a real terminal, and the screens that are kept of them.

After a wanted change: `python -m tests.commands.asking.screens`, then read the difference as a
technician would, and commit it with the change.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import pexpect

from tests.commands.asking.run import environment
from tests.commands.asking.support import HEADER

SCREENS = Path(__file__).parent / "snapshots"
AT = ("--at", "2031-03-14T09:00+01:00")
# The prompt ends so; an arrow before advice, `-> `, is none.
PROMPT = r"(?<!-)> $"
CTRL_C = "\x03"
LONGEST_WAIT_S = 120


@dataclass(frozen=True)
class Scene:
    """What is typed, line by line; `columns` of the terminal; `entries` that the case has, and the
    `folder` it is in."""

    typed: Sequence[str]
    columns: int = 80
    entries: str = ""
    arguments: Sequence[str] = ("van.yaml",)
    folder: str = "."


ONE = "- {at: 2031-03-14T08:50+01:00, by: tech-1, round: arrival, facts: {fire-signs: no}}\n"
SCENES = {
    "opening": Scene(("no", "between marks", "gradual", "6", "done")),
    "opening-50": Scene(("no", "2", "later", "6 km", "done"), columns=50),
    "correction": Scene(("no", "low", "change oil-level above max", "forget oil-level", "done")),
    "back": Scene(("no", "low", "back", "back", "", "gr", "quit")),
    "help": Scene(("?", "??", "? hose-look", "? dp@2500", "quit")),
    "help-50": Scene(("?", "??", "quit"), columns=50),
    "free-entry": Scene(
        (
            "dp 18 hPa",
            "rest",
            "dp@idle 0,9 kPa, air 480 mg/st at 2500; oil-levle low",
            "dp@idle 0,9 kPa, air 480 mg/st at 2500; oil level low",
            "dp idle 1,500",
            "dp idle 34",
            "never mind",
            "dp@2500 98",
            "9,8",
            "codes P2463",
            "yes",
            "yes",
            "note soft hose",
            "done",
        )
    ),
    "quit": Scene(("no", CTRL_C)),
    "danger": Scene(("yes", "go on", "low", "done")),
    "resume": Scene(("low", "done"), entries=ONE),
    "sheet": Scene(("sheet", "enter sheet", "no", "all cannot: no tool", "done")),
    "choose": Scene(("9", "1", "low", "done"), entries=ONE, arguments=(), folder="cases"),
    "new": Scene(
        ("new", "", "2.0 L panel van", "2,0", "many", "4", "", "-", "no", "yes", "", "no", "done"),
        arguments=(),
    ),
    "not-used": Scene(("perhaps", "full", "go nowhere", "why nothing", "work x", "quit")),
}


def played(scene: Scene) -> tuple[str, int | None, str]:
    """The screen of a scene from first to last, the exit code, and the case as it is then."""
    with tempfile.TemporaryDirectory() as folder:
        case = Path(folder) / scene.folder / "van.yaml"
        case.parent.mkdir(exist_ok=True)
        case.write_text(HEADER + scene.entries, encoding="utf-8")
        child = pexpect.spawn(
            sys.executable,
            ["-m", "tests.commands.asking.run", "ask", *scene.arguments, *AT],
            cwd=folder, env=environment(), dimensions=(24, scene.columns), encoding="utf-8",
            timeout=LONGEST_WAIT_S,
        )  # fmt: skip
        screen = ""
        for line in scene.typed:
            child.expect(PROMPT)
            screen += child.before + child.after
            if line == CTRL_C:
                child.sendintr()
            else:
                child.sendline(line)
        child.expect(pexpect.EOF)
        screen += child.before
        child.close()
        return screen.replace("\r\n", "\n"), child.exitstatus, case.read_text(encoding="utf-8")


def refresh() -> None:
    """Write every screen as it is now, and remove those of scenes that are gone."""
    SCREENS.mkdir(exist_ok=True)
    for old in SCREENS.glob("*.txt"):
        if old.stem not in SCENES:
            old.unlink()
    for name, scene in SCENES.items():
        (SCREENS / f"{name}.txt").write_text(played(scene)[0], encoding="utf-8", newline="\n")


if __name__ == "__main__":
    refresh()
