"""Frozen dataclasses as plain JSON data, in which reading them again takes little time.

All things of one class that rest on nothing later stand in one table, column by column, so that
they are made and filled at once; what is alike in a whole column stands there once. A thing that
another holds is its number among all things, counted through the tables, none being 0. Each column
has its shape beside it (`kept_shapes`), so that nothing need be known of the classes to read them.
`POOLED` things, of which there are many alike, are one thing each. A file is named by its number
among the files, so that what was kept is right wherever they lie.
"""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Mapping, Sequence
from itertools import repeat
from typing import Any, TypeVar

from sootsayer.rulebook.model import Basis

T = TypeVar("T")
POOLED: tuple[type, ...] = (Basis,)
MOST = 1_000_000  # things in one file: a hundred times what the shipped rulebook is made of


def written(thing: object, files: Sequence[str]) -> dict[str, Any]:
    """A dataclass as plain data; `files` are those that its places may name.

    Raises TypeError where a value does not fit its hint, KeyError for a place in another file.
    """
    # Who finds what is kept needs nothing of this.
    from sootsayer.rulebook.kept_shapes import Gatherer

    gatherer = Gatherer(files, POOLED)
    gatherer.add(thing)
    return {"tables": [_table(*each) for each in gatherer.tables()]}


def _table(name: str, count: int, fields: Mapping[str, tuple[Any, list[Any]]]) -> list[Any]:
    columns = [[field, shape, _shortened(column)] for field, (shape, column) in fields.items()]
    return [name, count, columns]


def _shortened(column: list[Any]) -> Any:
    """The one value that stands in the whole column, if it does; of dicts each thing has its own,
    and so has each a list of one."""
    if isinstance(column[0], dict) or len(column) < 2:
        return column
    texts = {json.dumps(value) for value in column}
    return {"all": column[0]} if len(texts) == 1 else column


def read(
    cls: type[T], data: Mapping[str, Any], files: Sequence[str], kinds: Mapping[str, Any]
) -> T:
    """The dataclass again, its places in `files` as these are called now; `kinds`: by their names
    the classes and enums that there may be in it.

    Raises TypeError, ValueError, KeyError, IndexError or AttributeError for what none of ours has
    written.
    """
    reader = _Reader(files, kinds)
    for name, count, columns in data["tables"]:
        reader.add(kinds[name], count, columns)
    found = reader.things[-1]
    if type(found) is not cls:
        raise TypeError(f"{type(found)} is no {cls}")
    return found


class _Reader:
    def __init__(self, files: Sequence[str], kinds: Mapping[str, Any]) -> None:
        self.things: list[Any] = [None]
        self._files = files
        self._kinds = kinds

    def add(self, cls: Any, count: int, columns: Sequence[tuple[str, Any, Any]]) -> None:
        """The things of one table: made empty, then filled field by field."""
        if tuple(name for name, _, _ in columns) != cls.__match_args__:
            raise TypeError(f"{cls} has other fields")
        if not 0 < count <= MOST - len(self.things):
            raise ValueError(f"nobody has {count} of {cls}")
        made = list(map(object.__new__, repeat(cls, count)))
        for name, shape, column in columns:
            if isinstance(column, dict):
                values: Any = repeat(self._values(shape, [column["all"]])[0], count)
            else:
                values = self._values(shape, column)
                if len(values) != count:
                    raise ValueError(f"{name}: {len(values)} of {count}")
            deque(map(getattr(cls, name).__set__, made, values), maxlen=0)
        self.things += made

    def _values(self, shape: Any, column: Sequence[Any]) -> Sequence[Any]:
        """The values of a whole column at once."""
        if shape == "":
            return column
        if shape == "*":
            return list(map(self.things.__getitem__, column))
        if shape == "file":
            return list(map(self._files.__getitem__, column))
        what, inner = shape
        if what == "tuple":
            if inner == "":
                return list(map(tuple, column))
            return [tuple(self._values(inner, row)) for row in column]
        if what == "dict":
            return column if inner == "" else [self._dict(inner, row) for row in column]
        if what == "enum":
            known = {each.value: each for each in self._kinds[inner]}
            return list(map(known.__getitem__, column))
        if what == "plain or" and list not in set(map(type, column)):
            return column
        return [self._one(what, inner, value) for value in column]

    def _dict(self, inner: Any, row: dict[str, Any]) -> dict[str, Any]:
        return dict(zip(row, self._values(inner, list(row.values())), strict=True))

    def _one(self, what: str, inner: Any, value: Any) -> Any:
        if what == "none or":
            return None if value is None else self._values(inner, [value])[0]
        if what == "plain or":
            return self._values(inner, value)[0] if isinstance(value, list) else value
        if what != "parts":
            raise ValueError(f"no shape is called {what}")
        pairs = zip(inner, value, strict=True)
        return tuple([self._values(shape, [part])[0] for shape, part in pairs])
