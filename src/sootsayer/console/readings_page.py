"""The page on a live-data log: its columns, its windows, and pressure against flow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.casework.logs.model import Column, Log, Summary, Window
from sootsayer.catalogue import Said, say, say_count
from sootsayer.catalogue_numbers import figure, fixed, moment_said, unit_said
from sootsayer.console import readings_texts as t
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, clipped, page
from sootsayer.console.readings_plot import plot_rows
from sootsayer.console.vocabulary import round_said
from sootsayer.console.words import typed_said

_MOST_UNUSED = 12
# What is read at a point; what only tells the points apart stands in the JSON.
_SHOWN = ("dp", "air", "exhaust-temperature", "exhaust-after", "engine-speed", "coolant",
          "boost", "barometer", "sensor-volts")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Offer:
    """What the page offers: the facts that each window would give, by its number, and where."""

    facts: Mapping[int, Mapping[str, str]]
    round: str
    case: str | None
    asks: bool = False


def readings_page(log: Log, flow: FlowPicture, offer: Offer) -> Page:
    """The whole page."""
    return page([
        *_head(log), BLANK, *_columns(log), BLANK, *_windows(log, offer), BLANK, *_flow(flow),
        *_next(log, offer),
    ])  # fmt: skip


def clock(seconds: float) -> Said:
    """`1:05` or `1:02:05`."""
    whole = round(seconds)
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    if hours:
        return say("{h}:{m}:{s}", h=hours, m=f"{minutes:02d}", s=f"{rest:02d}")
    return say("{m}:{s}", m=minutes, s=f"{rest:02d}")


def number(value: float) -> Said:
    """Three figures or so."""
    size = abs(value)
    text = f"{value:.0f}" if size >= 100 else f"{value:.1f}" if size >= 1 else f"{value:.2f}"
    return figure(text[1:] if text.startswith("-") and float(text) == 0 else text)


def point_said(point: str) -> Said:
    return say(t.POINTS.get(point, point))


def _head(log: Log) -> Iterator[Line]:
    one, many = t.HEAD
    name = clipped(say("{file}", file=log.file), 60)
    yield Line(
        say_count(one, many, count=log.rows, file=name, length=clock(log.length)), style=STRONG
    )
    digest = log.digest[:16]
    if log.begun is None:
        yield Line(say(t.NOT_DATED, digest=digest))
    else:
        begun = moment_said(log.begun, seconds=True)
        yield Line(say(t.BEGUN, begun=begun, digest=digest))


def _columns(log: Log) -> Iterator[Line]:
    yield Line(say(t.COLUMNS), style=HEADING)
    for column in log.columns:
        right = say(t.SAID) if column.said else say(t.SCORE, score=fixed(column.score, 2))
        yield Line(_column(column), indent=2, right=right)
    if log.unused:
        few = [f'"{name[:40]}"' for name in log.unused[:_MOST_UNUSED]]
        rest = len(log.unused) - len(few)
        names = ", ".join(few)
        said = say(t.UNUSED_MORE, names=names, count=rest) if rest else say(t.UNUSED, names=names)
        yield Line(said, indent=2, style=QUIET)
    doubtful = [c for c in log.columns if not c.said and c.role != "time"]
    if doubtful:
        least = min(doubtful, key=lambda column: column.score)
        yield Line(say(t.CORRECT, role=least.role), indent=2, style=QUIET)


def _column(column: Column) -> Said:
    name = column.name[:60]
    if column.scaling:
        return say(
            t.COLUMN_WORDS,
            role=column.role,
            name=name,
            pid=column.scaling,
            unit=unit_said(column.unit),
        )
    if column.unit:
        return say(t.COLUMN_UNIT, role=column.role, name=name, unit=unit_said(column.unit))
    return say(t.COLUMN, role=column.role, name=name)


def _windows(log: Log, offer: Offer) -> Iterator[Line]:
    yield Line(say(t.WINDOWS), style=HEADING)
    if not log.windows:
        yield Line(say(t.NO_WINDOWS), indent=2)
    for window in log.windows:
        yield from _window(window, offer)


def _window(window: Window, offer: Offer) -> Iterator[Line]:
    template = t.BURNING if window.regeneration else t.WINDOW
    said = say(
        template, point=point_said(window.point), length=_length(window), begins=clock(
            window.begins),
    )  # fmt: skip
    yield Line(said, indent=2, mark=f"{window.number:>2}  ", style=STRONG)
    for role in _SHOWN:
        if role in window.channels:
            yield _channel(role, window.channels[role])
    if window.apart:
        yield Line(say(t.APART, why=window.apart), indent=6)
    for doubt in window.doubts:
        yield Line(say(t.DOUBT, doubt=doubt), indent=6)
    if window.apart:
        return
    facts = offer.facts.get(window.number, {})
    if facts:
        listed = Said(", ".join(f"{slot} {typed_said(typed)}" for slot, typed in facts.items()))
        yield Line(say(t.GIVES, facts=listed), indent=6, style=QUIET)
    else:
        yield Line(say(t.GIVES_NOTHING), indent=6, style=QUIET)


def _channel(role: str, summary: Summary) -> Line:
    said = say(t.CHANNEL, role=role, mean=number(summary.mean), unit=unit_said(summary.unit))
    drift = f"{'+' if summary.drift >= 0 else ''}{number(summary.drift)}"
    right = say(t.SPREAD, spread=number(summary.spread), drift=drift, n=summary.n)
    return Line(Said(said.rstrip()), indent=6, right=right)


def _length(window: Window) -> Said:
    return say("{seconds} s", seconds=fixed(window.duration))


def _flow(flow: FlowPicture) -> Iterator[Line]:
    yield Line(say(t.FLOW), style=HEADING)
    if not any(point.flow > 0 for point in flow.points):
        yield Line(say(t.NO_FIT, why=say(t.NO_FLOW)), indent=2)
    else:
        for row in plot_rows(flow):
            yield Line(row, indent=2)
        yield Line(say(t.FLOW_AXES, marks=say(t.MARKS)), indent=2, style=QUIET)
        for letter, band in zip("abcdefgh", flow.bands, strict=False):
            yield Line(
                say(t.BAND, letter=letter, label=band.label, slope=fixed(band.slope, 2)), indent=2
            )
        if flow.resistance is not None:
            slots = {
                "resistance": fixed(flow.resistance.value, 3),
                "sd": fixed(2 * flow.resistance.sd, 3),
            }
            said = (
                say(t.FIT_NO_ZERO, **slots) if flow.zero is None
                else say(t.FIT, **slots, zero=number(flow.zero))
            )  # fmt: skip
            yield Line(said, indent=2)
    for remark in flow.remarks:
        yield Line(say(t.REMARK, remark=remark), indent=2)


def _next(log: Log, offer: Offer) -> Iterator[Line]:
    if offer.asks or not any(offer.facts.values()):
        return
    file = clipped(say("{file}", file=log.file), 60)
    yield BLANK
    yield Line(say(t.NEXT), style=HEADING)
    if offer.case is None:
        yield Line(say(t.NAME_CASE, file=file), indent=2)
    else:
        yield Line(say(t.TAKE, round=round_said(offer.round), file=file, case=offer.case), indent=2)
