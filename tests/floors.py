"""The lowest versions that pyproject.toml allows, as constraints for pip.

`python -m tests.floors` writes tests/floors.txt. `pip install ".[test]" -c tests/floors.txt` takes
exactly those; the suite passes with them on the oldest Python.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
FILE = Path(__file__).with_name("floors.txt")
HEAD = """\
# The lowest versions that pyproject.toml allows. Written by `python -m tests.floors`.
"""
TOOLS = "dev"  # linters and builders: whoever uses them takes the newest, as CI does
_BOUND = re.compile(r"(?P<name>[A-Za-z0-9._-]+)>=(?P<floor>[0-9.]+)(?: *;.*)?")


def floors() -> dict[str, str]:
    """Each requirement of the program and of its extras, with its lower bound. Raises ValueError
    for one without, or with two different ones."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = [each for name, each in project["optional-dependencies"].items() if name != TOOLS]
    found: dict[str, str] = {}
    for requirement in sum(extras, project["dependencies"]):
        match = _BOUND.fullmatch(requirement)
        if match is None:
            raise ValueError(f"{requirement}: write NAME>=LOWEST")
        if found.setdefault(match["name"], match["floor"]) != match["floor"]:
            raise ValueError(f"{match['name']} has two lower bounds")
    return found


def text() -> str:
    """The constraints, by name."""
    lines = (f"{name}=={floor}\n" for name, floor in floors().items())
    return HEAD + "".join(sorted(lines, key=str.lower))


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
