"""The walk sheet, and entering what was written on it."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.catalogue import say
from sootsayer.commands.asking.proposing import answered, open_checks
from sootsayer.commands.asking.replies import plain
from sootsayer.commands.asking.state import Reply, Session
from sootsayer.console import ask_texts as t
from sootsayer.console.ask_sheet import sheet_lines


def sheet_slots(session: Session) -> tuple[str, ...]:
    """The facts on the sheet that have no answer yet, in its order."""
    done = answered(session)
    checks = session.model.checks
    slots = [slot for id_ in open_checks(session) for slot in checks[id_].gives]
    return tuple(slot for slot in dict.fromkeys(slots) if slot not in done)


def sheet_shown(session: Session) -> Reply:
    return Reply(session, tuple(sheet_lines(session.case, session.model, open_checks(session))))


def enter_sheet(session: Session) -> Reply:
    """Ask for everything on the sheet, in its order."""
    slots = sheet_slots(session)
    if not slots:
        return plain(session, [say(t.NOTHING_OPEN)])
    return Reply(replace(session, queue=slots, question=None, held=""))
