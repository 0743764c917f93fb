"""The program's modules as trees, and what their constants are, also across modules."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TypeGuard

SOURCE = Path(__file__).parents[2] / "src" / "sootsayer"
PACKAGE = "sootsayer"


@dataclass(frozen=True, slots=True)
class Found:
    """One text: where it stands, and of a counted one the form for many."""

    file: Path
    line: int
    text: str
    many: str = ""


_Function = tuple["Module", ast.FunctionDef]


class Literal(ast.Constant):
    """A constant that is a text."""

    value: str


@dataclass(slots=True)
class Module:
    """One file: its dotted name, tree and lines, its module-level constants by name, and what its
    imported names stand for (a module, or a module and a name in it)."""

    name: str
    file: Path
    tree: ast.Module
    lines: list[str]
    constants: dict[str, ast.expr] = field(default_factory=dict)
    imported: dict[str, str] = field(default_factory=dict)

    @property
    def has_texts(self) -> bool:
        """Whether its constants are sentences: it says them itself, is a list of such, or is a
        command, which describes itself."""
        last = self.name.rpartition(".")[2]
        return (
            last.endswith("_texts")
            or self.name.startswith(f"{PACKAGE}.commands.")
            or any(each.startswith(f"{PACKAGE}.catalogue.") for each in self.imported.values())
        )


def is_constant(name: str) -> bool:
    """Whether a name is written like that of a constant."""
    return name.lstrip("_").isupper()


def module_of(name: str, file: Path) -> Module:
    """A file read as a module."""
    text = file.read_text(encoding="utf-8")
    tree = ast.parse(text, filename=str(file))
    module = Module(name, file, tree, text.splitlines())
    for node in tree.body:
        for target, value in _assigned(node):
            for name, of in _each(target, value):
                if is_constant(name):
                    module.constants[name] = of
    for part in ast.walk(tree):
        if isinstance(part, ast.ImportFrom) and not part.level:
            for each in part.names:
                module.imported[each.asname or each.name] = f"{part.module}.{each.name}"
    return module


def _assigned(node: ast.stmt) -> Iterator[tuple[ast.expr, ast.expr]]:
    if isinstance(node, ast.Assign):
        for target in node.targets:
            yield target, node.value
    elif isinstance(node, ast.AnnAssign) and node.value is not None:
        yield node.target, node.value


def _each(target: ast.expr, value: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    """`A = x` and `A, B = x, y`: each name with what it stands for."""
    if isinstance(target, ast.Name):
        yield target.id, value
    elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
        for name, of in zip(target.elts, value.elts, strict=False):
            yield from _each(name, of)


@cache
def modules(source: Path = SOURCE) -> dict[str, Module]:
    """Every module of the program by its dotted name."""
    found = {}
    for file in sorted(source.rglob("*.py")):
        parts = [PACKAGE, *file.relative_to(source).with_suffix("").parts]
        name = ".".join(parts).removesuffix(".__init__")
        found[name] = module_of(name, file)
    return found


def constant(module: Module, node: ast.expr, known: dict[str, Module]) -> ast.expr | None:
    """What a name stands for, where it is a module-level constant of this or another module."""
    if isinstance(node, ast.Name):
        if node.id in module.constants:
            return module.constants[node.id]
        owner, _, name = module.imported.get(node.id, "").rpartition(".")
        return known[owner].constants.get(name) if owner in known else None
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        owner = module.imported.get(node.value.id, "")
        return known[owner].constants.get(node.attr) if owner in known else None
    return None


def called(node: ast.Call) -> str:
    """The name of what is called, without what it is of."""
    if isinstance(node.func, ast.Name):
        return node.func.id
    return node.func.attr if isinstance(node.func, ast.Attribute) else ""


def function(module: Module, node: ast.Call, known: dict[str, Module]) -> _Function | None:
    """The module-level function of this or another module that is called by its name."""
    if not isinstance(node.func, ast.Name):
        return None
    name, where = node.func.id, module
    if name in module.imported:
        owner, _, name = module.imported[name].rpartition(".")
        if owner not in known:
            return None
        where = known[owner]
    found = (each for each in where.tree.body if isinstance(each, ast.FunctionDef))
    of = next((each for each in found if each.name == name), None)
    return None if of is None else (where, of)


def is_string(node: ast.AST) -> TypeGuard[Literal]:
    """Whether it is a literal text."""
    return isinstance(node, ast.Constant) and isinstance(node.value, str)
