"""The walk sheet, and entering what was written on it."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.catalogue import say
from sootsayer.commands.asking.proposing import answered, open_checks
from sootsayer.commands.asking.replies import plain
from sootsayer.commands.asking.state import Reply, Session
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_sheet import page_of
from sootsayer.interview.sheet import SheetLeg, sheet
from sootsayer.rulebook.model import Where


def sheet_legs(session: Session) -> tuple[SheetLeg, ...]:
    """The checks worth most that fit on one page, ordered for one walk."""
    return _page(session)[0]


def sheet_slots(session: Session) -> tuple[str, ...]:
    """The facts on the sheet, in its order."""
    lines = [line for leg in sheet_legs(session) for line in leg.lines]
    return tuple(dict.fromkeys(blank.slot for line in lines for blank in line.blanks))


def sheet_shown(session: Session) -> Reply:
    """The page. Nothing is put off or asked by printing it."""
    legs, left_out = _page(session)
    if not legs:
        return plain(session, [say(t.NOTHING_OPEN)])
    return Reply(session, page_of(session.case, session.model, legs, left_out))


def _page(session: Session) -> tuple[tuple[SheetLeg, ...], int]:
    """The legs, and how many open checks found no room."""
    checks, asked = _to_walk(session), answered(session)
    kept: tuple[SheetLeg, ...] = ()
    for count in range(1, len(checks) + 1):
        legs = sheet(session.model, checks[:count], asked)
        if not page_of(session.case, session.model, legs, 0, measured=True):
            return kept, len(checks) - count + 1
        kept = legs
    return kept, 0


def _to_walk(session: Session) -> list[str]:
    """What driving waits for, then all that is done at the vehicle, then what is asked at the
    counter: it has a place on the page only where there is room."""
    checks = session.model.checks
    ranked = open_checks(session)
    driving = [id_ for id_ in ranked if id_ in session.asks.driving]
    counter = [id_ for id_ in ranked if checks[id_].where is Where.COUNTER]
    at_vehicle = [id_ for id_ in ranked if id_ not in counter]
    return list(dict.fromkeys([*driving, *at_vehicle, *counter]))


def enter_sheet(session: Session) -> Reply:
    """Ask for everything on the sheet, in its order."""
    slots = sheet_slots(session)
    if not slots:
        return plain(session, [say(t.NOTHING_OPEN)])
    return Reply(replace(session, queue=slots, question=None, held=""))
