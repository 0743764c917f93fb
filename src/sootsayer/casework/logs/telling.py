"""What was wrong inside a log, each kind of thing once, with its first place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sootsayer.casework.logs.channel import Bad, Channel
from sootsayer.casework.logs.labels import label_of
from sootsayer.casework.logs.ticking import Ticking
from sootsayer.casework.logs.words import DP
from sootsayer.catalogue import say, say_count
from sootsayer.catalogue_numbers import brief, fixed, whole, with_unit
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem

FROZEN_DP = (
    "where the engine's speed changed and the pressure did not, the sensor or a hose is suspect: "
    "read it by hand, at rest, at idle and at 2,500 rpm"
)
FROZEN_OTHER = "see on the scan tool whether it moves; a frozen value is left out of every window"
FROZEN_ONCE = (
    "{name}: frozen at {value} to line {line}, while the engine went between {low} and {high} rpm"
)
FROZEN_TWICE = (
    "{name}: frozen at {value} to line {line}, while the engine went between {low} and {high} "
    "rpm, and {count} more such run"
)
FROZEN_OFTEN = (
    "{name}: frozen at {value} to line {line}, while the engine went between {low} and {high} "
    "rpm, and {count} more such runs"
)

# Of each kind: the template for one, that for several, and what to do.
IMPOSSIBLE = (
    '{name}: 1 reading is not possible, "{text}"; it is left out',
    '{name}: {count} readings are not possible, the first "{text}"; they are left out',
    "{label} lies between {low} and {high}; is this the right column and unit?",
)
OVER = (
    '{name}: 1 cell only says "{text}"; it is left out',
    '{name}: {count} cells only say more or less than can be shown, the first "{text}"; they are '
    "left out",
    "read this on an instrument with a wider range",
)
UNREADABLE = (
    '{name}: 1 cell is no number, "{text}"; it is left out',
    '{name}: {count} cells are no numbers, the first "{text}"; they are left out',
    "look whether the column is the right one and the export whole",
)
NO_TIME = (
    "1 row has no time",
    "{count} rows have no time",
    "a row with an empty time belongs to the row above; others are left out",
)
LATE = (
    "1 row is out of order by up to 5 s; it is left out",
    "{count} rows are out of order by up to 5 s; they are left out",
    "sort the rows by time before exporting",
)
BACKWARDS = (
    "time goes backwards here; a new recording is taken to begin",
    "time goes backwards here and {count} times in all; a new recording is taken to begin",
    "export one recording a file",
)
SHORT = (
    "1 row has too few cells; it is left out",
    "{count} rows have too few cells; they are left out",
    "look whether the export is whole",
)
CUT = (
    "the last line is cut off; it is left out",
    "the last line is cut off; it is left out",
    "the recording ended badly; the rows before it are whole",
)
HEADERS = (
    "the names of the columns stand here again; the line is left out",
    "the names of the columns stand here again, {count} times in all; they are left out",
    "export one recording a file",
)
Telling = tuple[str, str, str]


def channel_warnings(channels: Iterable[Channel], file: str, delimiter: str) -> Iterator[Problem]:
    """What was wrong with each column."""
    for channel in channels:
        for bad, telling in (
            (channel.impossible, IMPOSSIBLE),
            (channel.over, OVER),
            (channel.unreadable, UNREADABLE),
        ):
            if bad.count:
                place = _place(file, bad, channel.column.index, delimiter)
                yield _told(bad, telling, place, channel)
        if channel.frozen:
            yield _frozen(channel, file)


def _told(bad: Bad, telling: Telling, place: Place, channel: Channel) -> Problem:
    one, many, instead = telling
    what = say(
        one if bad.count == 1 else many,
        name=channel.role.id,
        count=whole(bad.count),
        text=bad.text,
    )
    range_ = {
        "label": label_of(channel.role),
        "low": brief(channel.low),
        "high": with_unit(brief(channel.high), channel.unit),
    }
    return Problem(place, what, say(instead, **range_), bad.row)


def _frozen(channel: Channel, file: str) -> Problem:
    """The first stretch that stood still, and how many more there are."""
    run, more = channel.frozen[0], len(channel.frozen) - 1
    slots = {
        "name": channel.role.id,
        "value": with_unit(brief(run.value), channel.unit),
        "line": run.last_line,
        "low": fixed(run.low),
        "high": fixed(run.high),
    }
    what = (
        say_count(FROZEN_TWICE, FROZEN_OFTEN, count=more, **slots)
        if more
        else say(FROZEN_ONCE, **slots)
    )
    instead = say(FROZEN_DP) if channel.role.id == DP else say(FROZEN_OTHER)
    return Problem(Place(file, run.first_line, 1), what, instead)


def time_warnings(ticking: Ticking, file: str) -> Iterator[Problem]:
    """What was wrong with time."""
    for bad, telling in (
        (ticking.missing, NO_TIME),
        (ticking.late, LATE),
        (ticking.backwards, BACKWARDS),
    ):
        yield from row_warning(bad, telling, file)


def row_warning(bad: Bad, telling: Telling, file: str) -> Iterator[Problem]:
    """Rows that were left out, of one kind."""
    if bad.count:
        one, many, instead = telling
        what = say(one if bad.count == 1 else many, count=whole(bad.count))
        yield Problem(Place(file, bad.line, 1), what, say(instead), bad.row)


def _place(file: str, bad: Bad, index: int, delimiter: str) -> Place:
    """The first sign of the cell, as far as the kept part of its row tells."""
    parts = bad.row.split(delimiter)
    before = parts[:index] if index < len(parts) else []
    return Place(file, bad.line, sum(len(part) + 1 for part in before) + 1)
