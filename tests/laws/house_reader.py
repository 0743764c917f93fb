"""Reads the source of a package and says where it breaks the rules of the house.

Kept apart from the test so that the test can turn it on a planted house as well.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

PACKAGE = "sootsayer"

# Every room says its sentences through the catalogue: text in, text out.
_SAYS = frozenset({"catalogue", "catalogue_numbers", "catalogue_conventions"})
_LOW = _SAYS | {"belief", "engine", "physics"}
_CASEWORK = _LOW | {"rulebook", "casework"}
_JUDGEMENT = _CASEWORK | {"interview", "advice", "judgement"}
_TOP = _JUDGEMENT | {"documents"}

# What a record is and says, as data; drawing it needs no more of the ledger.
_RECORDS = frozenset(f"ledger.{name}" for name in ("model", "replay_model", "parts", "headlines"))

# What each room may import of the others. A dotted name is that module alone; as a room of its
# own it stands below its folder, and the folder's arrows are not its.
ARROWS: dict[str, frozenset[str]] = {
    "documents.escaping": frozenset(),
    "tongues": frozenset(),
    # slots are escaped as they are filled
    "catalogue": frozenset({"documents.escaping", "tongues", "catalogue_conventions"}),
    "catalogue_conventions": frozenset(),
    "catalogue_numbers": frozenset({"catalogue", "catalogue_conventions"}),
    "belief": _SAYS,
    "engine": _SAYS,
    "physics": _SAYS,
    "documents": _SAYS | {"documents.escaping"},
    "rulebook": _LOW | {"documents"},
    "casework": _LOW | {"rulebook", "documents"},
    "interview": _CASEWORK | {"documents.nodes"},
    "advice": _CASEWORK | {"documents.nodes"},
    "judgement": _JUDGEMENT | {"documents.nodes"},
    "learning": _TOP,
    "ledger": _TOP,
    "console": _TOP | _RECORDS,
    # of console the same words, numbers and pictures
    "report": _TOP | {"console"} | _RECORDS,
    "commands": _TOP | {"tongues", "console", "report", "learning", "ledger"},
    "__main__": frozenset({"commands"}),
    "__init__": frozenset(),
}

PURE = frozenset({"engine", "belief", "physics", "interview", "advice", "judgement"})

# Files, clock, formats, drawing, chance, and roads around this list.
IMPURE = (
    frozenset(
        {"pathlib", "os", "io", "shutil", "tempfile", "glob", "fileinput", "zipfile", "tarfile"}
    )
    | frozenset({"tarfile", "mmap", "sqlite3", "subprocess", "socket", "importlib", "time"})
    | frozenset({"yaml", "rich", "jsonschema", "random", "secrets", "uuid"})
)
RICH_ROOMS = frozenset({"console", "report", "commands"})
NOWHERE = frozenset({"pickle", "marshal", "shelve", "dill", "cloudpickle"})
NO_CALLS = frozenset({"eval", "exec", "__import__"})
FILE_METHODS = frozenset({"read_text", "write_text", "read_bytes", "write_bytes"})
CLOCK = frozenset({"now", "utcnow", "today"})


@dataclass(frozen=True, slots=True)
class Imported:
    """One import: the full dotted name (of an imported thing, with its module) and the line."""

    name: str
    line: int


@dataclass(frozen=True, slots=True)
class Breach:
    where: str
    line: int
    what: str

    def __str__(self) -> str:
        return f"{self.where}:{self.line}: {self.what}"


def breaches(source: Path) -> list[Breach]:
    """Every breach in the package whose folder is `source` (the one that holds the rooms)."""
    found: list[Breach] = []
    for file in sorted(source.rglob("*.py")):
        inside = file.relative_to(source)
        tree = ast.parse(file.read_text(encoding="utf-8"), filename=str(file))
        found += [
            Breach(inside.as_posix(), line, what)
            for line, what in sorted(_breaches_of(tree, inside))
        ]
    return found


def _breaches_of(tree: ast.Module, inside: Path) -> Iterator[tuple[int, str]]:
    room = room_of(".".join(inside.with_suffix("").parts))
    if room not in ARROWS:
        yield 1, f"the house has no room {room}: give it its arrows here and in DEVELOPERS.md"
        return
    for imported in imports(tree, inside):
        yield from _arrow(room, imported)
        yield from _foreign(room, imported)
    yield from _names(tree)
    if room in PURE:
        yield from _impure_calls(tree)


def room_of(module: str) -> str:
    """The room of a module, named within the package: itself where it has arrows of its own."""
    return next(
        (own for own in ARROWS if "." in own and f"{module}.".startswith(f"{own}.")),
        module.split(".")[0],
    )


def imports(tree: ast.Module, inside: Path) -> Iterator[Imported]:
    """All imports, wherever they stand; relative ones and import_module("...") resolved."""
    package = (PACKAGE, *inside.parts[:-1])
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield Imported(alias.name, node.lineno)
        elif isinstance(node, ast.ImportFrom):
            base = _base(node, package)
            for alias in node.names:
                yield Imported(f"{base}.{alias.name}", node.lineno)
        elif isinstance(node, ast.Call) and _called(node.func) == "import_module":
            for text in node.args[:1]:
                if isinstance(text, ast.Constant) and isinstance(text.value, str):
                    yield Imported(text.value, node.lineno)


def _base(node: ast.ImportFrom, package: tuple[str, ...]) -> str:
    if not node.level:
        return node.module or ""
    above = package[: len(package) - node.level + 1]
    return ".".join((*above, node.module) if node.module else above)


def _arrow(room: str, imported: Imported) -> Iterator[tuple[int, str]]:
    head, _, rest = imported.name.partition(".")
    if head != PACKAGE or not rest or rest.startswith("__"):
        return  # foreign, or the package's own version
    if room_of(rest) == room:
        return
    allowed = ARROWS[room]
    if not any(rest == name or rest.startswith(name + ".") for name in allowed):
        yield imported.line, f"{room} may not import {imported.name}"


def _foreign(room: str, imported: Imported) -> Iterator[tuple[int, str]]:
    head = imported.name.split(".")[0]
    if head in NOWHERE:
        yield imported.line, f"{head} is used nowhere"
    if head == "builtins":
        yield imported.line, "builtins are used by their names, never through the module"
    if head == "rich" and room not in RICH_ROOMS:
        yield imported.line, f"only {', '.join(sorted(RICH_ROOMS))} draw with rich"
    if head in IMPURE and room in PURE:
        yield imported.line, f"{room} is pure and may not import {head}"


def _names(tree: ast.Module) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and node.id in NO_CALLS:
            yield node.lineno, f"{node.id} is used nowhere"


def _impure_calls(tree: ast.Module) -> Iterator[tuple[int, str]]:
    dates = _date_names(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and node.id == "open":
            yield node.lineno, "a pure room opens no file"
        elif isinstance(node, ast.Attribute):
            if node.attr in FILE_METHODS:
                yield node.lineno, f"a pure room does no {node.attr}"
            if node.attr in CLOCK and _called(node.value) in dates:
                yield node.lineno, f"a pure room reads no clock ({node.attr}): pass the time in"


def _date_names(tree: ast.Module) -> frozenset[str]:
    """What datetime and date are called in this file."""
    names = {"datetime", "date"}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module == "datetime":
            names |= {alias.asname or alias.name for alias in node.names}
    return frozenset(names)


def _called(node: ast.expr) -> str:
    if isinstance(node, ast.Name):
        return node.id
    return node.attr if isinstance(node, ast.Attribute) else ""
