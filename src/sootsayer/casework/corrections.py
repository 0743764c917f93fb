"""What entries say once corrections are applied.

A correction takes the place of what it corrects: its round, source, time and rank are those
of the entry corrected, so correcting a slip never makes a reading fresh. Of several
corrections of one entry the later wins, one fact at a time. A correction of a correction
corrects the same first entry.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sootsayer.casework.model import Absence, Case, CodeList, Entry, Outcome, Said


@dataclass(frozen=True, slots=True)
class Statement:
    """One fact in force: `root` is the entry first made, `entry` the one that says it now."""

    root: Entry
    entry: Entry
    said: Said


@dataclass(frozen=True, slots=True)
class CodesRead:
    """A code list in force, with the entry first made and the one that says it now."""

    root: Entry
    entry: Entry
    codes: CodeList


def entries_until(case: Case, as_of: int | None) -> tuple[Entry, ...]:
    """The entries numbered up to `as_of`; all of them when it is None."""
    if as_of is None:
        return case.entries
    return tuple(entry for entry in case.entries if entry.number <= as_of)


def roots_of(entries: Iterable[Entry]) -> dict[int, Entry]:
    """Each entry's number to the entry first made that it goes back to, itself or corrected."""
    roots: dict[int, Entry] = {}
    for entry in entries:
        roots[entry.number] = entry if entry.corrects is None else roots[entry.corrects]
    return roots


def statements(case: Case, as_of: int | None = None) -> tuple[Statement, ...]:
    """Every fact in force, in the order of the entries first made, then by slot.

    `not asked` takes an answer back: nothing of it remains.
    """
    entries = entries_until(case, as_of)
    roots = roots_of(entries)
    held: dict[tuple[int, str], Statement] = {}
    for entry in entries:
        root = roots[entry.number]
        for said in entry.said:
            if said.absence is Absence.NOT_ASKED:
                held.pop((root.number, said.slot), None)
            else:
                held[root.number, said.slot] = Statement(root, entry, said)
    return tuple(held[key] for key in sorted(held))


def code_lists(case: Case, as_of: int | None = None) -> tuple[CodesRead, ...]:
    """Every code list in force, in the order of the entries first made."""
    entries = entries_until(case, as_of)
    roots = roots_of(entries)
    held: dict[int, CodesRead] = {}
    for entry in entries:
        if entry.codes is not None:
            root = roots[entry.number]
            held[root.number] = CodesRead(root, entry, entry.codes)
    return tuple(held[number] for number in sorted(held))


def works(case: Case, as_of: int | None = None) -> tuple[tuple[Entry, str], ...]:
    """The work done, in order: the entry first made, and the work as corrected."""
    entries = entries_until(case, as_of)
    roots = roots_of(entries)
    held: dict[int, str] = {}
    for entry in entries:
        if entry.work is not None:
            held[roots[entry.number].number] = entry.work
    return tuple((roots[number], held[number]) for number in sorted(held))


def outcome(case: Case, as_of: int | None = None) -> tuple[Entry, Outcome] | None:
    """The outcome as last corrected, with the entry that says it now; None while open."""
    for entry in reversed(entries_until(case, as_of)):
        if entry.outcome is not None:
            return entry, entry.outcome
    return None
