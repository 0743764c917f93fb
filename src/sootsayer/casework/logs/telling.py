"""What was wrong inside a log, each kind of thing once, with its first place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sootsayer.casework.logs.channel import Bad, Channel
from sootsayer.casework.logs.ticking import Ticking
from sootsayer.casework.logs.words import DP
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem

_FROZEN_DP = (
    "where the engine's speed changed and the pressure did not, the sensor or a hose is suspect: "
    "read it by hand, at rest, at idle and at 2,500 rpm"
)
_FROZEN = "see on the scan tool whether it moves; a frozen value is left out of every window"


def channel_warnings(channels: Iterable[Channel], file: str, delimiter: str) -> Iterator[Problem]:
    """What was wrong with each column."""
    for channel in channels:
        name, index = channel.role.id, channel.column.index
        low, high, unit = channel.low, channel.high, channel.unit
        for bad, one, many, instead in (
            (channel.impossible, '1 reading is not possible, "{text}"; it is left out',
             '{count} readings are not possible, the first "{text}"; they are left out',
             f"{channel.role.label} lies between {low:g} and {high:g} {unit}".rstrip()
             + "; is this the right column and unit?"),
            (channel.over, '1 cell only says "{text}"; it is left out',
             '{count} cells only say more or less than can be shown, the first "{text}"; they are '
             "left out", "read this on an instrument with a wider range"),
            (channel.unreadable, '1 cell is no number, "{text}"; it is left out',
             '{count} cells are no numbers, the first "{text}"; they are left out',
             "look whether the column is the right one and the export whole"),
        ):  # fmt: skip
            if bad.count:
                what = (one if bad.count == 1 else many).format(
                    count=f"{bad.count:,}", text=bad.text.replace("{", "(").replace("}", ")")
                )
                yield Problem(_place(file, bad, index, delimiter), f"{name}: {what}", instead,
                              bad.row)  # fmt: skip
        for run in channel.frozen[:1]:
            more = f", and {len(channel.frozen) - 1} more such runs" if channel.frozen[1:] else ""
            yield Problem(
                Place(file, run.first_line, 1),
                f"{name}: frozen at {run.value:g} {unit} to line {run.last_line}, while the engine "
                f"went between {run.low:.0f} and {run.high:.0f} rpm{more}",
                _FROZEN_DP if name == DP else _FROZEN,
            )


def time_warnings(ticking: Ticking, file: str) -> Iterator[Problem]:
    """What was wrong with time."""
    for bad, one, many, instead in (
        (ticking.missing, "1 row has no time", "{count} rows have no time",
         "a row with an empty time belongs to the row above; others are left out"),
        (ticking.late, "1 row is out of order by up to 5 s; it is left out",
         "{count} rows are out of order by up to 5 s; they are left out",
         "sort the rows by time before exporting"),
        (ticking.backwards, "time goes backwards here; a new recording is taken to begin",
         "time goes backwards here and {count} times in all; a new recording is taken to begin",
         "export one recording a file"),
    ):  # fmt: skip
        if bad.count:
            what = (one if bad.count == 1 else many).format(count=f"{bad.count:,}")
            yield Problem(Place(file, bad.line, 1), what, instead, bad.row)


def row_warning(bad: Bad, one: str, many: str, instead: str, file: str) -> Iterator[Problem]:
    """Rows that were left out, of one kind."""
    if bad.count:
        what = one if bad.count == 1 else many.format(count=f"{bad.count:,}")
        yield Problem(Place(file, bad.line, 1), what, instead, bad.row)


def _place(file: str, bad: Bad, index: int, delimiter: str) -> Place:
    """The first sign of the cell, as far as the kept part of its row tells."""
    parts = bad.row.split(delimiter)
    before = parts[:index] if index < len(parts) else []
    return Place(file, bad.line, sum(len(part) + 1 for part in before) + 1)
