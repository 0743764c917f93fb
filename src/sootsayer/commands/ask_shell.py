"""The thin shell around a session: a line in, written to the disk, then what it led to.

An answer is acknowledged only when it stands on the disk. What cannot be written is said at once
with the line itself, so that it can be copied.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from sootsayer.casework.append import append_entries
from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.commands.ask_typing import Typing
from sootsayer.commands.asking.closing import closing_lines
from sootsayer.commands.asking.entering import reread
from sootsayer.commands.asking.state import Reply, Session
from sootsayer.commands.asking.step import opened, prompt, step
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.console import ask_texts as t
from sootsayer.console.paper import STRONG, Line, page
from sootsayer.console.screen import show
from sootsayer.documents.holding import Holder, still_holds
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.writing import CannotWrite, Changed

NOT_TAKEN = "{place}: this answer was not taken: {why}"
NOT_TAKEN_NEXT = "what came before it is kept; {instead}"
PUT_RIGHT = "put it right and go on from there"
_TRIES = 5


class _TakenOver(Exception):  # noqa: N818 (a state, not a mistake)
    def __init__(self, who: str) -> None:
        self.who = who


@dataclass(slots=True)
class Shell:
    """One session at one place. `mine` is None where the case can only be read."""

    path: Path
    typing: Typing
    clock: Callable[[], datetime]
    mine: Holder | None

    def run(self, session: Session) -> int:
        """Ask until the end. Raises Stop, where a file of answers holds one that was not taken."""
        reply = opened(session)
        _show(reply.says)
        session = reply.session
        while True:
            typed = self.typing.line(prompt(session))
            if typed is None:
                return self._end(session)
            before, (session, reply) = session, self._take(session, typed)
            if reply.ended:
                return self._end(session)
            _show(reply.says)
            if not reply.taken and not self.typing.interactive:
                why = reply.says[0].text if reply.says else say(t.NOTHING_ASKED)
                instead = reply.says[1].text if len(reply.says) > 1 else say(PUT_RIGHT)
                place = shown(self.typing.place)
                raise Stop(
                    say(NOT_TAKEN, place=place, why=why), say(NOT_TAKEN_NEXT, instead=instead)
                )
            del before

    def _take(self, session: Session, typed: str) -> tuple[Session, Reply]:
        """The line's reply once it is written; where the case has grown meanwhile, it is read again
        and the line taken anew."""
        grew: list[Line] = []
        for _ in range(_TRIES):
            reply = step(session, typed, self.clock())
            if not reply.writes:
                return reply.session, replace(reply, says=(*grew, *reply.says))
            try:
                self._write(session, reply.writes)
                return reply.session, replace(reply, says=(*grew, *reply.says))
            except Changed:
                session, lines = self._read_again(session)
                grew += lines
            except _TakenOver as other:
                self.mine = None
                return _not_written(session, reply, [Line(say(t.TAKEN_OVER, who=other.who))])
            except CannotWrite as refused:
                text = say(t.NOT_WRITTEN, why=refused.why)
                return _not_written(session, reply, [Line(text, style=STRONG)])
        return _not_written(
            session, reply, [Line(say(t.NOT_WRITTEN, why=say("it keeps changing")))]
        )

    def _write(self, session: Session, lines: Sequence[str]) -> None:
        if self.mine is None:
            raise CannotWrite(self.path, say(t.READ_ONLY))
        other = still_holds(self.path, self.mine)
        if other is not None:
            raise _TakenOver(other.who)
        append_entries(self.path, lines, was=session.data)

    def _read_again(self, session: Session) -> tuple[Session, list[Line]]:
        """The session on the file as it is now. Raises Refused where it is no case any more."""
        data = read_bytes(self.path, session.setting.file)
        before = len(session.case.entries)
        after = reread(session, data, self.clock())
        one, many = t.GREW
        return after, [Line(say_count(one, many, count=len(after.case.entries) - before))]

    def _end(self, session: Session) -> int:
        _show(closing_lines(session))
        return DONE


def _not_written(session: Session, reply: Reply, why: list[Line]) -> tuple[Session, Reply]:
    """The session as it was, and the lines on the screen, to be copied."""
    says = [*why, *(Line(say(t.NOT_WRITTEN_LINE, line=line), indent=2) for line in reply.writes)]
    says.append(Line(say(t.NOT_WRITTEN_NEXT, file=session.setting.file), mark="-> "))
    return session, Reply(session, tuple(says), taken=False)


def _show(lines: Sequence[Line]) -> None:
    if lines:
        show(page(lines), sys.stdout)


def kept(called: str) -> Said:
    """Said when it is broken off."""
    return say(t.KEPT, case=called)


__all__ = ["Refused", "Shell", "kept"]
