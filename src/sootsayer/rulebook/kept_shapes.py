"""Frozen dataclasses taken apart into tables, by the type hints of their fields.

The shape of a column says what stands in it:

- `""`: what JSON has itself; whole and broken numbers stay what they are
- `"*"`: a thing, or none
- `"file"`: a file
- `["tuple", shape]`, `["dict", shape]`: any number of what is shaped so
- `["parts", [shape, ...]]`: a tuple, each part with its own shape
- `["enum", name]`: the value of an enum
- `["none or", shape]`; `["plain or", shape]`: the latter stands in a list of one
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from enum import EnumMeta
from functools import cache
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from sootsayer.documents.nodes import Place

_AS_THEY_ARE = (str, int, float, bool, NoneType)


class _Node:
    """A thing on its way into a table: the values of its fields, in which nodes stand for things.
    `depth`: 1 for what holds no other."""

    __slots__ = ("cls", "depth", "number", "values")

    def __init__(self, cls: Any) -> None:
        self.cls = cls
        self.depth = 1
        self.number = 0
        self.values: list[Any] = []


class Gatherer:
    """All things that one thing is made of."""

    def __init__(self, files: Sequence[str], pooled: tuple[type, ...]) -> None:
        self._files = {file: number for number, file in enumerate(files)}
        self._pooled = pooled
        self._alike: dict[Any, _Node] = {}
        self._nodes: list[_Node] = []

    def add(self, thing: Any) -> _Node:
        """The node of a thing. Raises TypeError where a value does not fit its hint, KeyError for a
        file that is not known."""
        cls: Any = type(thing)
        if cls in self._pooled and thing in self._alike:
            return self._alike[thing]
        node = _Node(cls)
        for name, hint in hints_of(cls):
            shape, value = shape_of(hint), getattr(thing, name)
            node.values.append(self._value(shape, value, hint, node))
        self._nodes.append(node)
        if cls in self._pooled:
            self._alike[thing] = node
        return node

    def tables(self) -> Iterator[tuple[str, int, dict[str, tuple[Any, list[Any]]]]]:
        """Of each table the class, how many things, and by field the shape and the column."""
        tables: dict[tuple[int, str], list[_Node]] = {}
        for node in self._nodes:
            tables.setdefault((node.depth, node.cls.__name__), []).append(node)
        number = 0
        for key in sorted(tables):
            for node in tables[key]:
                number += 1
                node.number = number
        for key in sorted(tables):
            nodes = tables[key]
            columns = zip(*(node.values for node in nodes), strict=True)
            pairs = zip(hints_of(nodes[0].cls), columns, strict=True)
            told = {name: (shape_of(hint), list(map(_numbered, c))) for (name, hint), c in pairs}
            yield key[1], len(nodes), told

    def _value(self, shape: Any, value: Any, hint: Any, node: _Node) -> Any:
        if shape == "":
            return _checked(value, _plain_of(_branches(hint)))
        if shape == "file":
            return self._files[value]
        if shape == "*":
            if value is None and NoneType in _branches(hint):
                return 0
            inner = self.add(_checked(value, _branches(hint)))
            node.depth = max(node.depth, inner.depth + 1)
            return inner
        what, inner = shape
        if what == "none or":
            (only,) = (each for each in _branches(hint) if each is not NoneType)
            return None if value is None else self._value(inner, value, only, node)
        if what == "plain or":
            (only,) = (each for each in _branches(hint) if each not in _AS_THEY_ARE)
            if isinstance(value, only):
                return [self._value(inner, value, only, node)]
            return _checked(value, _plain_of(_branches(hint)))
        if what == "enum":
            return _checked(value, (hint,)).value
        return self._collected(what, inner, value, hint, node)

    def _collected(self, what: str, inner: Any, value: Any, hint: Any, node: _Node) -> Any:
        args = get_args(hint)
        if what == "dict":
            _checked(value, (dict,))
            return {
                _checked(key, (str,)): self._value(inner, each, args[1], node)
                for key, each in value.items()
            }
        _checked(value, (tuple,))
        if what == "tuple":
            return [self._value(inner, each, args[0], node) for each in value]
        parts = zip(inner, value, args, strict=True)
        return [self._value(shape, each, arg, node) for shape, each, arg in parts]


def _numbered(value: Any) -> Any:
    """The value with numbers for nodes."""
    if isinstance(value, _Node):
        return value.number
    if isinstance(value, list):
        return [_numbered(each) for each in value]
    if isinstance(value, dict):
        return {key: _numbered(each) for key, each in value.items()}
    return value


def _checked(value: Any, kinds: tuple[Any, ...]) -> Any:
    if not isinstance(value, kinds):
        raise TypeError(f"{value!r} is none of {kinds}")
    return value


@cache
def hints_of(cls: Any) -> tuple[tuple[str, Any], ...]:
    """The fields of a dataclass in order, each with its type. Raises TypeError for another class,
    and for one that does something when it is made."""
    if not is_dataclass(cls) or hasattr(cls, "__post_init__"):
        raise TypeError(f"{cls} is not known here")
    hints = get_type_hints(cls)
    return tuple((each.name, _FILE if cls is Place and each.name == "file" else hints[each.name])
                 for each in fields(cls))  # fmt: skip


_FILE = object()


@cache
def shape_of(hint: Any) -> Any:
    """The shape of what a hint allows. Raises TypeError where there is none."""
    if hint is _FILE:
        return "file"
    branches = _branches(hint)
    others = [each for each in branches if each not in _AS_THEY_ARE]
    if not others:
        return ""
    if all(is_dataclass(each) for each in others):
        if len(others) + (NoneType in branches) != len(branches):
            raise TypeError(f"{hint} has no shape")
        return "*"
    (only,) = others
    shape = _single(only)
    if len(branches) == 1:
        return shape
    return ["none or" if branches in ((only, NoneType), (NoneType, only)) else "plain or", shape]


def _single(hint: Any) -> Any:
    origin, args = get_origin(hint), get_args(hint)
    if isinstance(hint, EnumMeta):
        return ["enum", hint.__name__]
    if origin is dict and args[0] is str:
        return ["dict", shape_of(args[1])]
    if origin is tuple and args[1:] == (...,):
        return ["tuple", shape_of(args[0])]
    if origin is tuple:
        return ["parts", [shape_of(each) for each in args]]
    raise TypeError(f"{hint} has no shape")


@cache
def _branches(hint: Any) -> tuple[Any, ...]:
    """The types of a union, each once, inner unions laid open; of another hint, itself."""
    if get_origin(hint) not in (Union, UnionType):
        return (hint,)
    return tuple(dict.fromkeys(leaf for part in get_args(hint) for leaf in _branches(part)))


@cache
def _plain_of(branches: tuple[Any, ...]) -> tuple[type, ...]:
    """Those of the types that JSON has itself; a whole number stands for a broken one too."""
    plain = tuple(each for each in branches if each in _AS_THEY_ARE)
    return (*plain, int) if float in plain else plain
