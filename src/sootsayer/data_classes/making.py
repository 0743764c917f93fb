"""`__init__` of a class whose fields are known only when it is defined.

Of a class with few fields it is one of the functions below, with the names of the fields in the
place of its own. That is as fast as if it had been written by hand, half the time of a frozen
dataclass of the standard library, and Python itself says what is wrong with a call. Of a class
with many fields, or with defaults that are made for each thing, it goes from field to field.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from types import FunctionType
from typing import Any, NamedTuple

MISSING: Any = object()

Put = Callable[[Any, Any], None]
Init = Callable[..., None]


class InitField(NamedTuple):
    """A field: what puts a value into it, its default, and what makes one; else MISSING."""

    name: str
    put: Put
    default: Any
    factory: Any


def init_of(of: str, fields: Sequence[InitField]) -> Init:
    """`__init__` of a class; `of` names it where a call is wrong."""
    made = any(each.factory is not MISSING for each in fields)
    if made or not 0 < len(fields) <= len(_WRITTEN):
        return _any_init(of, fields)
    init: Any = _WRITTEN[len(fields) - 1](*(each.put for each in fields))
    names = tuple(each.name for each in fields)
    code = init.__code__.replace(co_varnames=("self", *names), co_qualname=f"{of}.__init__")
    defaults = _at_the_end(of, fields)
    return FunctionType(code, init.__globals__, "__init__", defaults, init.__closure__)


def _at_the_end(of: str, fields: Sequence[InitField]) -> tuple[Any, ...]:
    """The defaults. Raises TypeError for a field without one behind one that has one."""
    defaults = [each.default for each in fields if each.default is not MISSING]
    if any(each.default is MISSING for each in fields[len(fields) - len(defaults) :]):
        raise TypeError(f"{of}: a field without a default stands behind one with it")
    return tuple(defaults)


def _any_init(of: str, fields: Sequence[InitField]) -> Init:
    rest, puts = tuple(fields), tuple(each.put for each in fields)
    count = len(rest)

    def init(self: Any, /, *values: Any, **named: Any) -> None:
        if len(values) != count or named:
            values += _not_in_order(of, rest[len(values) :], named)
            if len(values) != count or named:
                raise TypeError(_what_is_wrong(of, rest, len(values), named))
        for put, value in zip(puts, values):  # noqa: B905 (as long as each other, and in haste)
            put(self, value)

    return init


def _not_in_order(of: str, rest: tuple[InitField, ...], named: dict[str, Any]) -> tuple[Any, ...]:
    """The values of the rest of the fields, taken out of `named`; defaults where none is given."""
    found = []
    for name, _, default, factory in rest:
        value = named.pop(name, default)
        if value is MISSING:
            if factory is MISSING:
                raise TypeError(f"{of}() lacks a value for {name}")
            value = factory()
        found.append(value)
    return tuple(found)


def _what_is_wrong(
    of: str, fields: tuple[InitField, ...], given: int, named: dict[str, Any]
) -> str:
    if given > len(fields):
        return f"{of}() takes {len(fields)} values, but {given} were given"
    name = next(iter(named))
    twice = any(each.name == name for each in fields)
    return f"{of}(): {name} is {'given twice' if twice else 'no field of it'}"


def _one(p1: Put) -> Init:
    def init(self: Any, v1: Any) -> None:
        p1(self, v1)

    return init


def _two(p1: Put, p2: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any) -> None:
        p1(self, v1)
        p2(self, v2)

    return init


def _three(p1: Put, p2: Put, p3: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any, v3: Any) -> None:
        p1(self, v1)
        p2(self, v2)
        p3(self, v3)

    return init


def _four(p1: Put, p2: Put, p3: Put, p4: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any, v3: Any, v4: Any) -> None:
        p1(self, v1)
        p2(self, v2)
        p3(self, v3)
        p4(self, v4)

    return init


def _five(p1: Put, p2: Put, p3: Put, p4: Put, p5: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any, v3: Any, v4: Any, v5: Any) -> None:
        p1(self, v1)
        p2(self, v2)
        p3(self, v3)
        p4(self, v4)
        p5(self, v5)

    return init


def _six(p1: Put, p2: Put, p3: Put, p4: Put, p5: Put, p6: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any, v3: Any, v4: Any, v5: Any, v6: Any) -> None:
        p1(self, v1)
        p2(self, v2)
        p3(self, v3)
        p4(self, v4)
        p5(self, v5)
        p6(self, v6)

    return init


def _seven(p1: Put, p2: Put, p3: Put, p4: Put, p5: Put, p6: Put, p7: Put) -> Init:
    def init(self: Any, v1: Any, v2: Any, v3: Any, v4: Any, v5: Any, v6: Any, v7: Any) -> None:
        p1(self, v1)
        p2(self, v2)
        p3(self, v3)
        p4(self, v4)
        p5(self, v5)
        p6(self, v6)
        p7(self, v7)

    return init


_WRITTEN: tuple[Callable[..., Init], ...] = (
    _one, _two, _three, _four, _five, _six, _seven,
)  # fmt: skip
