"""What was worked out from a frozen thing alone, kept with it for the next who asks.

The thing cannot change, so neither can what follows from it: who asks again gets what he would
have got. It is no part of the thing: not compared, shown, written or copied with it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar, cast

T = TypeVar("T")


class Remembering:
    """A base of frozen dataclasses with slots that have room for what follows from them."""

    __slots__ = ("_memory",)

    _memory: dict[object, object]


def remembered(of: Remembering, key: object, make: Callable[[], T]) -> T:
    """What `make` gives, made once for each `key`; it may depend on `of` and `key` alone."""
    try:
        memory = of._memory
    except AttributeError:
        memory = {}
        object.__setattr__(of, "_memory", memory)
    if key not in memory:
        memory[key] = make()
    return cast("T", memory[key])
