"""Questions one to three: what is seen, how one knows it, and from what value it counts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_conventions import plain
from sootsayer.catalogue_numbers import number, unit_said
from sootsayer.commands.heard import folded, says
from sootsayer.commands.heard import one_of as one_heard
from sootsayer.commands.teaching.draft import Chosen, Counts, Draft, NewFact
from sootsayer.commands.teaching.finding_things import near, slot_labels
from sootsayer.commands.teaching.numbers import counts, example, possible_range
from sootsayer.commands.teaching.numbers import minutes as minutes_of
from sootsayer.commands.teaching.talk import NotTaken, Talk, one_of, text
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h
from sootsayer.console import rules_new_texts as t
from sootsayer.console.names import Names
from sootsayer.rulebook.conditions_from import CODE
from sootsayer.rulebook.model import Model, SignalKind
from sootsayer.rulebook.uses import Uses

NEW = "new"
MOST_SAID = 90


@dataclass(frozen=True, slots=True)
class Known:
    """The rules in force, and what things are called."""

    model: Model
    names: Names
    uses: Uses


def ask_sees(talk: Talk, draft: Draft) -> None:
    def read(typed: str) -> str:
        if len(typed.split()) < 2:
            raise NotTaken(say(t.SEES_SHORT), say(t.SEES_SHORT_NEXT))
        return text(MOST_SAID)(typed).rstrip(".")

    draft.says = talk.ask(say(t.SEES), say(t.SEES_HELP), read, draft.says or None, first=True)


def ask_fact(talk: Talk, draft: Draft, known: Known) -> None:
    labels = slot_labels(known.model, known.names)
    found: list[str] = []

    def read(typed: str) -> str | None:
        """The slot, `new`, a code, or None where a list is to be shown."""
        if says(typed, h.NEW) or CODE.fullmatch(typed.upper()):
            return typed.upper() if CODE.fullmatch(typed.upper()) else NEW
        if found and typed.isdigit():
            if not 1 <= int(typed) <= len(found):
                what = say(t.FACT_NUMBER, number=short(typed))
                raise NotTaken(what, say(t.FACT_NUMBER_NEXT, most=len(found)))
            return found[int(typed) - 1]
        hits = near(typed, labels)
        if not hits:
            raise NotTaken(say(t.FACT_NONE, words=short(typed)), say(t.FACT_NONE_NEXT))
        if hits == [typed]:
            return typed
        found[:] = hits
        return None

    chosen = talk.ask(say(t.FACT), say(t.FACT_HELP), read, first=True)
    while chosen is None:
        talk.tell(say(t.FACT_FOUND))
        talk.tell(*(_line(i, slot, labels) for i, slot in enumerate(found, start=1)))
        chosen = talk.ask(say(t.FACT_PICK), say(t.FACT_HELP), read)
    draft.fact = _new(talk) if chosen == NEW else _known(talk, known, labels, chosen)


def _line(count: int, slot: str, labels: dict[str, str]) -> Said:
    return say(t.FACT_LINE, number=count, label=labels[slot], slot=slot)


def _known(talk: Talk, known: Known, labels: dict[str, str], chosen: str) -> Chosen:
    if CODE.fullmatch(chosen):
        return Chosen(f"code:{chosen}", chosen, SignalKind.YES_NO, code=chosen)
    signal = known.model.signals[chosen.partition("@")[0]]
    talk.tell(say(t.FACT_TAKEN, label=labels[chosen], slot=chosen))
    readers = [user.id for user in known.uses.of(chosen) if user.what == "finding"]
    if readers:
        talk.tell(say(t.FACT_READERS, rules=", ".join(readers[:6])))
    unit = "" if signal.unit in (None, "none") else str(signal.unit)
    words = ("yes", "no") if signal.kind is SignalKind.YES_NO else signal.choices
    return Chosen(
        chosen, labels[chosen], signal.kind, unit, signal.step or 1.0, signal.possible, words,
        pack=signal.pack, said=signal.choice_words,
    )  # fmt: skip


def _new(talk: Talk) -> Chosen:
    kinds = {"1": SignalKind.YES_NO, "2": SignalKind.CHOICE, "3": SignalKind.NUMBER}
    kind = kinds[
        talk.ask(say(t.NEW_KIND), say(t.NEW_KIND_HELP), one_of(tuple(kinds), t.NEW_KIND_NEXT))
    ]
    label = talk.ask(say(t.NEW_NAME), say(t.NEW_NAME_HELP), text(70)).rstrip(".")
    words: tuple[str, ...] = ("yes", "no") if kind is SignalKind.YES_NO else ()
    possible, unit = None, ""
    if kind is SignalKind.CHOICE:
        words = talk.ask(say(t.NEW_WORDS), say(t.NEW_WORDS_HELP), _words)
    elif kind is SignalKind.NUMBER:
        possible, unit = talk.ask(say(t.NEW_UNIT), say(t.NEW_UNIT_HELP), possible_range)
    does = talk.ask(say(t.NEW_DOES), say(t.NEW_DOES_HELP), text(160)).rstrip(".")
    stages = {"1": "counter", "2": "scan", "3": "hands-on"}
    where = stages[
        talk.ask(say(t.NEW_WHERE), say(t.NEW_WHERE_HELP), one_of(tuple(stages), t.NEW_WHERE_NEXT))
    ]
    minutes = talk.ask(say(t.NEW_MINUTES), say(t.NEW_MINUTES_HELP), _minutes)
    caution = ""
    if where != "counter":
        caution = talk.ask(say(t.NEW_CAUTION), say(t.NEW_CAUTION_HELP), _caution(where))
    new = NewFact(kind, label, does, where, minutes, caution, words, possible, unit)
    return Chosen("", label, kind, unit, 1.0, possible, words, new)


def _words(typed: str) -> tuple[str, ...]:
    words = tuple(dict.fromkeys(" ".join(each.split()).casefold() for each in typed.split(",")))
    if len(words) < 2 or len(words) != len(typed.split(",")) or not all(words):
        raise NotTaken(say(t.NEW_WORDS_FEW), say(t.NEW_WORDS_NEXT))
    return words


def _minutes(typed: str) -> str:
    minutes = minutes_of(typed)
    if not 0.5 <= minutes <= 600:
        raise NotTaken(say(t.NEW_MINUTES_NOT), say(t.NEW_MINUTES_NEXT))
    return plain(minutes)


def _caution(where: str) -> Callable[[str], str]:
    def read(typed: str) -> str:
        if says(typed, h.NONE):
            if where == "hands-on":
                raise NotTaken(say(t.NEW_CAUTION_HANDS), say(t.NEW_CAUTION_HANDS_NEXT))
            return ""
        return text(160)(typed)

    return read


def _word(typed: str, fact: Chosen) -> str | None:
    """The word of the fact that a text is, by itself or as it is said."""
    if fact.kind is SignalKind.YES_NO:
        return one_heard(typed, {"yes": h.YES, "no": h.NO})
    wanted = folded(typed)
    return next((w for w in fact.words if wanted in (folded(fact.said.get(w, w)), folded(w))), None)


def ask_value(talk: Talk, draft: Draft) -> None:
    fact = draft.fact
    assert fact is not None
    if fact.code:
        draft.counts = Counts(words=("yes",))
        return
    if fact.kind is SignalKind.NUMBER:
        low, high = fact.possible or (None, None)
        help_ = say(
            t.VALUE_NUMBER_HELP, unit=unit_said(fact.unit) if fact.unit else say("plain numbers"),
            low="?" if low is None else number(low), high="?" if high is None else number(high),
        )  # fmt: skip
        question = say(t.VALUE_NUMBER, example=example(fact))
        draft.counts = talk.ask(question, help_, lambda typed: counts(typed, fact), first=True)
        return
    yes_no = fact.kind is SignalKind.YES_NO
    words = Said(", ".join(shown(fact.said.get(word, word)) for word in fact.words))
    question = say(t.VALUE_YES_NO) if yes_no else say(t.VALUE_WORDS, words=words)
    help_ = say(t.VALUE_YES_NO_HELP if yes_no else t.VALUE_WORDS_HELP)

    def read(typed: str) -> Counts:
        chosen = [_word(each, fact) for each in typed.split(",")]
        told = tuple(dict.fromkeys(word for word in chosen if word is not None))
        if None in chosen or len(told) >= len(fact.words):
            what = say(t.VALUE_WORDS_NOT, words=words)
            raise NotTaken(what, say(t.VALUE_WORDS_NEXT))
        return Counts(words=told)

    draft.counts = talk.ask(question, help_, read, first=True)
