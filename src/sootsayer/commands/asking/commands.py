"""What can be typed that is no answer: back, change, note, codes, work, show, done, ..."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from sootsayer.casework.append import entry_line
from sootsayer.casework.model import Absence
from sootsayer.catalogue import say, say_count
from sootsayer.commands.asking.answering import SLIP, codes_told, enter, put_off
from sootsayer.commands.asking.codes import told_codes
from sootsayer.commands.asking.entering import any_standing, with_lines
from sootsayer.commands.asking.lexicon import near_misses, slot_named
from sootsayer.commands.asking.proposing import answered, giving, waited_for
from sootsayer.commands.asking.replies import plain, refused, written
from sootsayer.commands.asking.rounds import ask_round, begin_round
from sootsayer.commands.asking.sheet import enter_sheet, sheet_shown
from sootsayer.commands.asking.showing import (
    all_help,
    answers_shown,
    facts_shown,
    full_view,
    more_view,
    open_shown,
    question_help,
    why_shown,
)
from sootsayer.commands.asking.state import Item, Question, Reply, Session
from sootsayer.commands.asking.understood import understood
from sootsayer.commands.asking.values import NotUsable, is_choice, is_later, read_answer
from sootsayer.commands.heard import says
from sootsayer.commands.naming_rounds import ID
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.console.ask_question import CODES
from sootsayer.console.vocabulary import round_said
from sootsayer.console.words import permitted_said
from sootsayer.documents.problems import Refused

Handler = Callable[[Session, str, datetime], Reply]


def command(session: Session, typed: str, now: datetime) -> Reply | None:
    """The reply to a command; None where the line is none, or is an answer to the question."""
    alone = next((handler for ways, handler in _ALONE if says(typed, ways)), None)
    if alone is not None:
        return None if _is_answer(session, typed) else alone(session, "", now)
    if _names_fact(session, typed):
        return None
    word, _, rest = typed.partition(" ")
    handler = next((handler for ways, handler in _WITH_MORE if says(word, ways)), None)
    return handler(session, rest.strip(), now) if handler is not None and rest.strip() else None


def _is_answer(session: Session, typed: str) -> bool:
    """Whether the word is one of the answers to the question that is open."""
    if session.question is None or session.question.slot == CODES:
        return False
    return is_choice(typed, session.model.signals[session.question.slot.partition("@")[0]])


def _names_fact(session: Session, typed: str) -> bool:
    """A signal may be called like a command; its id wins."""
    return typed.partition(" ")[0] in session.model.signals


def _back(session: Session, rest: str, now: datetime) -> Reply:
    del rest, now
    for index in range(len(session.last) - 1, -1, -1):
        slot = session.last[index]
        if any_standing(slot, session) is not None:
            earlier = replace(session, last=session.last[:index], held="")
            return _asked(earlier, slot, changes=True)
    slots = [said.slot for entry in session.case.entries for said in entry.said]
    if not session.last and slots and session.question is not None and not session.question.changes:
        return _asked(session, slots[-1], changes=True)
    return refused(session, NotUsable(say(t.NO_BACK), say(t.NO_BACK_NEXT)))


def _asked(session: Session, slot: str, *, changes: bool = False) -> Reply:
    question = Question(giving(slot, session), slot, named=True, changes=changes)
    return Reply(replace(session, question=question, shown_check=""))


def _go(session: Session, rest: str, now: datetime) -> Reply:
    """`go on` goes on asking; `go THING` jumps to a fact or a check."""
    del now
    if says(rest, h.ON):
        held = session.held
        past = session.past_enough or held == "enough"
        return Reply(replace(session, held="", past_enough=past, question=None))
    if says(rest, h.CODES):
        return _asked(replace(session, held="", codes_asked=False), CODES)
    checks = session.model.checks
    name = "-".join(rest.casefold().split())
    if name in checks:
        gives = checks[name].gives
        left = [slot for slot in gives if slot not in answered(session)] or list(gives)
        free = replace(session, held="", queue=(*left[1:], *session.queue))
        question = Question(name, left[0], named=True)
        return Reply(replace(free, question=question, shown_check=""))
    if name in session.model.actions:
        return _for_action(session, name)
    slots = slot_named(rest, session.model)
    if len(slots) == 1:
        return _asked(replace(session, held=""), slots[0])
    if slots:
        what = say(t.SEVERAL_MEANT, text=rest[:40])
        return refused(session, NotUsable(what, say(t.SEVERAL_MEANT_NEXT, names=", ".join(slots))))
    return refused(session, _no_thing(session, rest))


def _for_action(session: Session, action: str) -> Reply:
    """What the action waits for is asked next."""
    does = session.model.actions[action].does
    slots = waited_for(session, action)
    if not slots:
        state = next((p.state for p in session.verdict.permissions if p.action == action), None)
        how = permitted_said(state) if state is not None else say(t.NOTHING_OPEN)
        return plain(session, [say(t.WAITS_NOT, does=does, state=how)])
    after = replace(session, queue=slots, question=None, held="")
    return plain(after, [say_count(*t.WAITS, count=len(slots), does=does)])


def _go_on(session: Session, rest: str, now: datetime) -> Reply:
    del rest
    return _go(session, "on", now)


def _no_thing(session: Session, rest: str) -> NotUsable:
    near = near_misses(rest, session.model)
    instead = say(t.DID_YOU_MEAN, near=" / ".join(near)) if near else say(t.NO_THING_NEXT)
    return NotUsable(say(t.NO_THING, text=rest[:40]), instead)


def _change(session: Session, rest: str, now: datetime) -> Reply:
    """`change dp@idle 34 hPa` corrects; `change dp@idle` asks it again."""
    slots = slot_named(rest, session.model)
    if len(slots) == 1:
        if any_standing(slots[0], session) is None:
            return refused(session, _not_answered(slots[0]))
        return _asked(session, slots[0], changes=True)
    parts = understood(rest, session)
    if parts is None:
        return refused(session, _no_thing(session, rest))
    items: list[Item] = []
    for part in parts:
        if isinstance(part, NotUsable):
            return refused(session, part)
        if not isinstance(part, Item):
            what = say(t.NO_FACT, text=rest[:40])
            return refused(session, NotUsable(what, say(t.NO_VALUE_NEXT, id=f"{part.signal}@idle")))
        stood = any_standing(part.slot, session)
        if stood is None:
            return refused(session, _not_answered(part.slot))
        items.append(replace(part, source=stood.root.source))
    return enter(session, items, now, SLIP)


def _not_answered(slot: str) -> NotUsable:
    return NotUsable(say(t.NOT_ANSWERED, slot=slot), say(t.NOT_ANSWERED_NEXT, slot=slot))


def _forget(session: Session, rest: str, now: datetime) -> Reply:
    """Takes an answer back: nothing of it remains, and it is asked again."""
    slots = slot_named(rest, session.model)
    if not slots:
        return refused(session, _no_thing(session, rest))
    standing = [(slot, any_standing(slot, session)) for slot in slots]
    found = [(slot, one) for slot, one in standing if one is not None]
    if not found:
        return refused(session, _not_answered(slots[0]))
    if len(found) > 1:
        names = ", ".join(slot for slot, _ in found)
        what = say(t.SEVERAL_MEANT, text=rest[:40])
        return refused(session, NotUsable(what, say(t.SEVERAL_MEANT_NEXT, names=names)))
    slot, one = found[0]
    return enter(session, [Item(slot, one.root.source, absence=Absence.NOT_ASKED)], now, SLIP)


def _note(session: Session, rest: str, now: datetime) -> Reply:
    line = entry_line(at=now, by=session.by, note=rest)
    after = with_lines(session, (line,), now)
    text = say(t.WRITTEN_NOTE, entry=len(after.case.entries))
    return Reply(after, plain(after, [text]).says, (line,))


def _codes(session: Session, rest: str, now: datetime) -> Reply:
    draft = told_codes(rest)
    if isinstance(draft, NotUsable):
        return refused(session, draft)
    return codes_told(session, draft, now)


def _work(session: Session, rest: str, now: datetime) -> Reply:
    """Work that was done; readings after it belong to a new round."""
    name = "-".join(rest.casefold().split())
    remedies = session.model.remedies
    if not ID.fullmatch(name) or (remedies and name not in remedies):
        from difflib import get_close_matches

        near = get_close_matches(name[:80], remedies, n=3, cutoff=0.5) or list(remedies)[:8]
        why = NotUsable(
            say(t.NO_WORK, text=rest[:40]), say(t.NO_WORK_NEXT, known=", ".join(near) or "none")
        )
        return refused(session, why)
    line = entry_line(at=now, by=session.by, work=name)
    try:
        after = with_lines(session, (line,), now)
    except Refused:  # the case is closed
        return refused(session, NotUsable(say(t.NO_WORK, text=name), say(t.NO_NOTE_NEXT)))
    said = say(t.WRITTEN_WORK, work=name, entry=len(after.case.entries))
    reply = written(session, after, [], {}, (line,), said)
    queue = remedies[name].verify_by if name in remedies else ()
    waiting, text = ask_round(replace(reply.session, queue=queue, question=None), name)
    says = list(reply.says)
    if queue:
        says += plain(waiting, [say(t.VERIFY, slots=", ".join(queue))]).says
    return Reply(waiting, (*says, *plain(waiting, [text]).says), (line,))


def _round(session: Session, rest: str, now: datetime) -> Reply:
    del now
    return begin_round(session, rest)


def _round_is(session: Session, rest: str, now: datetime) -> Reply:
    del rest, now
    return plain(session, [say(t.ROUND_IS, round=round_said(session.round))])


def _by(session: Session, rest: str, now: datetime) -> Reply:
    del now
    if not ID.fullmatch(rest) or len(rest) > 80:
        why = NotUsable(say(t.BAD_ID, text=rest[:40]), say(t.BAD_ID_NEXT, example="tech-2"))
        return refused(session, why)
    return plain(replace(session, by=rest), [say(t.BY_IS, by=rest)])


def _done(session: Session, rest: str, now: datetime) -> Reply:
    del rest, now
    return Reply(session, ended=True)


def _again(session: Session, rest: str, now: datetime) -> Reply:
    """`again dp@idle 26 hPa`: read once more, so both readings stand and the later counts."""
    parts = understood(rest, session)
    if parts is None:
        return refused(session, _no_thing(session, rest))
    good = [part for part in parts if not isinstance(part, NotUsable)]
    if len(good) < len(parts):
        return refused(session, next(part for part in parts if isinstance(part, NotUsable)))
    return enter(session, good, now, "again")


def _whole_check(session: Session, rest: str, now: datetime) -> Reply:
    """`all cannot: no tool`, `all do not know`, `all later`: of every open fact of the check."""
    question = session.question
    if question is None or question.slot == CODES or question.check not in session.model.checks:
        return refused(session, NotUsable(say(t.NOTHING_ASKED), say(t.NOTHING_ASKED_NEXT)))
    if is_later(rest):
        return put_off(session, whole=True)
    done = answered(session)
    from sootsayer.commands.asking.understood import default_source

    items = []
    for slot in session.model.checks[question.check].gives:
        if slot in done:
            continue
        source = default_source(slot, session.model, question.check)
        item = read_answer(rest, slot, source, session.case, session.setting)
        if isinstance(item, NotUsable):
            return refused(session, item)
        items.append(item)
    return enter(session, items, now)


def _why(session: Session, rest: str, now: datetime) -> Reply:
    return why_shown(session, rest, now, lambda thing: _no_thing(session, thing))


def _what(session: Session, rest: str, now: datetime) -> Reply:
    slots = slot_named(rest, session.model)
    if len(slots) == 1:
        question = Question(giving(slots[0], session), slots[0])
        return question_help(session, question, now)
    if "-".join(rest.split()) in session.model.checks:
        check = session.model.checks["-".join(rest.split())]
        return question_help(session, Question(check.id, check.gives[0]), now)
    return refused(session, _no_thing(session, rest))


def _what_now(session: Session, rest: str, now: datetime) -> Reply:
    del rest
    if session.question is None:
        return all_help(session)
    return question_help(session, session.question, now)


def _shows(draw: Callable[[Session], Reply]) -> Handler:
    def shown_only(session: Session, rest: str, now: datetime) -> Reply:
        del rest, now
        return draw(session)

    return shown_only


def _facts(session: Session, rest: str, now: datetime) -> Reply:
    del now
    return facts_shown(session, rest)


_ALONE: tuple[tuple[str, Handler], ...] = (
    ("?", _what_now),
    (h.HELP_ALL, _shows(all_help)),
    (h.BACK, _back),
    (h.SHOW, _shows(full_view)),
    (h.MORE, _shows(more_view)),
    (h.ANSWERS, _shows(answers_shown)),
    (h.OPEN, _shows(open_shown)),
    (h.FACTS, _shows(facts_shown)),
    (h.SHEET, _shows(sheet_shown)),
    (h.ENTER_SHEET, _shows(enter_sheet)),
    (h.ROUND, _round_is),
    (h.GO_ON, _go_on),
    (h.DONE, _done),
)
_WITH_MORE: tuple[tuple[str, Handler], ...] = (
    ("?", _what),
    (h.BACK_TO, _change),
    (h.GO, _go),
    (h.CHANGE, _change),
    (h.AGAIN_FACT, _again),
    (h.FORGET, _forget),
    (h.FACTS, _facts),
    (h.NOTE, _note),
    (h.CODES, _codes),
    (h.WORK, _work),
    (h.ROUND, _round),
    (h.BY, _by),
    (h.ALL, _whole_check),
    (h.WHY, _why),
)
