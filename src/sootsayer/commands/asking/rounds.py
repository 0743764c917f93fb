"""Rounds: where readings go, and a new one after work on the vehicle."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.casework.model import Case
from sootsayer.catalogue import Said, say
from sootsayer.commands.asking.replies import plain, refused
from sootsayer.commands.asking.state import Reply, Session, Waiting
from sootsayer.commands.asking.values import NotUsable
from sootsayer.commands.heard import says
from sootsayer.commands.naming_rounds import ID, round_named
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.console.vocabulary import round_said

FIRST = "arrival"
_LONGEST = 80


def newest_round(case: Case) -> str:
    """The round begun last, else `arrival`; after work that no reading followed, a new one."""
    name, worked = FIRST, ""
    for entry in case.entries:
        if entry.work is not None and entry.corrects is None:
            worked = entry.work
        elif entry.round is not None and entry.corrects is None:
            name, worked = entry.round, ""
    return fresh_name(case, worked) if worked else name


def fresh_name(case: Case, work: str) -> str:
    """`after-` and the work, with a number where the case has such a round already."""
    used = {entry.round for entry in case.entries}
    base = f"after-{work}"[: _LONGEST - 4]
    name, number = base, 2
    while name in used:
        name, number = f"{base}-{number}", number + 1
    return name


def begin_round(session: Session, name: str, waiting: Waiting | None = None) -> Reply:
    """Readings from here on go into this round. Yes and no are answers and name none: yes takes the
    round that was proposed."""
    if waiting is not None and says(name, h.YES):
        name = waiting.default
    elif says(name, h.YES) or says(name, h.NO):
        named = say(t.BAD_ID_NEXT, example="after-clean")
        instead = say(t.ROUND_OR_ENTER, name=round_said(waiting.default)) if waiting else named
        return refused(replace(session, waiting=waiting), NotUsable(say(t.NO_NAME), instead))
    folded = round_named(name)
    if not ID.fullmatch(folded) or len(folded) > _LONGEST:
        why = NotUsable(say(t.BAD_ID, text=name[:40]), say(t.BAD_ID_NEXT, example="after-clean"))
        return refused(replace(session, waiting=waiting), why)
    after = replace(session, round=folded, question=None, later=(), past_enough=False, held="")
    return plain(after, [say(t.ROUND_BEGUN, round=round_said(folded))])


def ask_round(session: Session, work: str) -> tuple[Session, Said]:
    """The session that waits for the name of the round after this work."""
    name = fresh_name(session.case, work)
    text = say(t.ROUND_ASKED, name=round_said(name))
    return replace(session, waiting=Waiting("round", text, default=name)), text
