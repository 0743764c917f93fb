"""Lines that pages over an archive share: what was counted, what was not, and columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.console import archive_texts as t
from sootsayer.console.paper import HEADING, QUIET, STRONG, Line, clipped
from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.counted import Counted
from sootsayer.learning.backtest.tally import Examples

_EACH = 2  # files named of each kind


def drawn_lines(archive: Counted) -> Iterator[Line]:
    """That cases were drawn, where any were: always the first thing said."""
    if archive.drawn:
        one, many = t.DRAWN
        yield Line(say_count(one, many, count=archive.drawn), style=STRONG)


def cases_said(archive: Counted, folder: str) -> Said:
    one, many = t.FILES
    return say_count(one, many, count=archive.replayed, folder=folder)


def nothing_lines(folder: str) -> Iterator[Line]:
    yield Line(say(t.NOTHING, folder=folder), indent=2)
    yield Line(say(t.NOTHING_NEXT), indent=2)


def left_lines(archive: Counted, *, each: int = _EACH) -> Iterator[Line]:
    """What was not replayed: how many of each kind, and the first of them by name."""
    count = sum(archive.left.values())
    if not count and not archive.torn:
        return
    yield Line(say(t.LEFT_HEADING, count=count), style=HEADING)
    for why in Left:
        if archive.left[why]:
            one, many = t.LEFT[why.value]
            yield Line(say_count(one, many, count=archive.left[why]), indent=2)
            yield from _named(archive, why, each)
    if archive.torn:
        one, many = t.TORN
        yield Line(say_count(one, many, count=archive.torn), indent=2)


def _named(archive: Counted, why: Left, each: int) -> Iterator[Line]:
    named = [one for one in archive.named if one.why is why]
    for one in named[:each]:
        template = t.TWICE if why is Left.TWICE else t.NAMED if one.detail else t.NAMED_ALONE
        said = say(template, file=one.name, case=one.case, detail=one.detail)
        yield Line(clipped(said, 150), indent=4, style=QUIET)
    if named and archive.left[why] > each:
        yield Line(say(t.AND_MORE, count=archive.left[why] - each), indent=4, style=QUIET)


def examples_said(examples: Examples, most: int = 3) -> Said:
    """The first cases by name, and how many more."""
    cases = ", ".join(examples.cases[:most])
    if examples.count <= most:
        return say(t.CASES_NAMED, cases=cases)
    return say(t.CASES_MORE, cases=cases, count=examples.count - most)


def columns(cells: Sequence[object], widths: Sequence[int]) -> Said:
    """Cells side by side; a negative width is set to the right. What is too long is cut."""
    parts = []
    for cell, width in zip(cells, widths, strict=True):
        text = clipped(shown(cell), abs(width))
        parts.append(text.rjust(-width) if width < 0 else text.ljust(width))
    return Said("  ".join(parts).rstrip())
