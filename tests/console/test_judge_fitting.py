"""Fitting the short page from parts gives what fitting it whole gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from typing import Any, cast

import pytest

from sootsayer.catalogue import Said
from sootsayer.console.judge_fitting import MOST_LINES
from sootsayer.console.judge_page import judge_page, parts_of
from sootsayer.console.names import Names, names_of
from sootsayer.console.open_points import open_points
from sootsayer.console.paper import BLANK, Line, page, rows
from sootsayer.console.room import Room, granted, grants, least
from sootsayer.console.screen import drawn, plain_console
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from tests.console import verdicts as v
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration
from tests.laws.making_cases import rulebook

Pages = tuple[Verdict, Names]


def of_demonstration(name: str) -> Pages:
    case = demonstration(name)
    verdict = judge(case, rulebook(), now=closing_moment(case), planning=False)
    return verdict, names_of(rulebook().model, case, None)


def planted(name: str) -> Pages:
    make, names = v.ALL[name]
    return make(), names


EVERY: list[tuple[Callable[[str], Pages], str]] = [(planted, name) for name in sorted(v.ALL)]
EVERY += [(of_demonstration, name) for name in A_FEW[:4]]


def whole(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    """The page in one room, everything worded anew."""
    lines: list[Line] = []
    for part in parts_of(verdict, names, open_points(verdict, names)):
        lines += [BLANK] if lines and room.blanks else []
        lines += part.lines(room)
    return lines


def fitted_whole(verdict: Verdict, names: Names) -> list[Line]:
    """As the page is fitted, but each attempt is drawn to its last line and counted."""

    def fits(lines: list[Line]) -> bool:
        return drawn(page(lines)).count("\n") <= MOST_LINES

    count = len(open_points(verdict, names)[0])
    room = next((room for room in least(count) if fits(whole(verdict, names, room))), Room())
    for name, value in grants(count):
        roomier = granted(room, name, value)
        attempt = whole(verdict, names, roomier)
        if attempt == whole(verdict, names, room) or fits(attempt):
            room = roomier
    return whole(verdict, names, room)


@pytest.mark.parametrize(("made", "name"), EVERY)
def test_the_same_page_as_drawn_whole(made: Callable[[str], Pages], name: str) -> None:
    """Line for line what comes of wording and drawing the whole page at each attempt."""
    verdict, names = made(name)
    assert list(judge_page(verdict, names).lines) == fitted_whole(verdict, names)


class Watched:
    """A room that notes what of it is looked at."""

    def __init__(self, room: Room) -> None:
        self._room = room
        self.seen: set[str] = set()

    def __getattr__(self, name: str) -> Any:
        self.seen.add(name)
        return getattr(self._room, name)


@pytest.mark.parametrize(("made", "name"), EVERY)
def test_a_part_looks_at_nothing_else(made: Callable[[str], Pages], name: str) -> None:
    """Else it would be taken for the same in a room in which it is another."""
    verdict, names = made(name)
    still_open = open_points(verdict, names)
    room = Room()
    told = {"blanks"}
    for wish in grants(len(still_open[0])):
        room = granted(room, *wish)
        for part in parts_of(verdict, names, still_open):
            watched = Watched(room)
            part.lines(cast("Room", watched))
            assert watched.seen <= set(part.reads)
            told |= set(part.reads)
    assert told == {each.name for each in fields(Room)}


@pytest.mark.parametrize(
    "line",
    [
        Line(Said("a" * 80)),
        Line(Said("a" * 81)),
        Line(Said("a " * 39), indent=2),
        Line(Said("a " * 40), indent=2),
        Line(Said("word " * 15), mark="+ ", indent=2),
        Line(Said("word " * 16), mark="+ ", indent=2),
        Line(Said("a" * 66), right="10 % █████·····"),
        Line(Said("a" * 60), right="10 % █████·····"),
        Line(Said("a" * 64), right="10 % █████·····"),
        Line(Said("a" * 10), right="b" * 41),
        Line(Said("a" * 39), right="b" * 41),
        Line(Said("中" * 40)),
        Line(Said("中" * 41)),
        Line(Said("é" * 80)),
        Line(Said("e\u0301" * 80)),
        Line(Said("two\nlines")),
        Line(Said("held\u00a0" * 16 + "b")),
        Line(Said("")),
        BLANK,
    ],
)
def test_counted_as_drawn(line: Line) -> None:
    """A line takes as many lines as it has when it is drawn."""
    assert rows(line, plain_console(), 80) == drawn(page([line])).count("\n")
