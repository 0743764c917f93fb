"""Chosen windows as the entries of one round."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

from sootsayer.casework.append import entry_line
from sootsayer.casework.logs.facts import facts_of
from sootsayer.casework.logs.model import Column, Log, Window
from sootsayer.casework.model import Case, Source
from sootsayer.catalogue import Said, listed, say
from sootsayer.catalogue_numbers import fixed
from sootsayer.rulebook.model import Model

_LONGEST_NAME = 80
NOTE = (
    "mean of {samples} samples over {seconds} s, window {number} of the log {log}, lines {first} "
    "to {last}, sha256 {digest}"
)
NOTE_WHOLE = (
    "mean of {samples} samples over {seconds} s, window {number} of the log {log}, lines {first} "
    "to {last}, sha256 {digest}. Columns: {columns}"
)
BY_HAND = '{role} is "{name}", said by hand'
BY_HAND_IN = '{role} is "{name}" in {unit}, said by hand'
BY_SCORE = '{role} is "{name}", score {score}'
BY_SCORE_IN = '{role} is "{name}" in {unit}, score {score}'


@dataclass(frozen=True, slots=True)
class Taking:
    """Who takes it into which round, and when the log began (with offset from UTC)."""

    by: str
    round: str
    begun: datetime


def round_of(case: Case) -> str:
    """The newest round of the case, `arrival` before the first."""
    rounds = [entry.round for entry in case.entries if entry.round is not None]
    return rounds[-1] if rounds else "arrival"


def by_of(case: Case) -> str:
    """Who wrote the last entry; `tech-1` before the first."""
    return case.entries[-1].by if case.entries else "tech-1"


def offset_of(case: Case) -> tzinfo | None:
    """The offset from UTC of the last entry, which a log's own clock is taken to show."""
    return case.entries[-1].at.tzinfo if case.entries else None


def same_points(windows: Iterable[Window]) -> list[str]:
    """Points that more than one of the windows has."""
    points = [window.point for window in windows]
    return sorted({point for point in points if points.count(point) > 1})


def entry_lines(log: Log, windows: Sequence[Window], taking: Taking, model: Model) -> list[str]:
    """One line for each window, in the order of time. The first one's note keeps the log's name,
    its digest, and which column was taken for what."""
    lines: list[str] = []
    for window in sorted(windows, key=lambda one: one.begins):
        lines.append(
            entry_line(
                at=taking.begun + timedelta(seconds=round(window.ends)),
                by=taking.by,
                round=taking.round,
                source=Source.SCAN,
                facts=facts_of(window, model),
                note=_note(log, window, whole=not lines),
            )
        )
    return lines


def _note(log: Log, window: Window, *, whole: bool) -> str:
    name = log.file.replace("\\", "/").rsplit("/", 1)[-1][:_LONGEST_NAME]
    most = max((summary.n for summary in window.channels.values()), default=0)
    slots = {
        "samples": most,
        "seconds": fixed(window.duration),
        "number": window.number,
        "log": name,
        "first": window.first_line,
        "last": window.last_line,
    }
    if not whole:
        return say(NOTE, digest=log.digest[:12], **slots)
    columns = listed([_taken(column) for column in log.columns])
    return say(NOTE_WHOLE, digest=log.digest, columns=columns, **slots)


def _taken(column: Column) -> Said:
    """Which column was taken for what, in which unit, and how that was known."""
    slots = {
        "role": column.role,
        "name": column.name[:_LONGEST_NAME],
        "unit": column.unit,
        "score": fixed(column.score, 2),
    }
    if column.said:
        return say(BY_HAND_IN if column.unit else BY_HAND, **slots)
    return say(BY_SCORE_IN if column.unit else BY_SCORE, **slots)
