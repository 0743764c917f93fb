"""The pairs of texts that `say_count` chooses from: one form for one thing, another for many.

They are literals, a constant pair, or a name bound to such constants in the function around; of a
parameter, what the callers give.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.words.program import Found, Module, called, constant, is_string

MANY = "say_count"
_Function = ast.FunctionDef


class NotFoundError(Exception):
    """The texts of a `say_count` cannot be seen from the source."""


def counted_in(module: Module, known: dict[str, Module]) -> Iterator[Found]:
    """Every pair that the module counts with. Raises NotFoundError for one that cannot be seen."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call) and called(node) == MANY:
            pairs = list(_pairs(module, node, known))
            if not pairs:
                raise NotFoundError(f"{module.file}:{node.lineno}: name a constant pair")
            yield from pairs


def _pairs(module: Module, node: ast.Call, known: dict[str, Module]) -> Iterator[Found]:
    given = node.args[:2]
    if len(given) == 2:
        held = [constant(module, each, known) or each for each in given]
        if is_string(held[0]) and is_string(held[1]):
            yield Found(module.file, node.lineno, held[0].value, held[1].value)
            return
    given = [each.value if isinstance(each, ast.Starred) else each for each in given]
    names = {each.id for each in given if isinstance(each, ast.Name)}
    function = _around(module, node)
    if function is None or not names:
        yield from _of(module, given[0], known)
        return
    for source, owner in (
        *((each, module) for each in (*given, *_bound(names, function))),
        *_from_callers(names, function, known),
    ):
        yield from _of(owner, source, known)


def _of(module: Module, source: ast.expr, known: dict[str, Module]) -> Iterator[Found]:
    """Each pair of texts in the expression, or in a constant that it names."""
    for part in ast.walk(source):
        value = constant(module, part, known) if isinstance(part, ast.expr) else None
        for each in (part,) if value is None else ast.walk(value):
            if isinstance(each, ast.Tuple) and len(each.elts) >= 2:
                one, many = each.elts[:2]
                if is_string(one) and is_string(many):
                    yield Found(_file(module, part, known), one.lineno, one.value, many.value)


def _file(module: Module, part: ast.AST, known: dict[str, Module]) -> Path:
    """The file in which what a name stands for is written."""
    if isinstance(part, ast.Name) and part.id not in module.constants:
        owner = module.imported.get(part.id, "").rpartition(".")[0]
    elif isinstance(part, ast.Attribute) and isinstance(part.value, ast.Name):
        owner = module.imported.get(part.value.id, "")
    else:
        owner = ""
    return known[owner].file if owner in known else module.file


def _around(module: Module, node: ast.Call) -> _Function | None:
    """The innermost function around a call."""
    around = [
        each
        for each in ast.walk(module.tree)
        if isinstance(each, _Function) and each.lineno <= node.lineno <= (each.end_lineno or 0)
    ]
    return max(around, key=lambda each: each.lineno, default=None)


def _bound(names: set[str], function: _Function) -> Iterator[ast.expr]:
    """What the names are bound to in a function: assigned, or as a loop goes."""
    for node in ast.walk(function):
        if isinstance(node, ast.Assign):
            targets, value = node.targets, node.value
        elif isinstance(node, (ast.For, ast.comprehension)):
            targets, value = [node.target], node.iter
        else:
            continue
        bound = {n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name)}
        if names <= bound:
            yield value
            more = {n.id for n in ast.walk(value) if isinstance(n, ast.Name)} - names
            if more:
                yield from _bound(more, function)


def _from_callers(
    names: set[str], function: _Function, known: dict[str, Module]
) -> Iterator[tuple[ast.expr, Module]]:
    """What is given for the function's parameters wherever it is called."""
    bound = (part for each in _bound(names, function) for part in ast.walk(each))
    names = names | {part.id for part in bound if isinstance(part, ast.Name)}
    wanted = [i for i, each in enumerate(function.args.args) if each.arg in names]
    for module in known.values() if wanted else ():
        for node in ast.walk(module.tree):
            if isinstance(node, ast.Call) and called(node) == function.name:
                yield from ((node.args[i], module) for i in wanted if i < len(node.args))
