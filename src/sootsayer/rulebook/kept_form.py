"""Frozen dataclasses as plain JSON data and back, by the type hints of their fields.

A dataclass is the list of its fields' values in order, without those at the end that are at their
defaults. Where a hint leaves open which class it is, its name stands before them. An enum is its
value, a tuple a list. Numbers stay whole or broken as they are. `POOLED` things, of which there
are many alike, stand once in a pool and are named by their number there; a place names its file by
its number among the files, so that what was kept is right wherever they lie.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import EnumMeta
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from sootsayer.documents.nodes import Place
from sootsayer.rulebook.model import Basis

Read = Callable[[Any], Any]
Write = Callable[[Any], Any]

T = TypeVar("T")
POOLED: tuple[type, ...] = (Basis,)
_AS_THEY_ARE = (str, int, float, bool, NoneType)


def written(thing: object, files: Sequence[str]) -> dict[str, Any]:
    """A dataclass as plain data; `files` are those that its places may name.

    Raises TypeError where a value does not fit its hint, KeyError for a place in another file.
    """
    return _Writer(files).whole(thing)


def read(cls: type[T], data: dict[str, Any], files: Sequence[str]) -> T:
    """The dataclass again, its places in `files` as these are called now.

    Raises TypeError, ValueError, KeyError, IndexError or AttributeError for what none of ours has
    written.
    """
    found: T = _Reader(data["pool"], files).of(cls)(data["thing"])
    return found


@cache
def hints_of(cls: Any) -> tuple[tuple[Field[Any], Any], ...]:
    """The fields of a dataclass in order, each with its type."""
    hints = get_type_hints(cls)
    return tuple((each, hints[each.name]) for each in fields(cls))


def _branches(hint: Any) -> tuple[Any, ...]:
    """The types of a union, each once, inner unions laid open; of another hint, itself."""
    if get_origin(hint) not in (Union, UnionType):
        return (hint,)
    return tuple(dict.fromkeys(leaf for part in get_args(hint) for leaf in _branches(part)))


def _telling(branches: tuple[Any, ...]) -> tuple[bool, dict[str, Any]]:
    """Of a union: whether it is one thing or None, and its classes by name."""
    named = {each.__name__: each for each in branches if each not in _AS_THEY_ARE}
    one = len(named) == 1 and len(branches) == 1 + (NoneType in branches)
    return one, named


def _plain_of(branches: tuple[Any, ...]) -> tuple[type, ...]:
    """Those of the types that JSON has itself; a whole number stands for a broken one too."""
    plain = tuple(each for each in branches if each in _AS_THEY_ARE)
    return (*plain, int) if float in plain else plain


class _Writer:
    def __init__(self, files: Sequence[str]) -> None:
        self._files = {file: number for number, file in enumerate(files)}
        self._pool: list[Any] = []
        self._numbers: dict[Any, int] = {}

    def whole(self, thing: object) -> dict[str, Any]:
        return {"thing": self._write(thing, type(thing)), "pool": self._pool}

    def _write(self, value: Any, hint: Any) -> Any:
        branches = _branches(hint)
        one, named = _telling(branches)
        if value is None or isinstance(value, str | int | float):
            if not isinstance(value, _plain_of(branches)):
                raise TypeError(f"{value!r} is no {hint}")
            return value
        if one:
            (only,) = (each for each in branches if each is not NoneType)
            return self._one(value, only)
        name = type(value).__name__
        return [name, self._one(value, named[name])]

    def _one(self, value: Any, hint: Any) -> Any:
        origin, inner = get_origin(hint), get_args(hint)
        if not isinstance(value, origin or hint):
            raise TypeError(f"{value!r} is no {hint}")
        if origin is dict:
            return {_text(key): self._write(each, inner[1]) for key, each in value.items()}
        if origin is tuple:
            kinds = inner[:1] * len(value) if inner[1:] == (...,) else inner
            return [self._write(each, kind) for each, kind in zip(value, kinds, strict=True)]
        if isinstance(hint, EnumMeta):
            return value.value
        if hint is Place:
            return [self._files[value.file], value.line, value.column]
        return self._pooled(value) if hint in POOLED else self._row(value)

    def _pooled(self, value: Any) -> int:
        if value not in self._numbers:
            self._numbers[value] = len(self._pool)
            self._pool.append(self._row(value))
        return self._numbers[value]

    def _row(self, value: Any) -> list[Any]:
        if not is_dataclass(value):
            raise TypeError(f"{type(value)} is not known here")
        kind: Any = type(value)
        found = [(each, getattr(value, each.name), hint) for each, hint in hints_of(kind)]
        while found and _is_default(found[-1][0], found[-1][1]):
            found.pop()
        return [self._write(own, hint) for _, own, hint in found]


def _text(key: Any) -> str:
    if not isinstance(key, str):
        raise TypeError(f"{key!r} is no text")
    return key


def _is_default(each: Field[Any], value: object) -> bool:
    if each.default_factory is not MISSING:
        return bool(value == each.default_factory())
    return (
        each.default is not MISSING
        and type(value) is type(each.default)
        and (value == each.default)
    )


def _as_it_is(value: Any) -> Any:
    return value


class _Reader:
    def __init__(self, pool: list[Any], files: Sequence[str]) -> None:
        self._raw = pool
        self._files = files
        self._known: dict[Any, Read] = {}

    def of(self, hint: Any) -> Read:
        """What reads values of a hint, made once for each."""
        found = self._known.get(hint)
        if found is None:
            found = self._known[hint] = self._made(hint)
        return found

    def _made(self, hint: Any) -> Read:
        branches = _branches(hint)
        one, named = _telling(branches)
        if not named:
            return _as_it_is
        if not one:
            return self._one_of(named)
        (only,) = (each for each in branches if each is not NoneType)
        inner = self._one(only)
        if NoneType not in branches:
            return inner
        return lambda value: None if value is None else inner(value)

    def _one_of(self, named: dict[str, Any]) -> Read:
        readers: dict[str, Read] = {}

        def one_of(value: Any) -> Any:
            if not isinstance(value, list):
                return value
            name, body = value
            if name not in readers:
                readers[name] = self.of(named[name])
            return readers[name](body)

        return one_of

    def _one(self, hint: Any) -> Read:
        origin, inner = get_origin(hint), get_args(hint)
        if origin is dict:
            return self._dict(self.of(inner[1]))
        if origin is tuple:
            return self._tuple(inner)
        if isinstance(hint, EnumMeta):
            return {each.value: each for each in hint}.__getitem__  # type: ignore[var-annotated]
        if hint is Place:
            files = self._files
            return lambda value: Place(files[value[0]], value[1], value[2])
        if hint in POOLED:
            return [self._row(hint)(row) for row in self._raw].__getitem__
        return self._row(hint)

    @staticmethod
    def _dict(part: Read) -> Read:
        if part is _as_it_is:
            return _as_it_is
        return lambda value: {key: part(each) for key, each in value.items()}

    def _tuple(self, inner: tuple[Any, ...]) -> Read:
        if inner[1:] == (...,):
            part = self.of(inner[0])
            return tuple if part is _as_it_is else lambda value: tuple([part(x) for x in value])
        parts = [self.of(each) for each in inner]
        return lambda value: tuple([part(x) for part, x in zip(parts, value, strict=True)])

    def _row(self, cls: type[Any]) -> Read:
        if not is_dataclass(cls):
            raise TypeError(f"{cls} is not known here")
        parts: list[Read | None] = []

        def row(value: Any) -> Any:
            if not parts:  # late, since a class may hold its own kind
                readers = (self.of(hint) for _, hint in hints_of(cls))
                parts.extend(None if each is _as_it_is else each for each in readers)
            return cls(
                *[x if part is None else part(x) for part, x in zip(parts, value, strict=False)]
            )

        return row
