"""Which check is proposed next, and which of its facts are still to be had."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.casework.corrections import code_lists
from sootsayer.casework.facts import fact_sheet
from sootsayer.commands.asking.state import Question, Session
from sootsayer.console.ask_question import CODES
from sootsayer.judgement.verdict import InterlockSaid, Permitted, Reason


@dataclass(frozen=True, slots=True)
class Proposed:
    """`question` None: nothing is left to ask. `best`: where nothing left is worth its minutes,
    the check that is worth most all the same, with its gain in bit."""

    question: Question | None
    best: str = ""
    gain: float = 0.0


def answered(session: Session) -> frozenset[str]:
    """Slots with an answer of any kind in the session's round or for the whole visit."""
    sheet = fact_sheet(session.case, session.model, in_round=session.round)
    read = any(one.root.round == session.round for one in code_lists(session.case))
    asked = (CODES,) if read or session.codes_asked else ()
    return frozenset((*sheet.by_source, *asked))


def open_slots(id_: str, session: Session, done: frozenset[str]) -> tuple[str, ...]:
    """What a check gives that has no answer yet, in the check's own order."""
    return tuple(slot for slot in session.model.checks[id_].gives if slot not in done)


def proposed(session: Session) -> Proposed:
    """The next question: what is queued, the rest of the check begun, then by worth; what was put
    off comes when nothing else is left."""
    done = answered(session)
    for slot in session.queue:
        if slot not in session.later:
            return Proposed(Question(giving(slot, session), slot, afresh=slot in done))
    for times in (0, 1):
        for id_ in (*_begun(session), *_ranked(session)):
            for slot in open_slots(id_, session, done):
                if session.later.count(slot) <= times:
                    return Proposed(Question(id_, slot))
        for slot in aged(session):
            if session.later.count(slot) <= times:
                return Proposed(Question(giving(slot, session), slot, afresh=True))
    worth = session.asks.worth
    return Proposed(None, worth.check, worth.bits) if stops(session) else Proposed(None)


def stops(session: Session) -> bool:
    """Whether the asking ends by itself here: something is left, and none of it worth its time."""
    free = session.past_enough or session.setting.fixed
    return not free and bool(session.asks.worth.check) and not session.asks.worth.go_on


def _ranked(session: Session) -> tuple[str, ...]:
    """What is proposed: all that is open, or, where the rest is not worth its minutes, only what
    the opening and the permission to drive still want."""
    asks = session.asks
    if session.setting.fixed:
        return asks.fixed
    first = (*(step.check for step in asks.opening), *asks.driving)
    return first if stops(session) else tuple(dict.fromkeys([*first, *worthwhile(session)]))


def worthwhile(session: Session) -> tuple[str, ...]:
    """The checks that tell something, with what has to follow them, the most useful first; once
    the technician goes on beyond that, also what the interlocks of work wait for."""
    asks = session.asks
    telling = [id_ for each in asks.next_checks for id_ in (each.id, *each.then)]
    return tuple(dict.fromkeys([*telling, *(asks.clearing if session.past_enough else ())]))


def aged(session: Session) -> tuple[str, ...]:
    """What driving on rests on and was read too long ago."""
    locks = session.verdict.drive_on.unknown
    return _told_by(session, [lock for lock in locks if lock.reason is Reason.TOO_OLD])


def waited_for(session: Session, action: str) -> tuple[str, ...]:
    """The slots that an action waits for: unknown, or read too long ago."""
    permission = next((p for p in session.verdict.permissions if p.action == action), None)
    if permission is None:
        return ()
    done = answered(session)
    locks = [lock for lock in permission.interlocks if lock.state is Permitted.NOT_YET_CLEAR]
    checks = [id_ for lock in locks for id_ in lock.would_clear]
    awaited = [slot for id_ in checks for slot in open_slots(id_, session, done)]
    awaited += [slot for lock in locks for slot in lock.awaits if _can_ask(session, slot)]
    old = _told_by(session, [lock for lock in locks if lock.reason is Reason.TOO_OLD])
    return tuple(dict.fromkeys([*(slot for slot in awaited if slot not in done), *old]))


def _told_by(session: Session, locks: list[InterlockSaid]) -> tuple[str, ...]:
    slots = [ground.slot for lock in locks for ground in lock.grounds if ground.entry]
    return tuple(dict.fromkeys(slot for slot in slots if _can_ask(session, slot)))


def _can_ask(session: Session, slot: str) -> bool:
    return any(slot in check.gives for check in session.model.checks.values())


def _begun(session: Session) -> tuple[str, ...]:
    """The check that stands on the screen is finished first."""
    return (session.shown_check,) if session.shown_check in session.model.checks else ()


def giving(slot: str, session: Session) -> str:
    """The quickest check that gives a slot, "" where none does; the one on the screen first."""
    checks = [each for each in session.model.checks.values() if slot in each.gives]
    if any(each.id == session.shown_check for each in checks):
        return session.shown_check
    return min(checks, key=lambda each: (each.minutes, each.id)).id if checks else ""


def open_checks(session: Session) -> tuple[str, ...]:
    """Every open check, the one worth most first: the opening, what driving on waits for, what
    tells something, what work waits for; with `--fixed`, in the customary order."""
    asks = session.asks
    if session.setting.fixed:
        ranked = asks.fixed
    else:
        opening = (step.check for step in asks.opening)
        ranked = (*opening, *asks.driving, *worthwhile(session), *asks.clearing)
    done = answered(session)
    return tuple(id_ for id_ in dict.fromkeys(ranked) if open_slots(id_, session, done))


def minutes_spent(session: Session) -> float:
    """The minutes of the checks that were done: those of which some fact has a value."""
    sheet = fact_sheet(session.case, session.model, in_round=session.round)
    known = {
        slot
        for slot, facts in sheet.by_source.items()
        if facts[0].absence is None and facts[0].entry  # what the header says took no minutes
    }
    return sum(
        check.minutes for check in session.model.checks.values() if known.intersection(check.gives)
    )


def minutes_left(session: Session) -> float:
    """The minutes of what is still worth asking."""
    asks = session.asks
    checks = session.model.checks
    first = dict.fromkeys([*(step.check for step in asks.opening), *asks.driving])
    return sum(checks[id_].minutes for id_ in first) + asks.worth.minutes
