"""The short page of a verdict: a colleague's note that fits 80 columns and 24 lines."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.open_points import first_of_kind, leads, open_points
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, clipped, page
from sootsayer.console.screen import PLAIN_WIDTH, plain_console
from sootsayer.console.words import (
    BAR_CELLS,
    KINDS,
    confidence,
    drive_said,
    gauge,
    permitted_said,
)
from sootsayer.judgement.verdict import ChannelState, FaultSaid, Permitted, Verdict

# The screen's 24 lines less one for the prompt that comes after.
MOST_LINES = 23

# What says how many were left out: of one, of many.
Left = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Room:
    """How much of each list the page may show; `text`, `side`, `check` are lengths in characters.

    `side`: of what is said beside the point (instruments, set aside). `after`: whether the
    second fault of a kind is named.
    """

    reasons: int = 1
    weighed: int = 1
    each: int = 1
    sides: int = 1
    checks: int = 0
    shut: int = 0
    text: int = 74
    side: int = 76
    check: int = 76
    after: bool = False
    blanks: bool = False


# What is granted, one after another, while the page still fits; what stays out is counted.
_GRANTS: tuple[dict[str, int], ...] = (
    {"checks": 1},
    {"reasons": 2},
    {"text": 150},
    {"weighed": 2},
    {"sides": 2},
    {"side": 152},
    {"each": 2},
    {"checks": 2},
    {"check": 150},
    {"weighed": 3},
    {"after": 1},
    {"shut": 1},
    {"side": 228},
    {"each": 3},
    {"checks": 3},
    {"blanks": 1},
    {"sides": 4},
    {"reasons": 6},
    {"each": 6},
    {"checks": 6},
    {"shut": 6},
    {"side": 300, "text": 300, "check": 300},
)


def judge_page(verdict: Verdict, names: Names) -> Page:
    """The page for one verdict. What it holds never depends on the width it is drawn at."""
    measure = plain_console()
    room = Room()
    drawn = page(_lines(verdict, names, room))
    for grant in _GRANTS:
        roomier = replace(room, **grant)  # type: ignore[arg-type]
        attempt = page(_lines(verdict, names, roomier))
        if attempt.fits(measure, PLAIN_WIDTH, MOST_LINES):
            room, drawn = roomier, attempt
    return drawn


def _lines(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    gap = [BLANK] if room.blanks else []
    lines = [Line(clipped(bits.header(verdict, names), PLAIN_WIDTH), style=QUIET)]
    lines += bits.warnings(verdict)
    lines += gap + _drive(verdict, room)
    lines += gap + _know(verdict, names, room)
    lines += gap + _why(verdict, room)
    lines += gap + _next(verdict, names, room)
    return lines


def _drive(verdict: Verdict, room: Room) -> list[Line]:
    answer = drive_said(verdict.drive_on.state)
    lines = [Line(say(t.DRIVE, answer=answer), style=STRONG)]
    lines += _short(
        bits.drive_reasons(verdict.drive_on), room.reasons, max(room.text, 150), t.LEFT_REASONS
    )
    caution = bits.drive_caution(verdict)
    if caution:
        # A caution is never cut, whatever it costs in lines.
        lines.append(Line(say(t.CAUTION, caution=caution), indent=2))
    return lines


def _know(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    lines = [Line(say(t.KNOW), style=HEADING)]
    for kind in KINDS:
        lines += _kind(verdict, kind, room)
    lines.append(Line(clipped(bits.well_line(verdict, names), room.side), indent=2))
    said = _instruments(verdict, names)
    return lines + _short(said, room.sides, room.side, t.LEFT_INSTRUMENTS)


def _instruments(verdict: Verdict, names: Names) -> list[Said]:
    """Those that lie, with what is set aside for it; those corrected; those proven, in one line.

    Whatever is merely unproven waits in `What next`, or stands in the way of `well`.
    """
    aside = bits.set_aside_by_channel(verdict)
    said = [bits.aside_line(id_, found, verdict, names) for id_, found in aside.items()]
    proven: list[Said] = []
    for channel in verdict.channels:
        if channel.state is ChannelState.PROVEN:
            proven.append(shown(channel.label))
        elif channel.state is not ChannelState.UNPROVEN and channel.id not in aside:
            said.append(bits.channel_line(channel, verdict, names))
    return said + ([say(t.PROVEN, labels=listed(proven))] if proven else [])


def _kind(verdict: Verdict, kind: str, room: Room) -> list[Line]:
    """One sentence for a kind of fault, and the fault after it where that is worth a line."""
    faults = [fault for fault in verdict.faults if fault.kind == kind]
    none = verdict.none.get(kind, 0.0)
    if leads(verdict, faults[0] if faults else None):
        label, after = clipped(shown(faults[0].label), room.text), faults[1:]
        sure = faults[0].confidence
        text = say(t.KIND[kind], label=label, confidence=confidence(sure))
    else:
        after, sure = faults, none
        text = say(t.KIND_NONE[kind], confidence=confidence(none))
    lines = [_gauged(text, sure)]
    if room.after and after and after[0].confidence >= 0.2:
        label = clipped(shown(after[0].label), room.text)
        more = say(t.RUNNER_UP, label=label, confidence=confidence(after[0].confidence))
        lines.append(_gauged(more, after[0].confidence, indent=4))
    return lines


def _gauged(text: Said, probability: float, indent: int = 2) -> Line:
    return Line(text, indent=indent, right=gauge(probability), bar=BAR_CELLS)


def _why(verdict: Verdict, room: Room) -> list[Line]:
    weighed = _weighed(verdict)
    heading = say(t.WHY)
    if len(weighed) > room.weighed:
        heading = say(t.WHY_CUT, shown=room.weighed, count=len(weighed))
    lines = [Line(heading, style=HEADING)]
    for fault in weighed[: room.weighed]:
        lines += _for_and_against(fault, leads(verdict, fault), room)
    return lines if weighed else [*lines, Line(say(t.NOTHING), indent=2)]


def _weighed(verdict: Verdict) -> list[FaultSaid]:
    """The leading faults; then, of kinds where none leads, what speaks against the first."""
    firsts = [fault for kind in KINDS if (fault := first_of_kind(verdict, kind)) is not None]
    leading = [fault for fault in firsts if leads(verdict, fault)]
    others = [fault for fault in firsts if not leads(verdict, fault) and fault.against]
    return leading + others


def _for_and_against(fault: FaultSaid, leading: bool, room: Room) -> list[Line]:
    """A heading that counts, and the weightiest of both sides."""
    pluses, minuses = fault.for_ if leading else (), fault.against
    whole, cut = _WEIGHED[bool(pluses), bool(minuses)]
    is_cut = max(len(pluses), len(minuses)) > room.each
    heading = say(
        cut if is_cut else whole,
        label=clipped(shown(fault.label), room.text),
        plus=min(room.each, len(pluses)),
        pluses=len(pluses),
        minus=min(room.each, len(minuses)),
        minuses=len(minuses),
    )
    lines = [Line(heading, indent=2)]
    for mark, items in (("+ ", pluses), ("- ", minuses)):
        for item in items[: room.each]:
            lines.append(Line(clipped(bits.contribution(item), room.text), indent=4, mark=mark))
    return lines


# By whether anything speaks for and against: the heading, whole and cut.
_WEIGHED = {
    (True, True): (t.WEIGHED, t.WEIGHED_CUT),
    (True, False): (t.WEIGHED_FOR, t.WEIGHED_FOR_CUT),
    (False, True): (t.WEIGHED_AGAINST, t.WEIGHED_AGAINST_CUT),
    (False, False): (t.WEIGHED_NOT, t.WEIGHED_NOT),
}


def _next(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    points, every_shut = open_points(verdict, names)
    shut = [bits.shut_said(point) for point in every_shut if point.refusal is not None]
    slots = {"shown": min(room.checks, len(points)), "count": len(points)}
    heading = say(t.NEXT)
    if len(shut) > room.shut and not points:
        heading = say(t.NEXT_ONLY_SHUT, shut=len(shut) - room.shut)
    elif len(shut) > room.shut:
        heading = say(t.NEXT_SHUT, **slots, shut=len(shut) - room.shut)
    elif len(points) > room.checks:
        heading = say(t.NEXT_CUT, **slots)
    lines = [Line(heading, style=HEADING)]
    lines += _other_permissions(verdict, room)
    for point in points[: room.checks]:
        lines += bits.point_lines(point, room.check)
    lines += [Line(clipped(text, room.side), indent=2) for text in shut[: room.shut]]
    if not points and not shut and len(lines) == 1:
        lines.append(Line(say(t.NOTHING_OPEN), indent=2))
    return [*lines, _more(verdict)]


def _other_permissions(verdict: Verdict, room: Room) -> list[Line]:
    """Actions other than driving on that something blocks; with their cautions."""
    lines: list[Line] = []
    for item in verdict.permissions:
        if item.action == bits.DRIVE_ON or item.state is not Permitted.BLOCKED:
            continue
        lock = bits.deciding(item)
        slots = {"does": item.does, "state": permitted_said(item.state)}
        text = say(t.PERMISSION, **slots)
        if lock is not None:
            text = say(t.PERMISSION_BECAUSE, **slots, reason=bits.reason(lock))
        lines.append(Line(clipped(text, max(room.text, 150)), indent=2))
        if item.caution:
            lines.append(Line(say(t.CAUTION, caution=item.caution), indent=4))
    return lines


def _more(verdict: Verdict) -> Line:
    first = next(iter(_weighed(verdict)), None) or next(iter(verdict.faults), None)
    thing = first.id if first else bits.DRIVE_ON
    return Line(say(t.MORE, case=verdict.case, thing=thing), style=QUIET)


def _short(texts: list[Said], most: int, length: int, left: Left) -> list[Line]:
    """The first few of a list, and honestly how many more there are."""
    lines = [Line(clipped(text, length), indent=2) for text in texts[:most]]
    more = len(texts) - most
    if more > 0:
        one, many = left
        lines.append(Line(say_count(one, many, count=more), indent=2, style=QUIET))
    return lines
