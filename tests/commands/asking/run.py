"""The program on the little rulebook, in a process of its own.

`python -m tests.commands.asking.run ask van.yaml` is `sootsayer ask van.yaml` with another set of
packs: what a screen shows then changes only when the questionnaire does.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from sootsayer.commands import opened
from sootsayer.commands.main import main
from tests.commands.asking.support import RULES

ROOT = Path(__file__).parents[3]


def on_little_rulebook() -> None:
    """From here on in this process the shipped packs are the little ones."""
    opened.shipped_rules = lambda: RULES  # type: ignore[attr-defined]


def environment() -> dict[str, str]:
    """What a process of its own needs to find the tests, and a terminal without tricks, as wide
    as it is: a width in the environment (a test run on many processors sets one) would win."""
    found = [str(ROOT), os.environ.get("PYTHONPATH", "")]
    path = os.pathsep.join(part for part in found if part)
    kept = {name: value for name, value in os.environ.items() if name not in ("COLUMNS", "LINES")}
    return {**kept, "PYTHONPATH": path, "TERM": "dumb", "NO_COLOR": "1"}


if __name__ == "__main__":
    on_little_rulebook()
    sys.exit(main())
