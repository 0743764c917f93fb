"""Which sets of known inputs decide something: all of them, in a form that is quick to join.

Whatever a set decides, a larger one decides too, so the sets that do are told by the least of
them. Two forms, chosen by how many inputs are known. Both write the earliest input as the highest
bit of a set, and in both `&` gives the sets that decide two things at once.

A *table* is a number with the bit of every set that decides; its lowest bit is the set sought.
It suits a few inputs, read by everything. A *least set* is the complement of the set, where there
is one that is in all others; where there are several, `Several` has them. That suits hundreds of
inputs of which each conclusion reads a few.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from operator import or_

# Of more least sets than these the products grow too large: then the caller must do otherwise.
MOST = 12

# Nothing need be known: the empty set decides. The same in both forms.
ALWAYS = -1


class TooMany(Exception):
    """There are more least sets than are worth telling apart."""


@dataclass(frozen=True, slots=True)
class Several:
    """The complements of least sets, none of which holds another."""

    sets: tuple[int, ...]

    def __and__(self, other: Sets) -> Sets:
        return _least({one & each for one in self.sets for each in _sets(other)})

    __rand__ = __and__


Sets = int | Several
Either = Callable[[Sets, Sets], Sets]


def either(one: Sets, other: Sets) -> Sets:
    """The sets that decide one thing or another, as least sets."""
    return _least({*_sets(one), *_sets(other)})


# The same as tables.
either_table: Either = or_


def tables(count: int) -> list[int]:
    """For each of `count` inputs the table of the sets that it is in, the earliest first."""
    found = []
    for bit in reversed(range(count)):
        width = 1 << bit
        table, size = ((1 << width) - 1) << width, 2 * width
        while size < 1 << count:
            table, size = table | table << size, 2 * size
        found.append(table)
    return found


def first_of_table(table: int) -> int:
    """The set chosen of a table: as a number the smallest, so none smaller decides."""
    return (table & -table).bit_length() - 1


def first_of_least(sets: Sets) -> int:
    """The same of least sets."""
    return ~(sets if isinstance(sets, int) else max(sets.sets))


def _sets(sets: Sets) -> tuple[int, ...]:
    return (sets,) if isinstance(sets, int) else sets.sets


def _least(found: Iterable[int]) -> Sets:
    """Those of these complements whose sets hold no other."""
    least: list[int] = []
    # As numbers larger sets have smaller complements: what a set can hold comes before it.
    for each in sorted(found, reverse=True):
        if all(each & other != each for other in least):
            least.append(each)
    if len(least) > MOST:
        raise TooMany
    return least[0] if len(least) == 1 else Several(tuple(least))
