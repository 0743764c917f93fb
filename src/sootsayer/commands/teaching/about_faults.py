"""Questions four to seven: with which faults, how often otherwise, how one knows, which cases."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.catalogue import Said, say
from sootsayer.commands.heard import says
from sootsayer.commands.teaching.about_fact import NEW, Known
from sootsayer.commands.teaching.draft import Draft, Linked, NewFault, Shown
from sootsayer.commands.teaching.finding_things import fault_labels, near
from sootsayer.commands.teaching.numbers import how_often
from sootsayer.commands.teaching.talk import NotTaken, Talk, one_of, text
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h
from sootsayer.console import rules_new_texts as t
from sootsayer.console.vocabulary import FREQUENCY, id_said
from sootsayer.console.words import value_said
from sootsayer.rulebook.frequencies import WORDS

NONE = "none"
MOST_LINKS = 12
BASES = {"1": "shop", "2": "common practice", "3": "memory", "4": "published"}

Readings = Mapping[str, "float | str | None"]  # case id to what it reads, None for nothing


def ask_links(talk: Talk, draft: Draft, known: Known) -> None:
    """Faults with how often, the first one wanted, then more until `none`."""
    links: list[Linked] = []
    while len(links) < MOST_LINKS:
        link = _link(talk, known, links)
        if link is None:
            break
        links.append(link)
    draft.links = tuple(links)


def _link(talk: Talk, known: Known, links: list[Linked]) -> Linked | None:
    labels = fault_labels(known.model)
    found: list[str] = []

    def read(typed: str) -> str | None:
        if says(typed, h.NEW):
            return NEW
        if links and (says(typed, h.NONE) or says(typed, h.NO)):
            return NONE
        if found and typed.isdigit() and 1 <= int(typed) <= len(found):
            return _unused(found[int(typed) - 1], links)
        hits = near(typed, labels)
        if not hits:
            raise NotTaken(say(t.FAULT_NONE, words=short(typed)), say(t.FAULT_NONE_NEXT))
        if hits == [typed]:
            return _unused(typed, links)
        found[:] = hits
        return None

    question = say(t.FAULT_MORE if links else t.FAULT)
    default = NONE if links else None
    chosen = talk.ask(question, say(t.FAULT_HELP), read, default, first=not links)
    while chosen is None:
        talk.tell(*(
            say(t.FAULT_LINE, number=i, label=labels[fault], fault=fault)
            for i, fault in enumerate(found, start=1)
        ))  # fmt: skip
        chosen = talk.ask(say(t.FAULT_PICK), say(t.FAULT_HELP), read)
    if chosen == NONE:
        return None
    new = _new_fault(talk) if chosen == NEW else None
    if new is None:
        talk.tell(say(t.FACT_TAKEN, label=labels[chosen], slot=chosen))
    words = Said(", ".join(id_said(FREQUENCY, word) for word in WORDS))
    written, share = talk.ask(say(t.OFTEN, words=words), say(t.OFTEN_HELP), how_often)
    if new is not None:
        return Linked("", new.label, written, share, new)
    return Linked(chosen, labels[chosen], written, share)


def _unused(fault: str, links: list[Linked]) -> str:
    if any(link.fault == fault for link in links):
        raise NotTaken(say(t.FAULT_TWICE, fault=fault), say(t.FAULT_TWICE_NEXT))
    return fault


def _new_fault(talk: Talk) -> NewFault:
    label = talk.ask(say(t.NEW_FAULT), say(t.NEW_FAULT_HELP), text(60)).rstrip(".")
    kinds = {"1": "measurement", "2": "condition", "3": "cause"}
    kind = kinds[
        talk.ask(
            say(t.NEW_FAULT_KIND), say(t.NEW_FAULT_KIND_HELP), one_of(tuple(kinds), t.THREE_NEXT)
        )
    ]  # fmt: skip
    prior, _ = talk.ask(say(t.NEW_FAULT_PRIOR), say(t.OFTEN_HELP), how_often)
    return NewFault(label, kind, prior)


def ask_otherwise(talk: Talk, draft: Draft) -> None:
    def read(typed: str) -> str:
        written, share = how_often(typed)
        for link in draft.links:
            if share >= link.share:
                what = say(t.OTHERWISE_MORE, fault=link.label, often=link.often)
                raise NotTaken(what, say(t.OTHERWISE_MORE_NEXT))
        return written

    draft.otherwise = talk.ask(say(t.OTHERWISE), say(t.OTHERWISE_HELP), read, "rarely", first=True)


def ask_know(talk: Talk, draft: Draft) -> None:
    read = one_of(tuple(BASES), t.KNOW_NEXT)
    draft.basis = BASES[talk.ask(say(t.KNOW), say(t.KNOW_HELP), read, first=True)]
    draft.source = ""
    if draft.basis == "published":
        draft.source = talk.ask(say(t.SOURCE), say(t.SOURCE_HELP), text())


def ask_source(talk: Talk, draft: Draft) -> None:
    """Which cases the shop knows it from, where none was named one by one."""
    if draft.basis == "shop":
        draft.source = talk.ask(say(t.SOURCE_CASES), say(t.SOURCE_CASES_HELP), text())


def ask_cases(talk: Talk, draft: Draft, readings: Readings, folder: str) -> None:
    """The cases that show it, with what each reads."""
    fact, counts = draft.fact, draft.counts
    assert fact is not None
    assert counts is not None

    def read(typed: str) -> tuple[Shown, ...]:
        if says(typed, h.NONE):
            return ()
        return tuple(_reads(each.strip()) for each in typed.split(",") if each.strip())

    def _reads(case: str) -> Shown:
        if case not in readings:
            what = say(t.CASES_NOT, case=short(case))
            raise NotTaken(what, say(t.CASES_NOT_NEXT, folder=folder))
        value = readings[case]
        if value is None:
            what = say(t.CASES_SILENT, case=case, slot=fact.slot or fact.label)
            raise NotTaken(what, say(t.CASES_SILENT_NEXT))
        return Shown(case, value)

    usable = [case for case, value in readings.items() if value is not None]
    there_are = ", ".join(usable[:12]) or say("none with this reading")
    help_ = say(t.CASES_HELP, cases=there_are)
    draft.shown = talk.ask(say(t.CASES), help_, read, NONE, first=True)
    if not draft.shown:
        ask_source(talk, draft)
    elif draft.basis == "shop":
        draft.source = say(t.SOURCE_NAMED, cases=", ".join(each.case for each in draft.shown))
    truths = [counts.holds(each.value) for each in draft.shown]
    for each, truth in zip(draft.shown, truths, strict=True):
        value = value_said(each.value, fact.unit, fact.said)
        talk.tell(say(t.CASES_SAY, case=each.case, value=value, truth=_truth(truth)))
    if truths and not any(truths):
        talk.tell(say(t.CASES_ALL_NO))


def _truth(truth: bool) -> Said:
    return say("yes") if truth else say("no")
