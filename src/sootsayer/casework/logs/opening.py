"""From the first lines of a log to its clock and channels, before a row is counted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.casework.logs.cells import split
from sootsayer.casework.logs.channel import Channel
from sootsayer.casework.logs.columns import NO_WISH, Choice, Wish, choose
from sootsayer.casework.logs.model import Column, Shape
from sootsayer.casework.logs.naming import split_unit
from sootsayer.casework.logs.shape import MOST_COLUMNS, long_columns
from sootsayer.casework.logs.state import Levels
from sootsayer.casework.logs.ticking import Ticking
from sootsayer.casework.logs.times import clock_of
from sootsayer.casework.logs.units import head_unit
from sootsayer.casework.logs.words import RPM, TIME
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

_CLOCK_SAMPLES = 200
SAY_TIME = 'say which one it is: --column time="Name of the column"'
SAY_RPM = 'say which one it is: --column engine-speed="Name of the column"'

NO_RPM = "no column of engine speed was recognised, and without it no window can be found"


@dataclass(frozen=True, slots=True)
class Settings:
    """What reading depends on. `possible`: role to (lowest, highest) in the role's unit, from
    the rulebook; `traced`: keep the whole log in rough for a picture; `decimals`: whether somebody
    said that they have a comma (True) or a point (False)."""

    wish: Wish = NO_WISH
    possible: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    levels: Levels = field(default_factory=Levels)
    traced: bool = False
    decimals: bool | None = None


@dataclass(frozen=True, slots=True)
class Opened:
    """`names` of all columns (in a long log: channels); `channels` with engine speed first."""

    names: Sequence[str]
    choice: Choice
    time: Column
    ticking: Ticking
    channels: list[Channel]


def open_columns(file: str, shape: Shape, head: Sequence[str], settings: Settings) -> Opened:
    """The columns of a log by its first lines. Raises Refused."""
    at = Place(file, shape.header, 1)
    rows = [split(line, shape.delimiter) for line in head[shape.first - 1 :]]
    rows = [row for row in rows if any(cell.strip() for cell in row)]
    if not rows:
        raise _refused(at, say("the log names its columns but has no rows"), say("record it again"))
    names, choice = _choice(rows, shape, settings.wish, at)
    time = _time(choice, shape, settings.wish, at)
    ticking = _ticking(rows, time, shape, at)
    return Opened(names, choice, time, ticking, _channels(choice, shape, settings, at))


def _choice(
    rows: Sequence[Sequence[str]], shape: Shape, wish: Wish, at: Place
) -> tuple[Sequence[str], Choice]:
    """Columns by role; in a long log the channels that its head names."""
    if not shape.long:
        return shape.names, choose(shape.names, shape.units, wish, at)
    names, units = _channels_named(rows, shape)
    others = {role: column for role, column in wish.columns.items() if role != TIME}
    return names, choose(names, units, Wish(others, wish.units), at)


def _time(choice: Choice, shape: Shape, wish: Wish, at: Place) -> Column:
    if shape.long:
        own = {role: column for role, column in wish.columns.items() if role == TIME}
        choice = choose(shape.names, shape.units, Wish(own, {}), at)
    found = next((column for column in choice.columns if column.role == TIME), None)
    if found is None:
        raise _refused(at, say("no column of time was recognised"), say(SAY_TIME))
    return found


def _ticking(rows: Sequence[Sequence[str]], column: Column, shape: Shape, at: Place) -> Ticking:
    samples = [row[column.index] for row in rows[:_CLOCK_SAMPLES] if len(row) > column.index]
    clock = clock_of(samples, shape.units[column.index], shape.decimal_comma)
    if clock is None:
        what = say('the column "{name}" holds no time', name=column.name[:60])
        raise _refused(at, what, say(SAY_TIME))
    return Ticking(clock, samples)


def _channels(choice: Choice, shape: Shape, settings: Settings, at: Place) -> list[Channel]:
    columns = [column for column in choice.columns if column.role != TIME]
    if not columns and not choice.warnings:
        raise _refused(
            at,
            say("no column was recognised but the time"),
            say('say which is which: --column engine-speed="Name" --column dp="Name"'),
        )
    if not any(column.role == RPM for column in columns):
        what = say(NO_RPM)
        raise Refused([*choice.warnings, Problem(at, what, say(SAY_RPM))])
    columns.sort(key=lambda column: column.role != RPM)
    return [
        Channel(column, settings.possible.get(column.role), shape.decimal_comma, shape.parted)
        for column in columns
    ]


def _channels_named(rows: Sequence[Sequence[str]], shape: Shape) -> tuple[list[str], list[str]]:
    """The channels that the first rows of a long log name, in the order met, and their units."""
    name_at, value_at, unit_at = long_columns(shape.names)
    met: dict[str, str] = {}
    for row in rows:
        if len(row) <= max(name_at, value_at):
            continue
        name = row[name_at].strip()
        if name and name not in met and len(met) < MOST_COLUMNS:
            beside = row[unit_at] if unit_at is not None and unit_at < len(row) else ""
            met[name] = head_unit(beside) or split_unit(name)[1] or ""
    return list(met), list(met.values())


def _refused(at: Place, what: str, instead: str) -> Refused:
    return Refused([Problem(at, what, instead)])
