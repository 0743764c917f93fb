"""The end of a session: the verdict, what is unproven, the next command."""

from __future__ import annotations

from sootsayer.catalogue import listed, say, shown
from sootsayer.commands.asking.state import Session
from sootsayer.console import ask_texts as t
from sootsayer.console.judge_page import judge_page
from sootsayer.console.paper import BLANK, STRONG, Line
from sootsayer.judgement.verdict import ChannelState

_PROVEN = (ChannelState.PROVEN, ChannelState.CORRECTED)


def closing_lines(session: Session) -> tuple[Line, ...]:
    """Drawn last; the case goes on from here whenever it is asked again."""
    verdict = session.verdict
    lines = [BLANK, *judge_page(verdict, session.names).lines, BLANK]
    unproven = [shown(each.label) for each in verdict.channels if each.state not in _PROVEN]
    if unproven:
        lines.append(Line(say(t.UNPROVEN, labels=listed(unproven))))
    unknown = [shown(lock.says) for lock in verdict.drive_on.unknown]
    if unknown:
        lines.append(Line(say(t.OPEN_INTERLOCKS, says=listed(unknown))))
    called = shown(session.setting.called)
    lines.append(Line(say(t.KEPT, case=called)))
    next_one = say("{command} {case}", command=session.setting.next_command, case=called)
    lines.append(Line(say(t.NEXT, command=next_one), style=STRONG))
    return tuple(lines)
