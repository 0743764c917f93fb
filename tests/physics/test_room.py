"""The room of physics imports nothing but arithmetic and itself."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOM = Path(__file__).parents[2] / "src" / "sootsayer" / "physics"
ARITHMETIC = {"__future__", "math", "dataclasses", "typing", "collections.abc"}
# Only units and typed numbers read what people type, and say what is wrong with it.
FOR_READING = {
    "re",
    "difflib",
    "fractions",
    "functools",
    "sootsayer.catalogue",
    "sootsayer.catalogue_numbers",
}
FILES = sorted(ROOM.glob("*.py"))


def test_room_is_there() -> None:
    """The test below reads real files."""
    assert len(FILES) > 10


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_imports(file: Path) -> None:
    """Only arithmetic, and modules of this room."""
    allowed = ARITHMETIC | (FOR_READING if file.name.startswith(("unit", "typed")) else set())
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module or ""]
        for name in names:
            assert name in allowed or name.startswith("sootsayer.physics"), name


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_docstrings(file: Path) -> None:
    """Every public function and class says what it takes and gives."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            nested = node.name in ("function", "middle")  # closures, not public
            assert nested or ast.get_docstring(node), node.name
