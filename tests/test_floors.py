"""The lowest versions that are allowed are the ones that the suite is tried with."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests import floors

ROOT = Path(__file__).parents[1]


def test_the_constraints_are_those_of_pyproject() -> None:
    """tests/floors.txt pins every requirement to its lower bound, and nothing else."""
    assert floors.FILE.read_text("utf-8") == floors.text(), "python -m tests.floors"
    found = floors.floors()
    assert {"PyYAML", "jsonschema", "rich", "pytest", "distributed"} <= set(found)
    assert len(found) == floors.text().count("==")


@pytest.mark.parametrize(
    ("requirement", "complaint"),
    [("rich", "write NAME>=LOWEST"), ("PyYAML>=6.1", "PyYAML has two lower bounds")],
)
def test_a_requirement_without_one_lower_bound(
    requirement: str, complaint: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Left open, or given twice, it is refused."""
    text = (ROOT / "pyproject.toml").read_text("utf-8")
    spoiled = text.replace("fleet = [\n", f'fleet = [\n  "{requirement}",\n')
    assert spoiled != text
    (tmp_path / "pyproject.toml").write_text(spoiled, encoding="utf-8")
    monkeypatch.setattr(floors, "ROOT", tmp_path)
    with pytest.raises(ValueError, match=complaint):
        floors.floors()


def test_every_python_that_is_declared_was_run() -> None:
    """The classifiers name the versions in the table of what was run, and no other."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    named = [each.rpartition(" ")[2] for each in project["classifiers"] if "Python :: 3." in each]
    page = (ROOT / "docs" / "reference" / "what-was-run.md").read_text("utf-8")
    rows = [line.split("|")[1].strip() for line in page.splitlines() if "| whole suite |" in line]
    run = {".".join(row.removeprefix("CPython ").split(".")[:2]) for row in rows}
    assert set(named) == run
    assert project["requires-python"] == f">={min(named, key=lambda each: int(each[2:]))}"
