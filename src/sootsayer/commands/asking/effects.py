"""What each answer to a question would change: said by judging the case with that answer in it."""

from __future__ import annotations

from datetime import datetime

from sootsayer.commands.asking.state import Question, Session
from sootsayer.console.paper import Line


def effect_lines(session: Session, question: Question, now: datetime) -> list[Line]:
    del session, question, now
    return []
