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

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

# Of more least sets than these only the first are kept, for the products would grow too large.
MOST = 12

# Nothing need be known: the empty set decides. The same in both forms.
ALWAYS = -1

# Nothing is told of it yet.
NOT_YET = 0


class TooManySetsError(Exception):
    """There are more least sets than are worth telling apart."""


class Several(NamedTuple):
    """The complements of least sets, none of which holds another, the smallest set first.

    `more`: larger ones were left out. The smallest is still the smallest, here and of one thing or
    another, but not of two at once.
    """

    sets: tuple[int, ...]
    more: bool = False

    def __and__(self, other: Sets) -> Sets:
        if self.more or (isinstance(other, Several) and other.more):
            raise TooManySetsError
        return _least({one & each for one in self.sets for each in _sets(other)})

    def __rand__(self, other: int) -> Sets:
        return self & other


Sets = int | Several
Either = Callable[[Sequence[Sets]], Sets]


def _either_least(these: Sequence[Sets]) -> Sets:
    """The sets that decide one thing or another, as least sets."""
    found: set[int] = set()
    more = False
    for each in these:
        if isinstance(each, int):
            found.add(each)
        else:
            found.update(each.sets)
            more = more or each.more
    return _least(found, more)


class Form(NamedTuple):
    """How sets are told: of these slots, with the sets that each alone is in, by its cell.

    `either` joins least sets that decide one thing or another; of tables `|` does, and it is None.
    `names`: sets met before, with the slots of the one that is chosen.
    """

    slots: Sequence[str]
    alone: list[Sets]
    either: Either | None
    first: Callable[[Sets], int]
    names: dict[Sets, tuple[str, ...]]

    def named(self, sets: Sets) -> tuple[str, ...]:
        """The slots, in order, of the smallest of these sets as a number: none smaller decides."""
        if len(self.names) > 4096:
            self.names.clear()
        return self.names.setdefault(sets, tuple(_members(self.first(sets), self.slots)))


def table_form(slots: Sequence[str], cells: Mapping[str, int]) -> Form:
    """Tables over these sorted slots; `cells` says which cell each is."""
    return Form(slots, _by_cell(slots, tables(len(slots)), cells), None, _first_of_table, {})


def least_form(slots: Sequence[str], cells: Mapping[str, int]) -> Form:
    """Least sets over these sorted slots; `cells` says which cell each is."""
    alone = [~(1 << bit) for bit in reversed(range(len(slots)))]
    return Form(slots, _by_cell(slots, alone, cells), _either_least, _first_of_least, {})


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


def _by_cell(slots: Sequence[str], alone: Sequence[Sets], cells: Mapping[str, int]) -> list[Sets]:
    found: list[Sets] = [NOT_YET] * len(cells)
    for name, sets in zip(slots, alone, strict=True):
        found[cells[name]] = sets
    return found


def _first_of_table(table: Sets) -> int:
    assert isinstance(table, int)
    return (table & -table).bit_length() - 1


def _first_of_least(sets: Sets) -> int:
    return ~(sets if isinstance(sets, int) else sets.sets[0])


def _members(chosen: int, slots: Sequence[str]) -> Iterator[str]:
    """The slots in a set, in their order: the first is its highest bit."""
    top = len(slots) - 1
    while chosen:
        bit = chosen.bit_length() - 1
        yield slots[top - bit]
        chosen ^= 1 << bit


def _sets(sets: Sets) -> tuple[int, ...]:
    return (sets,) if isinstance(sets, int) else sets.sets


def _least(found: Iterable[int], more: bool = False) -> Sets:
    """Those of these complements whose sets hold no other."""
    least: list[int] = []
    # The smaller set has the larger complement: what a set can hold comes before it.
    for each in sorted(found, reverse=True):
        if all(each & other != each for other in least):
            if len(least) == MOST:
                more = True
                break
            least.append(each)
    return least[0] if len(least) == 1 and not more else Several(tuple(least), more)
