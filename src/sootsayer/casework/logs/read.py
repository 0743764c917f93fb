"""A live-data log, read in one pass."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from sootsayer.casework.logs.about import litres_in, odometer_in
from sootsayer.casework.logs.cells import split
from sootsayer.casework.logs.channel import Bad, Channel
from sootsayer.casework.logs.columns import NO_WISH, Choice, Wish, choose
from sootsayer.casework.logs.model import Column, Log, Shape
from sootsayer.casework.logs.shape import HEAD_LINES, long_columns, shape_of
from sootsayer.casework.logs.source import Source
from sootsayer.casework.logs.state import Engine, Levels
from sootsayer.casework.logs.steady import Steady
from sootsayer.casework.logs.telling import channel_warnings, row_warning, time_warnings
from sootsayer.casework.logs.ticking import Ticking
from sootsayer.casework.logs.times import Clock, clock_of, moment_of
from sootsayer.casework.logs.traces import Tracing
from sootsayer.casework.logs.windows import Seen, summarised
from sootsayer.casework.logs.words import AIR, BEFORE, DP, ODOMETER, RPM, SPEED, TIME
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

_LONG_HEAD_LINES = 4_000
_HEAD_SIZE = 8_000_000
_TRACED = (DP, RPM, AIR, BEFORE, SPEED)
_CLOCK_SAMPLES = 200


@dataclass(frozen=True, slots=True)
class Settings:
    """What reading depends on. `possible`: role to (lowest, highest) in the role's unit, from
    the rulebook; `traced`: keep the whole log in rough for a picture."""

    wish: Wish = NO_WISH
    possible: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    levels: Levels = field(default_factory=Levels)
    traced: bool = False


def read_log(
    path: Path,
    settings: Settings,
    *,
    shown_as: str | None = None,
    progress: Callable[[int], None] | None = None,
) -> Log:
    """The log in the file `path`, which messages name `shown_as`.

    `progress` is told how many bytes were read. Raises documents.Refused for what cannot be read
    as a log, and OSError.
    """
    file = str(path) if shown_as is None else shown_as
    with Source(path, file, progress) as source:
        lines = source.lines()
        head = _head(lines)
        shape = shape_of(head[:HEAD_LINES], source.encoding, file)
        reading = _Reading(file, shape, head, settings)
        for number, line in _numbered(head, lines, shape.first):
            reading.row(number, line, cut=number == source.unended)
        mixed = isinstance(source.line_ends, tuple)
        return reading.log(source.digest, mixed_ends=mixed)


def _head(lines: Iterator[str]) -> list[str]:
    """The first lines: enough to tell the shape, and to meet the channels of a long log."""
    head: list[str] = []
    size = 0
    for line in lines:
        head.append(line)
        size += len(line)
        if size > _HEAD_SIZE or len(head) >= _LONG_HEAD_LINES:
            break
    return head


def _numbered(head: list[str], lines: Iterable[str], first: int) -> Iterator[tuple[int, str]]:
    """Every line from the first row on, with its number; the head is let go as it is used."""
    count = len(head)
    yield from enumerate(head[first - 1 :], start=first)
    head.clear()
    yield from enumerate(lines, start=count + 1)


class _Reading:
    """The state of one reading."""

    def __init__(self, file: str, shape: Shape, head: Sequence[str], settings: Settings) -> None:
        self._file, self._shape, self._settings = file, shape, settings
        rows = [split(line, shape.delimiter) for line in head[shape.first - 1 :]]
        rows = [row for row in rows if any(cell.strip() for cell in row)]
        if not rows:
            raise self._refused("the log names its columns but has no rows", "record it again")
        self._choice = self._choose(rows)
        self._time = self._time_column()
        self._ticking = self._clock(rows)
        self._channels = self._open_channels()
        roles = [channel.role.id for channel in self._channels]
        engine = Engine(roles, settings.levels, self._ticking.step)
        self._steady = Steady(roles, engine)
        self._traces = {
            i: Tracing(channel.role.id, channel.unit)
            for i, channel in enumerate(self._channels)
            if settings.traced and channel.role.id in _TRACED
        }
        self._rows = 0
        self._short, self._cut, self._headers = Bad(), Bad(), Bad()
        self._rpm: float | None = None
        if shape.long:
            self._name_at, self._value_at, _ = long_columns(shape.names)
            self._by_name = {c.column.name: i for i, c in enumerate(self._channels)}
            self._needs = max(self._name_at, self._value_at, self._time.index) + 1
        else:
            self._needs = max(c.index for c in (*self._choice.columns, self._time)) + 1

    def row(self, number: int, line: str, *, cut: bool) -> None:
        """One line of the log."""
        cells = split(line, self._shape.delimiter)
        if cut and len(cells) < len(self._shape.names):
            self._cut.add("", number, line)
            return
        if cut and self._rows > 2:
            return  # without its line end nobody knows whether its last number is whole
        if len(cells) < self._needs:
            if line.strip():
                self._short.add("", number, line)
            return
        cell = cells[self._time.index]
        if cell == self._shape.names[self._time.index]:
            self._headers.add("", number, line)
            return
        time = self._ticking.at(cell, number, line)
        if time is None:
            return
        if self._ticking.gap:
            self._steady.gap()
            self._rpm = None
        self._rows += 1
        values = self._long(cells, number, line) if self._shape.long else (
            self._wide(cells, number, line)
        )  # fmt: skip
        self._steady.feed(time, number, values)
        for index, tracing in self._traces.items():
            value = values[index]
            if value is not None:
                tracing.add(time, value)

    def log(self, digest: str, *, mixed_ends: bool) -> Log:
        """What was read. Raises Refused where that is no log."""
        self._steady.end()
        for channel in self._channels:
            channel.end()
        self._check_read()
        ticking, settings = self._ticking, self._settings
        odometer = next((c for c in self._channels if c.role.id == ODOMETER and c.n), None)
        head = self._shape.head
        begun = moment_of(ticking.begun) if ticking.begun is not None else None
        used = {column.index for column in self._choice.columns} | {self._time.index}
        names = self._names
        return Log(
            file=self._file,
            digest=digest,
            shape=self._shape,
            columns=(self._time, *(channel.column for channel in self._channels)),
            unused=tuple(name for i, name in enumerate(names) if name and i not in used),
            rows=self._rows,
            length=ticking.last,
            windows=summarised(self._steady.found, Seen(self._channels, settings.levels)),
            warnings=tuple(self._warnings(mixed_ends)),
            traces=tuple(tracing.trace() for tracing in self._traces.values()),
            begun=begun,
            odometer=odometer.highest if odometer else odometer_in(head),
            litres=litres_in(head),
        )

    def _wide(self, cells: Sequence[str], number: int, line: str) -> list[float | None]:
        values: list[float | None] = []
        for channel in self._channels:  # engine speed first: the others are watched beside it
            text = cells[channel.column.index]
            value = channel.read(text, number, line, self._rpm) if text else None
            if channel.role.id == RPM and value is not None:
                self._rpm = value
            values.append(value)
        return values

    def _long(self, cells: Sequence[str], number: int, line: str) -> list[float | None]:
        values: list[float | None] = [None] * len(self._channels)
        index = self._by_name.get(cells[self._name_at].strip())
        if index is not None:
            channel = self._channels[index]
            value = channel.read(cells[self._value_at], number, line, self._rpm)
            if channel.role.id == RPM and value is not None:
                self._rpm = value
            values[index] = value
        return values

    def _choose(self, rows: Sequence[Sequence[str]]) -> Choice:
        """Columns by role; in a long log the channels that its head names."""
        shape, at = self._shape, Place(self._file, self._shape.header, 1)
        self._names: Sequence[str] = shape.names
        units: Sequence[str] = shape.units
        wish = self._settings.wish
        if shape.long:
            self._names, units = _channels_named(rows, shape)
            wish = Wish({r: c for r, c in wish.columns.items() if r != TIME}, wish.units)
        return choose(self._names, units, wish, at)

    def _time_column(self) -> Column:
        shape = self._shape
        found = next((c for c in self._choice.columns if c.role == TIME), None)
        if shape.long:
            only = Wish({r: c for r, c in self._settings.wish.columns.items() if r == TIME}, {})
            at = Place(self._file, shape.header, 1)
            chosen = choose(shape.names, shape.units, only, at)
            found = next((c for c in chosen.columns if c.role == TIME), None)
        if found is None:
            raise self._refused(
                "no column of time was recognised",
                'say which one it is: --column time="Name of the column"',
            )
        return found

    def _clock(self, rows: Sequence[Sequence[str]]) -> Ticking:
        column = self._time
        samples = [row[column.index] for row in rows[:_CLOCK_SAMPLES] if len(row) > column.index]
        unit = self._shape.units[column.index]
        clock: Clock | None = clock_of(samples, unit, self._shape.decimal_comma)
        if clock is None:
            raise self._refused(
                f'the column "{column.name[:60]}" holds no time',
                'say which one does: --column time="Name of the column"',
            )
        return Ticking(clock, samples)

    def _open_channels(self) -> list[Channel]:
        columns = [column for column in self._choice.columns if column.role != TIME]
        if not columns:
            ties = list(self._choice.warnings)
            if ties:
                raise Refused(ties)
            raise self._refused(
                "no column was recognised but the time",
                'say which is which: --column engine-speed="Name" --column dp="Name"',
            )
        if not any(column.role == RPM for column in columns):
            raise Refused([*self._choice.warnings, Problem(
                Place(self._file, self._shape.header, 1),
                "no column of engine speed was recognised, and without it no window can be found",
                'say which one it is: --column engine-speed="Name of the column"',
            )])  # fmt: skip
        columns.sort(key=lambda column: column.role != RPM)
        possible, comma = self._settings.possible, self._shape.decimal_comma
        return [Channel(column, possible.get(column.role), comma) for column in columns]

    def _check_read(self) -> None:
        if self._rows == 0:
            raise self._refused("the log has no rows that can be read", "look at its columns")
        if self._rows == 1:
            raise self._refused("the log has one row: nothing in it can be steady", "record longer")
        if not self._ticking.moved:
            raise self._refused(
                "time never moves in this log",
                'say which column is the time: --column time="Name of the column"',
            )
        if not any(channel.n for channel in self._channels):
            problems = list(self._warnings(False))
            raise Refused(problems) if problems else self._refused(
                "no column holds a number", "look at its columns"
            )  # fmt: skip
        rpm = self._channels[0]
        lively = [c for c in self._channels if c.role.lively and c.n]
        if rpm.still and rpm.lowest > 50.0 and all(c.still for c in lively):
            raise self._refused(
                "every column keeps one value from the first row to the last: the log is frozen",
                "record it again, and watch that the figures move",
            )

    def _warnings(self, mixed_ends: bool) -> Iterator[Problem]:
        file, shape = self._file, self._shape
        yield from self._choice.warnings
        yield from time_warnings(self._ticking, file)
        yield from channel_warnings(self._channels, file, shape.delimiter)
        rpm = self._channels[0]
        if rpm.still and rpm.lowest > 50.0:
            yield Problem(
                Place(file, shape.first, 1), f"engine-speed: frozen at {rpm.lowest:g} rpm "
                "throughout", "windows are only as good as this; see whether it moves",
            )  # fmt: skip
        yield from row_warning(
            self._short, "1 row has too few cells; it is left out",
            "{count} rows have too few cells; they are left out",
            "look whether the export is whole", file,
        )  # fmt: skip
        yield from row_warning(
            self._cut, "the last line is cut off; it is left out", "", "the recording ended badly; "
            "the rows before it are whole", file,
        )  # fmt: skip
        yield from row_warning(
            self._headers, "the names of the columns stand here again; the line is left out",
            "the names of the columns stand here again, {count} times in all; they are left out",
            "export one recording a file", file,
        )  # fmt: skip
        if mixed_ends:
            yield Problem(
                Place(file, 1, 1), "the lines of this log end in different ways; all were read",
                "nothing to do, if the rows look right",
            )  # fmt: skip
        if self._steady.left_out:
            yield Problem(
                Place(file, 1, 1), f"{self._steady.left_out:,} windows beyond the first "
                f"{len(self._steady.found)} are left out", "cut the log to the drive you need",
            )  # fmt: skip

    def _refused(self, what: str, instead: str) -> Refused:
        return Refused([Problem(Place(self._file, self._shape.header, 1), what, instead)])


def _channels_named(
    rows: Sequence[Sequence[str]], shape: Shape
) -> tuple[list[str], list[str]]:
    """The channels that the first rows of a long log name, in the order met, and their units."""
    from sootsayer.casework.logs.naming import split_unit
    from sootsayer.casework.logs.units import head_unit

    name_at, value_at, unit_at = long_columns(shape.names)
    met: dict[str, str] = {}
    for row in rows:
        if len(row) <= max(name_at, value_at):
            continue
        name = row[name_at].strip()
        if name and name not in met and len(met) < 2_000:
            beside = row[unit_at] if unit_at is not None and unit_at < len(row) else ""
            met[name] = head_unit(beside) or split_unit(name)[1] or ""
    return list(met), list(met.values())
