"""`dataclass` and `field` as those of the standard library, cheaper to define.

The standard library writes six functions for each class as text and has Python compile them: a
third of a millisecond for each class, of which a short command needs a hundred. Here a class is
given functions that are there already and know its fields, in a tenth of that.

Types are checked as with theirs: to a type checker it is theirs. `fields`, `replace`, `asdict` and
`is_dataclass` of the standard library take what is made here. What no class of ours needs is not
there: classes without slots, fields left out of `__init__`, class variables, a docstring made up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

from sootsayer.data_classes.making import MISSING, InitField, init_of

T = TypeVar("T")
Maker = Callable[[type[T]], type[T]]
Key = Callable[[Any], Any]


class _Field:
    """What is said of a field: its default or what makes one, where it counts, and its hint."""

    __slots__ = ("compare", "default", "factory", "hint", "repr")

    def __init__(self, default: Any, factory: Any, shown: bool, compare: bool) -> None:
        self.default, self.factory, self.repr, self.compare = default, factory, shown, compare
        self.hint: Any = Any


def _field(
    *,
    default: Any = MISSING,
    default_factory: Any = MISSING,
    repr: bool = True,  # noqa: A002 (the word of the standard library)
    compare: bool = True,
) -> Any:
    return _Field(default, default_factory, repr, compare)


def _dataclass(*, slots: bool, frozen: bool = False, order: bool = False) -> Maker[T]:
    if not slots:
        raise TypeError("a data class of ours has slots: write slots=True")
    return lambda cls: _made(cls, frozen, order)


if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
    from dataclasses import field as field
else:
    dataclass, field = _dataclass, _field


def _made(cls: Any, frozen: bool, order: bool) -> Any:
    """The class anew, since a class is given its slots when it is made."""
    space = dict(cls.__dict__)
    above: dict[str, _Field] = getattr(cls, "_said_of_fields", {})
    hints: dict[str, Any] = space.get("__annotations__", {})
    own = {name: _said(space.pop(name, MISSING), hint) for name, hint in hints.items()}
    said = above | own
    for name in ("__dict__", "__weakref__"):
        space.pop(name, None)
    space["__slots__"] = tuple(name for name in own if name not in above)
    space["__match_args__"] = tuple(said)
    space["__dataclass_fields__"] = _Fields()
    space["_said_of_fields"] = said
    space.setdefault("__repr__", _repr([name for name, each in said.items() if each.repr]))
    key = _key([name for name, each in said.items() if each.compare])
    _compare(space, key, frozen, order)
    if frozen:
        space["__setattr__"] = space["__delattr__"] = _refuse
    space["__getstate__"], space["__setstate__"] = _get_state, _set_state
    made = type(cls)(cls.__name__, cls.__bases__, space)
    made.__qualname__ = cls.__qualname__
    made.__init__ = _init(made, said)
    return made


def _init(made: Any, said: dict[str, _Field]) -> Any:
    """`__init__`, and after it `__post_init__` where there is one."""
    fields = [
        InitField(name, getattr(made, name).__set__, each.default, each.factory)
        for name, each in said.items()
    ]
    init, then = init_of(made.__qualname__, fields), getattr(made, "__post_init__", None)
    if then is None:
        return init

    def init_then(self: Any, /, *values: Any, **named: Any) -> None:
        init(self, *values, **named)
        then(self)

    return init_then


def _said(default: Any, hint: Any) -> _Field:
    if isinstance(default, (list, dict, set)):
        raise TypeError("one default for all things made: write field(default_factory=...)")
    said = default if isinstance(default, _Field) else _Field(default, MISSING, True, True)
    said.hint = hint
    return said


def _key(names: Iterable[str]) -> Key:
    """What gives the values of some fields, as a tuple."""
    each = tuple(names)
    if len(each) > 1:
        return attrgetter(*each)
    return lambda self: tuple([getattr(self, name) for name in each])


def _compare(space: dict[str, Any], key: Key, frozen: bool, order: bool) -> None:
    """Equal, hashed and ordered by the values of the fields, among things of one class."""

    def equal(self: Any, other: Any) -> Any:
        return key(self) == key(other) if other.__class__ is self.__class__ else NotImplemented

    def less(self: Any, other: Any) -> Any:
        return key(self) < key(other) if other.__class__ is self.__class__ else NotImplemented

    def less_or_equal(self: Any, other: Any) -> Any:
        return key(self) <= key(other) if other.__class__ is self.__class__ else NotImplemented

    space.setdefault("__eq__", equal)
    if space.get("__hash__") is None:  # None is what Python writes beside an __eq__
        space["__hash__"] = (lambda self: hash(key(self))) if frozen else None
    if order:  # greater is less the other way round, which Python tries by itself
        space["__lt__"], space["__le__"] = less, less_or_equal


def _repr(names: list[str]) -> Callable[[Any], str]:
    def shown(self: Any) -> str:
        inside = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({inside})"

    return shown


def _refuse(self: object, name: str, _: object = None) -> NoReturn:
    from dataclasses import FrozenInstanceError

    raise FrozenInstanceError(f"cannot change {name} of {type(self).__name__}: it is frozen")


def _get_state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self._said_of_fields]


def _set_state(self: Any, values: Iterable[Any]) -> None:
    for name, value in zip(self._said_of_fields, values, strict=True):
        object.__setattr__(self, name, value)


class _Fields:
    """`__dataclass_fields__`, by which the standard library knows a data class: made when it is
    first asked for, since most are never."""

    __slots__ = ("_made",)

    def __get__(self, thing: object, of: Any) -> dict[str, Any]:
        try:
            return self._made
        except AttributeError:
            self._made: dict[str, Any] = _standard_fields(of)
            return self._made


def _standard_fields(of: Any) -> dict[str, Any]:
    """The fields as a class of the standard library's making, made for that, has them."""
    import dataclasses

    listed = []
    for name, said in of._said_of_fields.items():
        given = {"default": said.default, "default_factory": said.factory}
        given = {word: value for word, value in given.items() if value is not MISSING}
        listed.append(
            (name, said.hint, dataclasses.field(repr=said.repr, compare=said.compare, **given))
        )
    standard = dataclasses.make_dataclass("Of", listed, init=False, repr=False, eq=False)
    return {each.name: each for each in dataclasses.fields(standard)}
