"""Every template of the program, so that none is shown in one language only.

What a text is, by rule:

- a literal given to `say`, `spoken` or `say_count`, and what a constant given to them, or to a
  function that is called `..._said`, holds, or what the function given to them chooses from;
- what an argument of a command is for and what stands for its value, the title of its actions;
- what the constants of a module hold that says sentences, is a list of such (`*_texts.py`) or is a
  command: in tuples, in the values of tables, in what classes are made with.

No text is a key of a table, an item of a set, what a function makes (a pattern), what has nothing
to translate (no letter or mark beside its slots), and what stands on a line that ends with `# not
said`. Outside of `*_texts.py` one word is an id, unless its constant is given to `say` by name.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from tests.words.counting import counted_in
from tests.words.program import (
    SOURCE,
    Found,
    Module,
    called,
    constant,
    function,
    is_string,
    modules,
)

ONE = frozenset({"say", "spoken"})
NOT_SAID = "# not said"
OF_ARGUMENTS = frozenset({"add_argument", "add_parser", "add_subparsers"})
_SLOT = re.compile(r"\{[a-z_]*\}")
_NOTHING = re.compile(r"[\s\d]*")
_WORDS = re.compile(r"\S*[^\W\d_]\S*\s+\S")


@cache
def texts(source: Path = SOURCE) -> tuple[Found, ...]:
    """Every text of the program, each time that it stands somewhere."""
    known = modules(source)
    said = [each for module in known.values() for each in _said_in(module, known)]
    counted = [each for module in known.values() for each in counted_in(module, known)]
    named = {id(each.value) for each in said if each.constant}
    pairs = {(each.file, text) for each in counted for text in (each.text, each.many)}
    held = [
        each
        for module in known.values()
        if module.has_texts
        for each in _constants(module, named)
        if (each.file, each.text) not in pairs
    ]
    literal = [Found(each.file, each.value.lineno, each.text) for each in said if not each.constant]
    return tuple(literal + counted + held)


@dataclass(frozen=True, slots=True)
class _Given:
    """What is given to `say`: a literal, or a constant by name."""

    file: Path
    value: ast.expr
    constant: bool

    @property
    def text(self) -> str:
        assert isinstance(self.value, ast.Constant)
        return str(self.value.value)


def _said_in(module: Module, known: dict[str, Module]) -> Iterator[_Given]:
    for node in ast.walk(module.tree):
        if not isinstance(node, ast.Call):
            continue
        name = called(node)
        if name in ONE and node.args:
            yield from _given(module, node.args[0], known)
        elif name.endswith("_said"):
            for each in node.args:
                yield from (given for given in _given(module, each, known) if given.constant)
        elif name in OF_ARGUMENTS:
            for keyword in node.keywords:
                if keyword.arg in ("help", "metavar", "title"):
                    yield from _given(module, keyword.value, known)


def _given(module: Module, node: ast.expr, known: dict[str, Module]) -> Iterator[_Given]:
    """Literals of the expression, and the constants named in it."""
    for each in _may_be_said(node):
        if is_string(each) and is_text(each.value, sure=True):
            yield _Given(module.file, each, False)
        value = constant(module, each, known)
        if value is not None:
            yield _Given(module.file, value, True)
        if isinstance(each, ast.Call) and each is node:
            yield from _returned(module, each, known)


def _returned(module: Module, call: ast.Call, known: dict[str, Module]) -> Iterator[_Given]:
    """What a function whose result is given to `say` chooses from."""
    found = function(module, call, known)
    if found is not None:
        where, made = found
        for part in ast.walk(made):
            if isinstance(part, ast.Return) and part.value is not None:
                yield from _given(where, part.value, known)


def _constants(module: Module, named: set[int]) -> Iterator[Found]:
    whole = module.name.endswith("_texts")
    for value in module.constants.values():
        sure = whole or id(value) in named
        for each in _held(value):
            said = NOT_SAID not in module.lines[each.lineno - 1]
            if said and is_text(each.value, sure=sure):
                yield Found(module.file, each.lineno, each.value)


def is_text(text: str, *, sure: bool) -> bool:
    """Whether it is for people; `sure`: one word in lower case too."""
    bare = _SLOT.sub("", text)
    if _NOTHING.fullmatch(bare):
        return False
    return sure or _WORDS.search(text) is not None


def _may_be_said(node: ast.expr) -> Iterator[ast.expr]:
    """The parts of what is given to `say` that may be the text: not what chooses among them."""
    yield node
    if isinstance(node, ast.IfExp):
        yield from _may_be_said(node.body)
        yield from _may_be_said(node.orelse)
    elif isinstance(node, ast.BoolOp):
        for each in node.values:
            yield from _may_be_said(each)
    elif isinstance(node, ast.Subscript):
        yield from _may_be_said(node.value)
    elif isinstance(node, ast.Call):
        yield from _may_be_said(node.func)
        for each in node.args:
            yield from _may_be_said(each)
    elif isinstance(node, ast.GeneratorExp):
        for part in node.generators:
            yield from _may_be_said(part.iter)
    elif isinstance(node, ast.Attribute):
        yield from _may_be_said(node.value)


def _held(node: ast.expr) -> Iterator[Any]:
    """Every literal that a constant holds and that may be a text."""
    if is_string(node):
        yield node
    elif isinstance(node, (ast.Tuple, ast.List)):
        for each in node.elts:
            yield from _held(each)
    elif isinstance(node, ast.Starred):
        yield from _held(node.value)
    elif isinstance(node, ast.Dict):
        for each in node.values:
            yield from _held(each)
    elif isinstance(node, ast.Call) and called(node)[:1].isupper():
        for each in (*node.args, *(keyword.value for keyword in node.keywords)):
            yield from _held(each)
