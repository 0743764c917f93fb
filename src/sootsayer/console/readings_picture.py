"""A log and its windows as one self-contained SVG: no script, no reference to anything else."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.casework.logs.labels import label_of
from sootsayer.casework.logs.model import Log, Trace
from sootsayer.casework.logs.words import BY_ID
from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import fixed, unit_said
from sootsayer.console.readings_page import clock, number, point_said

_WIDE = 960
_LEFT, _RIGHT = 70, 20
_STRIP, _GAP = 110, 28
_FLOW_HIGH = 320
_INK, _ACCENT, _SHADE, _APART, _RULE = "#222222", "#00727a", "#cfe8e6", "#e4e0d6", "#bbbbbb"

TITLE = "Live data: {file}"
WINDOW_TITLE = "{number}: {point}, {seconds} s"
BURNING_TITLE = "{number}: regeneration under way, {point}, {seconds} s"
FLOW_TITLE = "Differential pressure [mbar] against flow [m3/h at the viscosity of 200 C]"
AXIS_TIME = "time from the first row"
CAPTION = "Shaded: windows; pale: kept apart. What the readings mean, the verdict says."
NO_FLOW = "No window has differential pressure and flow both."


def picture(log: Log, flow: FlowPicture) -> str:
    """The SVG, whole."""
    strips = [trace for trace in log.traces if trace.stretches]
    flow_top = 60 + len(strips) * (_STRIP + _GAP) + 40
    high = flow_top + _FLOW_HIGH + 90
    parts: list[str] = []
    for index, trace in enumerate(strips):
        parts += _strip(log, trace, 64 + index * (_STRIP + _GAP))
    if strips:
        parts += _time_axis(log, 64 + len(strips) * (_STRIP + _GAP) - _GAP)
    parts += flow_part(flow, flow_top)
    return document(say(TITLE, file=log.file), say(CAPTION), parts, high)


def document(title: Said, caption: Said | None, parts: Iterable[str], high: float) -> str:
    """The SVG, whole, `high` units: title and caption above its parts; without a caption the title
    is only told, not drawn."""
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {high}" '
            f'width="{_WIDE}" height="{high}" font-family="sans-serif" font-size="13" '
            f'fill="{_INK}" role="img">',
            f"<title>{_safe(title)}</title>",
            f'<rect width="{_WIDE}" height="{high}" fill="#ffffff"/>',
            *([] if caption is None else [_text(_LEFT, 26, title, size=17)]),
            *([] if caption is None else [_text(_LEFT, 44, caption, size=11)]),
            *parts,
            "</svg>\n",
        ]
    )


def _strip(log: Log, trace: Trace, top: float) -> Iterator[str]:
    length = log.length or 1.0
    lows = [low for _, low, _ in trace.stretches]
    highs = [high for _, _, high in trace.stretches]
    bottom, ceiling = min(lows), max(highs)
    ceiling = ceiling if ceiling > bottom else bottom + 1.0

    def x(time: float) -> float:
        return _LEFT + (_WIDE - _LEFT - _RIGHT) * time / length

    def y(value: float) -> float:
        return top + _STRIP - _STRIP * (value - bottom) / (ceiling - bottom)

    for window in log.windows:
        shade = _APART if window.apart else _SHADE
        template = BURNING_TITLE if window.regeneration else WINDOW_TITLE
        says = say(
            template, number=window.number, point=point_said(window.point),
            seconds=fixed(window.duration),
        )  # fmt: skip
        yield (
            f'<rect x="{x(window.begins):.1f}" y="{top:.1f}" '
            f'width="{max(x(window.ends) - x(window.begins), 1):.1f}" height="{_STRIP}" '
            f'fill="{shade}"><title>{_safe(says)}</title></rect>'
        )
        yield _text(x(window.begins) + 3, top + 13, shown(window.number), size=11)
    yield f'<rect x="{_LEFT}" y="{top:.1f}" width="{_WIDE - _LEFT - _RIGHT}" height="{_STRIP}" ' \
          f'fill="none" stroke="{_RULE}"/>'  # fmt: skip
    points: list[str] = []
    for time, low, high in trace.stretches:
        points.append(f"{x(time):.1f},{y(low):.1f}")
        if high != low:
            points.append(f"{x(time):.1f},{y(high):.1f}")
    yield f'<polyline fill="none" stroke="{_ACCENT}" stroke-width="1" points="{" ".join(points)}"/>'
    yield _text(_LEFT, top - 5, say("{label} [{unit}]", label=label_of(BY_ID[trace.role]),
                                    unit=unit_said(trace.unit)), size=12)  # fmt: skip
    yield _text(_LEFT - 6, top + 10, shown(number(ceiling)), size=11, anchor="end")
    yield _text(_LEFT - 6, top + _STRIP, shown(number(bottom)), size=11, anchor="end")


def _time_axis(log: Log, top: float) -> Iterator[str]:
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        x = _LEFT + (_WIDE - _LEFT - _RIGHT) * share
        anchor = "start" if share == 0 else "end" if share == 1 else "middle"
        yield _text(x, top + 16, clock(log.length * share), size=11, anchor=anchor)
    yield _text((_WIDE + _LEFT) / 2, top + 32, say(AXIS_TIME), size=11, anchor="middle")


def flow_part(flow: FlowPicture, top: float, *, brief: bool = False) -> Iterator[str]:
    """Pressure against flow with its bands, from `top` downward, about 400 units high.

    `brief`: for a small place: no heading, points by their number alone, all text twice as big.
    """
    size, wider = (22, 6) if brief else (11, 0)
    if not brief:
        yield _text(_LEFT, top, say(FLOW_TITLE), size=14)
    running = [point for point in flow.points if point.flow > 0]
    if not running:
        yield _text(_LEFT, top + 24, say(NO_FLOW), size=12)
        return
    far = _round_up(max(point.flow for point in running) * 1.05)
    most = _round_up(max(point.dp for point in flow.points) * 1.1)
    least = min(0.0, *(point.dp for point in flow.points))
    base = top + 16 + _FLOW_HIGH
    width = _WIDE - _LEFT - _RIGHT - 120

    def x(value: float) -> float:
        return _LEFT + width * value / far

    def y(value: float) -> float:
        return base - _FLOW_HIGH * (value - least) / (most - least)

    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        yield _line(x(far * share), base, x(far * share), base - _FLOW_HIGH, _RULE, 0.5)
        yield _text(x(far * share), base + 16 + wider, shown(number(far * share)), size, "middle")
        value = least + (most - least) * share
        yield _line(_LEFT, y(value), _LEFT + width, y(value), _RULE, 0.5)
        yield _text(_LEFT - 6, y(value) + 4, shown(number(value)), size, "end")
    for band in flow.bands:
        end = min(far, most / band.slope)
        yield _line(x(0), y(0), x(end), y(end * band.slope), _INK, 0.8, dashed=True)
        yield _text(x(end) + 4, y(end * band.slope) + 4, shown(band.label), size)
    inside = [(a, b) for a, b in flow.curve if least <= b <= most and a <= far]
    path = " ".join(f"{x(a):.1f},{y(b):.1f}" for a, b in inside)
    yield f'<polyline fill="none" stroke="{_ACCENT}" stroke-width="2" points="{path}"/>'
    for point in flow.points:
        half = 2 * point.sd
        at = x(point.flow)
        yield _line(at, y(max(point.dp - half, least)), at, y(min(point.dp + half, most)), _INK, 1)
        yield f'<circle cx="{at:.1f}" cy="{y(point.dp):.1f}" r="4" fill="{_ACCENT}"/>'
        says = say("{number} {point}", number=point.number, point=point_said(point.point))
        if brief:
            says = shown(point.number)
        yield _text(at + 7, y(point.dp) + 14 + wider, says, size)


def _round_up(value: float) -> float:
    if value <= 0:
        return 1.0
    size = 10.0 ** math.floor(math.log10(value))
    return next(size * step for step in (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10)
                if size * step >= value)  # fmt: skip


def _line(x: float, y: float, x2: float, y2: float, ink: str, width: float,
          dashed: bool = False) -> str:  # fmt: skip
    dash = ' stroke-dasharray="5 4"' if dashed else ""
    return (
        f'<line x1="{x:.1f}" y1="{y:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{ink}" '
        f'stroke-width="{width:g}"{dash}/>'
    )


def _text(x: float, y: float, said: Said, size: int = 13, anchor: str = "start") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" text-anchor="{anchor}">'
        f"{_safe(said)}</text>"
    )


def _safe(said: Said) -> str:
    """Already visible; now no mark of XML either."""
    return escape(said, {'"': "&quot;", "'": "&#39;"})
