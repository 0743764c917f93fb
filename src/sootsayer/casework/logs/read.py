"""A live-data log, read in one pass."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path

from sootsayer.casework.logs.about import litres_in, odometer_in
from sootsayer.casework.logs.cells import split
from sootsayer.casework.logs.channel import Bad
from sootsayer.casework.logs.model import Log, Shape
from sootsayer.casework.logs.opening import Settings, open_columns
from sootsayer.casework.logs.shape import HEAD_LINES, long_columns, shape_of
from sootsayer.casework.logs.source import Source
from sootsayer.casework.logs.state import Engine
from sootsayer.casework.logs.steady import Steady
from sootsayer.casework.logs.telling import (
    CUT,
    HEADERS,
    SHORT,
    channel_warnings,
    row_warning,
    time_warnings,
)
from sootsayer.casework.logs.times import moment_of
from sootsayer.casework.logs.traces import Tracing
from sootsayer.casework.logs.windows import Seen, summarised
from sootsayer.casework.logs.words import AIR, BEFORE, DP, ODOMETER, RPM, SPEED
from sootsayer.catalogue import say, say_count
from sootsayer.catalogue_numbers import brief
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

LEFT_OUT = (
    "{count} window beyond the first {most} is left out",
    "{count} windows beyond the first {most} are left out",
)
_LONG_HEAD_LINES = 4_000
_HEAD_SIZE = 8_000_000
__all__ = ["Settings", "read_log"]
_TRACED = (DP, RPM, AIR, BEFORE, SPEED)


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
        shape = shape_of(head[:HEAD_LINES], source.encoding, file, settings.decimals)
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
        opened = open_columns(file, shape, head, settings)
        self._names, self._choice, self._time = opened.names, opened.choice, opened.time
        self._ticking, self._channels = opened.ticking, opened.channels
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

    def _check_read(self) -> None:
        if self._rows == 0:
            raise self._refused(
                say("the log has no rows that can be read"), say("look at its columns")
            )
        if self._rows == 1:
            raise self._refused(
                say("the log has one row: nothing in it can be steady"), say("record longer")
            )
        if not self._ticking.moved:
            raise self._refused(
                say("time never moves in this log"),
                say('say which column is the time: --column time="Name of the column"'),
            )
        if not any(channel.n for channel in self._channels):
            problems = list(self._warnings(False))
            raise Refused(problems) if problems else self._refused(
                say("no column holds a number"), say("look at its columns")
            )  # fmt: skip
        rpm = self._channels[0]
        lively = [c for c in self._channels if c.role.lively and c.n]
        if rpm.still and rpm.lowest > 50.0 and all(c.still for c in lively):
            raise self._refused(
                say(
                    "every column keeps one value from the first row to the last: the log is frozen"
                ),
                say("record it again, and watch that the figures move"),
            )

    def _warnings(self, mixed_ends: bool) -> Iterator[Problem]:
        file, shape = self._file, self._shape
        yield from self._choice.warnings
        yield from time_warnings(self._ticking, file)
        yield from channel_warnings(self._channels, file, shape.delimiter)
        rpm = self._channels[0]
        if rpm.still and rpm.lowest > 50.0:
            yield Problem(
                Place(file, shape.first, 1),
                say("engine-speed: frozen at {speed} rpm throughout", speed=brief(rpm.lowest)),
                say("windows are only as good as this; see whether it moves"),
            )
        for bad, telling in ((self._short, SHORT), (self._cut, CUT), (self._headers, HEADERS)):
            yield from row_warning(bad, telling, file)
        if mixed_ends:
            yield Problem(
                Place(file, 1, 1),
                say("the lines of this log end in different ways; all were read"),
                say("nothing to do, if the rows look right"),
            )
        if self._steady.left_out:
            yield Problem(
                Place(file, 1, 1),
                say_count(*LEFT_OUT, count=self._steady.left_out, most=len(self._steady.found)),
                say("cut the log to the drive you need"),
            )

    def _refused(self, what: str, instead: str) -> Refused:
        return Refused([Problem(Place(self._file, self._shape.header, 1), what, instead)])
