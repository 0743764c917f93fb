"""The short page of a verdict: a colleague's note that fits 80 columns and 24 lines."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import judge_texts as t
from sootsayer.console.judge_fitting import Part, fitted
from sootsayer.console.judge_know import DRIVE_READS, KNOW_READS, drive_lines, know_lines
from sootsayer.console.judge_why import WHY_READS, Worded, weighed, why_lines
from sootsayer.console.names import Names
from sootsayer.console.open_points import OpenPoint, ShutPoint, open_points
from sootsayer.console.paper import HEADING, QUIET, Line, Page, page
from sootsayer.console.readings import reason
from sootsayer.console.room import Room
from sootsayer.console.words import permitted_said
from sootsayer.judgement.verdict import PermissionSaid, Permitted, Verdict

# In characters: about two lines.
_SHORT_CAUTION = 150

_NEXT_READS = ("checks", "whole", "tells", "shut", "blocked")

Open = tuple[list[OpenPoint], list[ShutPoint]]


def judge_page(verdict: Verdict, names: Names) -> Page:
    """The page for one verdict. What it holds never depends on the width it is drawn at."""
    still_open = open_points(verdict, names)
    return page(fitted(parts_of(verdict, names, still_open), len(still_open[0])))


def parts_of(verdict: Verdict, names: Names, still_open: Open) -> list[Part]:
    """The parts, top to bottom, each with what of the room it depends on."""
    head = [Line(bits.header_short(verdict, names), style=QUIET), *bits.warnings(verdict)]
    declined = bits.declined_lines(verdict)
    worded = Worded(verdict, names)
    return [
        Part((), lambda _: head),
        Part(DRIVE_READS, lambda room: drive_lines(verdict, names, room)),
        Part(KNOW_READS, lambda room: know_lines(verdict, names, room) + declined),
        Part(WHY_READS, lambda room: why_lines(worded, room)),
        Part(_NEXT_READS, lambda room: _next(verdict, names, still_open, room)),
    ]


def _next(verdict: Verdict, names: Names, still_open: Open, room: Room) -> list[Line]:
    points, every_shut = still_open
    shut = [bits.shut_said(point) for point in every_shut if point.refusal is not None]
    chosen = [index for index in range(len(points)) if index in room.checks]
    heading, left = say(t.NEXT), len(shut) - room.shut
    if left > 0 and not points:
        heading = say_count(*t.NEXT_ONLY_SHUT, count=left)
    elif left > 0:
        heading = say_count(*t.NEXT_SHUT, count=left, shown=len(chosen), of=len(points))
    elif len(points) > len(chosen):
        heading = say(t.NEXT_CUT, shown=len(chosen), count=len(points))
    lines = [Line(heading, style=HEADING)]
    lines += _blocked(verdict, names, room)
    for index in chosen:
        point = points[index]
        if index in room.whole or not point.check.caution:
            lines += bits.point_lines(point, room.tells)
        else:
            lines.append(bits.point_named(point, verdict.case, room.tells))
    lines += [Line(text, indent=2) for text in shut[: room.shut]]
    if not points and not shut and len(lines) == 1:
        lines.append(Line(say(t.NOTHING_OPEN), indent=2))
    return [*lines, _more(verdict)]


def _blocked(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    """Actions other than driving on that something blocks: told with reason and caution, or, where
    the caution is long, only named by their ids, in one sentence that says where both stand."""
    lines: list[Line] = []
    named: list[Said] = []
    for item in verdict.permissions:
        if item.action == bits.DRIVE_ON or item.state is not Permitted.BLOCKED:
            continue
        if room.blocked or len(item.caution) <= _SHORT_CAUTION:
            lines += _told(item, verdict, names)
        else:
            named.append(shown(item.action))
    if named:
        lines.append(Line(say(t.BLOCKED, actions=listed(named), first=named[0]), indent=2))
    return lines


def _told(item: PermissionSaid, verdict: Verdict, names: Names) -> list[Line]:
    lock = bits.deciding(item)
    slots = {"does": item.does, "state": permitted_said(item.state)}
    text = say(t.PERMISSION, **slots)
    if lock is not None:
        text = say(t.PERMISSION_BECAUSE, **slots, reason=reason(lock, verdict.limits, names))
    lines = [Line(text, indent=2)]
    return lines + ([Line(say(t.CAUTION, caution=item.caution), indent=4)] if item.caution else [])


def _more(verdict: Verdict) -> Line:
    first = next(iter(weighed(verdict)), None) or next(iter(verdict.faults), None)
    thing = first.id if first else bits.DRIVE_ON
    return Line(say(t.MORE, case=shown(verdict.case), thing=thing), style=QUIET)
