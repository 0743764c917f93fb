"""Our data classes beside those of Python's standard library, defined alike.

The oracle is `dataclasses` itself: of the same definition both must say the same.
"""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from sootsayer import data_classes
from sootsayer.casework.model import Source
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem

# A type checker takes both for the same; here they are two.
MAKERS: list[Any] = [(data_classes.dataclass, data_classes.field)]
MAKERS += [(dataclasses.dataclass, dataclasses.field)]


def both(define: Callable[[Any, Any], Any]) -> tuple[Any, Any]:
    """The class as ours and as that of the standard library."""
    ours, theirs = (define(dataclass, field) for dataclass, field in MAKERS)
    return ours, theirs


def reading(dataclass: Any, field: Any) -> Any:
    @dataclass(frozen=True, slots=True, order=True)
    class Reading:
        slot: str
        value: float
        unit: str = "mbar"
        typed: str = field(default="", compare=False)
        notes: tuple[str, ...] = field(default_factory=tuple, repr=False)

    return Reading


def loose(dataclass: Any, field: Any) -> Any:
    @dataclass(slots=True)
    class Loose:
        found: list[int] = field(default_factory=list)
        seen: int = 0

    return Loose


def one(dataclass: Any, _: Any) -> Any:
    @dataclass(frozen=True, slots=True)
    class One:
        value: float

        def __post_init__(self) -> None:
            if self.value < 0:
                raise ValueError("below 0")

    return One


def few(dataclass: Any, _: Any) -> Any:
    @dataclass(frozen=True, slots=True)
    class Few:
        slot: str
        value: float
        typed: str = "0"
        unit: str = "mbar"
        entry: int = 7

    return Few


def derived(dataclass: Any, field: Any) -> Any:
    base = reading(dataclass, field)

    @dataclass(frozen=True, slots=True)
    class Derived(base):  # type: ignore[valid-type, misc]
        fault: bool = False

    return Derived


CALLS: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    (("dp", 1.0), {}),
    (("dp", 1.0, "hPa", "1", ("a",)), {}),
    (("dp",), {"value": 2.0}),
    ((), {"slot": "dp", "value": 1.0, "typed": "1,0"}),
    (("dp", 1.0), {"notes": ("b",)}),
    (("dp", float("nan")), {}),
]
FEW_CALLS: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    (("dp", 1.0), {}),
    (("dp", 1.0, "1"), {}),
    (("dp",), {"value": 1.0, "entry": 3}),
    ((), {"unit": "hPa", "slot": "dp", "value": 1.0}),
    (("dp", 1.0, "1", "hPa", 4), {}),
]
WRONG_CALLS: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    ((), {}),
    (("dp",), {}),
    (("dp", 1.0, "", "", (), 0, 0), {}),
    (("dp", 1.0), {"slot": "dp"}),
    (("dp", 1.0), {"colour": "red"}),
    ((), {"value": 1.0}),
]


@pytest.mark.parametrize(
    ("define", "given", "named"),
    [(define, *call) for define in (reading, derived) for call in CALLS]
    + [(few, *call) for call in FEW_CALLS],
)
def test_it_holds_and_shows_the_same(
    define: Any, given: tuple[Any, ...], named: dict[str, Any]
) -> None:
    """Made in every way that a call can be written: the same values, repr and hash."""
    ours, theirs = (kind(*given, **named) for kind in both(define))
    assert repr(ours) == repr(theirs)
    assert str(dataclasses.asdict(ours)) == str(dataclasses.asdict(theirs))
    if ours.value == ours.value:
        assert hash(ours) == hash(theirs)


@pytest.mark.parametrize("define", [reading, derived, few])
@pytest.mark.parametrize(("given", "named"), WRONG_CALLS)
def test_a_wrong_call_is_refused(
    define: Any, given: tuple[Any, ...], named: dict[str, Any]
) -> None:
    """A TypeError from both, as of any function."""
    for kind in both(define):
        with pytest.raises(TypeError):
            kind(*given, **named)


def test_equal_and_ordered_alike() -> None:
    """Every pair compares as with the standard library, with another class and a tuple too."""
    ours, theirs = both(reading)
    values = [("a", 1.0), ("a", 2.0), ("b", 1.0), ("a", 1.0, "hPa"), ("a", 1.0, "mbar", "typed")]
    for left in values:
        for right in values:
            mine = [kind(*left) for kind in (ours, theirs)]
            other = [kind(*right) for kind in (ours, theirs)]
            for compare in ("__eq__", "__ne__", "__lt__", "__le__", "__gt__", "__ge__"):
                got = [getattr(a, compare)(b) for a, b in zip(mine, other, strict=True)]
                if NotImplemented in got:  # ours leaves greater to Python, which turns it round
                    got = [a > b if "g" in compare[:4] and compare == "__gt__" else a >= b
                           for a, b in zip(mine, other, strict=True)]  # fmt: skip
                assert got[0] is got[1], (left, compare, right)
    assert ours("a", 1.0) != theirs("a", 1.0)
    assert ours("a", 1.0) != ("a", 1.0, "mbar", "", ())
    assert both(derived)[0]("a", 1.0) != ours("a", 1.0)
    with pytest.raises(TypeError):
        _ = ours("a", 1.0) < ("a", 1.0)


def test_frozen_is_frozen() -> None:
    """Neither changed nor deleted, with the error of the standard library."""
    for kind in both(reading):
        thing = kind("dp", 1.0)
        with pytest.raises(dataclasses.FrozenInstanceError):
            thing.value = 2.0
        with pytest.raises(dataclasses.FrozenInstanceError):
            del thing.value
        assert thing.value == 1.0


def test_not_frozen_can_be_changed_and_not_be_hashed() -> None:
    """Each has a list of its own, and no attribute beside its fields."""
    for kind in both(loose):
        first, second = kind(), kind()
        first.found.append(1)
        first.seen = 2
        assert (second.found, second.seen) == ([], 0)
        assert first == kind([1], 2)
        with pytest.raises(TypeError):
            hash(first)
        with pytest.raises(AttributeError):
            first.colour = "red"


def test_what_follows_the_making_is_called() -> None:
    """`__post_init__` sees the fields and may refuse."""
    for kind in both(one):
        assert kind(1.0).value == kind(value=1.0).value == 1.0
        with pytest.raises(ValueError, match="below 0"):
            kind(-1.0)


@pytest.mark.parametrize("define", [reading, derived, few, loose, one])
def test_the_standard_library_knows_its_fields(define: Any) -> None:
    """`fields`, `is_dataclass`, `__match_args__`, slots: as if it had made them itself."""
    ours, theirs = both(define)
    assert [dataclasses.is_dataclass(kind) for kind in (ours, theirs)] == [True, True]
    told = ("name", "type", "default", "default_factory", "repr", "compare", "init", "hash")
    for mine, other in zip(dataclasses.fields(ours), dataclasses.fields(theirs), strict=True):
        assert all(getattr(mine, word) == getattr(other, word) for word in told), mine.name
    assert ours.__match_args__ == theirs.__match_args__
    assert ours.__slots__ == theirs.__slots__
    assert (ours.__name__, ours.__qualname__) == (theirs.__name__, theirs.__qualname__)
    assert "__dict__" not in dir(ours)


def test_replaced_and_copied() -> None:
    """By the standard library's `replace`, `copy` and `deepcopy`."""
    for kind in both(reading):
        thing = kind("dp", 1.0, typed="1")
        assert dataclasses.replace(thing, value=2.0) == kind("dp", 2.0)
        assert dataclasses.replace(thing, value=2.0).typed == "1"
        assert copy.copy(thing) == thing == copy.deepcopy(thing)
        assert copy.copy(thing).typed == "1"


def test_sent_to_another_process() -> None:
    """As processes send things to each other; one of the program's own classes, with an enum."""
    problem = Problem(Place("a.yaml", 3, 1), "what", "instead", first=True)
    for thing in (problem, Place("a.yaml", 1, 2), (problem, Source.SCAN)):
        assert pickle.loads(pickle.dumps(thing)) == thing


def test_one_default_for_all_is_refused() -> None:
    """A list as a default would be shared; both say so when the class is defined."""
    for dataclass, _ in MAKERS:
        with pytest.raises((TypeError, ValueError)):

            @dataclass(slots=True)
            class Shared:
                found: list[int] = []  # noqa: RUF012


def test_without_slots_is_refused() -> None:
    """There is one kind only."""
    with pytest.raises(TypeError, match="slots"):
        data_classes.dataclass(slots=False)
