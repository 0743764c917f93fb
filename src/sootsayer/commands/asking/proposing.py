"""Which check is proposed next, and which of its facts are still to be had."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.casework.corrections import code_lists
from sootsayer.casework.facts import fact_sheet
from sootsayer.commands.asking.state import Question, Session
from sootsayer.console.ask_question import CODES


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
        if slot not in done and slot not in session.later:
            return Proposed(Question(giving(slot, session), slot))
    ranked = list(dict.fromkeys([*_begun(session), *open_checks(session)]))
    for times in (0, 1):
        for id_ in ranked:
            for slot in open_slots(id_, session, done):
                if session.later.count(slot) <= times:
                    return Proposed(Question(id_, slot))
    return Proposed(None)


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
    """Every open check, the one worth most first: the opening, what driving on waits for, then by
    what each tells per minute; with `--fixed`, in the customary order."""
    model, verdict = session.model, session.verdict
    opening = [id_ for group in model.opening for id_ in group.checks]
    driving = [id_ for lock in verdict.drive_on.unknown for id_ in lock.would_clear]
    if session.setting.fixed:
        ordered = [*model.customary_order, *sorted(model.checks)]
    else:
        ordered = [each.id for each in verdict.next_checks or ()]
    done = answered(session)
    ranked = dict.fromkeys([*opening, *driving, *ordered])
    return tuple(id_ for id_ in ranked if open_slots(id_, session, done))


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
    return sum(session.model.checks[id_].minutes for id_ in open_checks(session))
