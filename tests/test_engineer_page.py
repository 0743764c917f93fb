"""The page for the engineer who takes this over: its walks are the program's."""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path
from types import FrameType

import pytest

from sootsayer.commands.main import COMMANDS, main, module_of

ROOT = Path(__file__).parents[1]
SOURCE = ROOT / "src" / "sootsayer"
PAGE = (ROOT / "docs" / "for-the-engineer.md").read_text(encoding="utf-8")
PLACE = re.compile(r"`([\w/]+\.py):(\w+)`")
LOG = ROOT / "cases" / "logs" / "panel-van-drive.csv"
CASE = """\
case: my-van
format: 1
vehicle: {label: 2.0 L panel van, engine litres: 2.0, cylinders: 4, filter litres: 2.8}
entries:
"""


def walk(name: str) -> list[tuple[str, str]]:
    """The files and functions of one walk, in order."""
    table = PAGE.split(f"<!-- walk: {name} -->")[1].split("\n\n")[1]
    rows = [line for line in table.splitlines() if re.match(r"\| \d", line)]
    found = [PLACE.search(row.split("|")[2]) for row in rows]
    assert all(found), rows
    return [(place[1], place[2]) for place in found if place]


def called(*lines: list[str]) -> list[tuple[str, str]]:
    """Every function of the program that the commands call, in the order of the first call."""
    package = str(Path(sys.modules["sootsayer"].__file__ or "").parent)
    seen: dict[tuple[str, str], None] = {}

    def note(frame: FrameType, event: str, _: object) -> None:
        code = frame.f_code
        if event == "call" and code.co_filename.startswith(package):
            file = Path(code.co_filename).relative_to(package).as_posix()
            seen.setdefault((file, code.co_name))

    sys.setprofile(note)
    try:
        codes = [main(line) for line in lines]
    finally:
        sys.setprofile(None)
    assert codes == [0] * len(lines)
    return list(seen)


@pytest.fixture(autouse=True)
def alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder without a shop, and nothing kept from an earlier run."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.setenv("SOOTSAYER_CACHE", str(tmp_path / "kept"))
    monkeypatch.chdir(tmp_path)


def test_the_walk_of_a_reading_is_walked(tmp_path: Path) -> None:
    """Each function of the walk is called, from the log to the report."""
    (tmp_path / "my-van.yaml").write_text(CASE, encoding="utf-8")
    steps = walk("reading")
    assert len(steps) >= 20
    log = ["readings", str(LOG), "my-van.yaml", "--all", "--at", "2031-03-14T09:20+01:00"]
    found = called(log, ["judge", "my-van.yaml"], ["report", "my-van.yaml", "--text"])
    assert [step for step in steps if step not in found] == []
    assert "dp@2500" in (tmp_path / "my-van.yaml").read_text("utf-8")


def test_the_walk_of_a_rule_is_walked() -> None:
    """Each function of the walk is called, from the pack to the screen."""
    steps = walk("rule")
    assert len(steps) >= 15
    found = called(["judge", "sensor-offset"])
    assert [step for step in steps if step not in found] == []


def test_everything_that_is_named_exists() -> None:
    """Files, functions and folders of the page are there, in the walks and beside them."""
    for file, name in PLACE.findall(PAGE):
        tree = ast.parse((SOURCE / file).read_text("utf-8"))
        kinds = (ast.FunctionDef, ast.ClassDef)
        assert name in {node.name for node in ast.walk(tree) if isinstance(node, kinds)}, file
    for path in re.findall(r"`((?:[a-z_-]+/)+[\w-]*(?:\.\w+)?)`", PAGE):
        assert "TOPIC" in path or (ROOT / path).exists() or (SOURCE / path).exists(), path
    for module in re.findall(r"python -m\s+(tests[\w.]+)", PAGE):
        assert (ROOT / (module.replace(".", "/") + ".py")).exists(), module


def test_every_room_stands_in_the_house() -> None:
    """No room is missing from the drawing."""
    drawing = PAGE.split("## The house")[1].split("```")[1]
    rooms = [each.name for each in SOURCE.iterdir() if (each / "__init__.py").exists()]
    assert len(rooms) > 10
    assert [room for room in rooms if not re.search(rf"\b{room}\b", drawing)] == []


def test_a_command_is_what_the_page_says() -> None:
    """Each command has what a new one is told to have."""
    for module in map(module_of, COMMANDS):
        for name in ("SUMMARY", "DESCRIPTION", "EXAMPLE", "fill", "run"):
            assert hasattr(module, name)
            assert name in PAGE
