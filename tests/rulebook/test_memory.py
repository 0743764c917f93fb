"""What follows from a frozen thing is worked out once, and is no part of it."""

from __future__ import annotations

import copy
from dataclasses import dataclass, fields, replace

from sootsayer.rulebook.memory import Remembering, remembered


@dataclass(frozen=True, slots=True)
class Thing(Remembering):
    number: int


def test_what_follows_is_made_once_for_each_key() -> None:
    """The second who asks gets the very thing that the first got."""
    thing, made = Thing(1), list[str]()

    def anew(key: str) -> list[int]:
        made.append(key)
        return [thing.number]

    def make(key: str) -> list[int]:
        return remembered(thing, key, lambda: anew(key))

    assert make("a") is make("a")
    assert make("b") is not make("a")
    assert made == ["a", "b"]


def test_it_is_no_part_of_the_thing() -> None:
    """Not compared, not shown, not a field; a changed copy begins with nothing."""
    thing = Thing(1)
    assert remembered(thing, "x", lambda: 1) == 1
    assert thing == Thing(1)
    assert hash(thing) == hash(Thing(1))
    assert repr(thing) == "Thing(number=1)"
    assert [each.name for each in fields(thing)] == ["number"]
    assert remembered(replace(thing, number=2), "x", lambda: 2) == 2


def test_a_copy_begins_anew() -> None:
    """Copied as a thing is that another process gets: by its fields."""
    thing = Thing(1)
    remembered(thing, "x", lambda: 1)
    sent = copy.copy(thing)
    assert sent == thing
    assert remembered(sent, "x", lambda: 3) == 3
