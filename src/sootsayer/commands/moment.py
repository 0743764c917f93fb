"""The moment that a case is judged at."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from sootsayer.casework.model import Case, Entry
from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.catalogue import say, say_count, shown
from sootsayer.catalogue_numbers import moment_said
from sootsayer.commands.clock import clock
from sootsayer.commands.leaving import Stop, complain
from sootsayer.commands.usage import ENTRY_NEXT, entry_number

ENTRY_BEYOND = (
    "the case has {count} entry, so there is no entry {number}",
    "the case has {count} entries, so there is no entry {number}",
)

# An open case that is judged by the clock.
CLOCK_BEHIND = "this machine's clock says {now}, and entry {number} is dated {then}"
CLOCK_NEXT = (
    "set the clock, or judge the case at a time of its own with --at {then}: until then what is "
    "dated later counts as read too long ago"
)


def as_of_entry(case: Case, typed: str | None) -> int | None:
    """The entry of `--as-of`, None without. Raises Stop for one that the case does not have."""
    if typed is None:
        return None
    number = entry_number(typed)
    if number > len(case.entries):
        one, many = ENTRY_BEYOND
        what = say_count(one, many, count=len(case.entries), number=number)
        raise Stop(what, say(ENTRY_NEXT))
    return number


def moment_of(case: Case, *, at: str | None, as_of: int | None, demonstration: bool) -> datetime:
    """`--at`; else of an earlier state the time of its entry, so that nothing in it has aged since;
    else of a closed or demonstration case that of the last entry before the outcome; else the
    clock. Raises Stop for a time that cannot be read.
    """
    if at is not None:
        return _read(at)
    if as_of is not None and 0 < as_of < len(case.entries):
        return case.entries[as_of - 1].at
    if (case.closed or demonstration) and case.entries:
        before = [entry.at for entry in case.entries[: _outcome_at(case)]]
        return before[-1] if before else case.entries[0].at
    now = clock()
    _complain_of_clock(case.entries[:as_of], now)
    return now


def _complain_of_clock(entries: Sequence[Entry], now: datetime) -> None:
    """Where entries are dated after now the clock is wrong, here or where they were made; without
    this only their age would tell, as if they were too old."""
    last = max(entries, key=lambda entry: entry.at, default=None)
    if last is not None and last.at > now:
        try:
            there = last.at.astimezone(now.tzinfo)
        except OverflowError:  # in the last hours that can be written
            there = last.at
        what = say(CLOCK_BEHIND, now=moment_said(now), number=last.number, then=moment_said(there))
        complain(what, say(CLOCK_NEXT, then=shown(last.at.isoformat(timespec="minutes"))))


def _outcome_at(case: Case) -> int:
    """How many entries stand before the first outcome."""
    outcomes = (i for i, entry in enumerate(case.entries) if entry.outcome is not None)
    return next(outcomes, len(case.entries))


def _read(text: str) -> datetime:
    try:
        return read_moment(text)
    except MomentRefused as refused:
        raise Stop(shown(refused.what), shown(refused.instead)) from None
