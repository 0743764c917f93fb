"""The handbook page of a remedy."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import number, with_unit
from sootsayer.console import rules_show_texts as t
from sootsayer.console.article import (
    Article,
    Book,
    article,
    known_part,
    listed,
    often,
    part,
    proofs_part,
)
from sootsayer.rulebook.model import Recheck, RemedyDef


def remedy_article(book: Book, id_: str) -> Article:
    remedy = book.model.remedies[id_]
    return article("remedy", id_, remedy.label, remedy.pack, [
        part(t.SAYS, _says(book, remedy)), part(t.DONE, _done(remedy)),
        part(t.AFTER, _after(remedy)),
        known_part(book, id_, remedy.basis, remedy.place, remedy.revision),
        proofs_part(book, remedy.applies_proofs),
    ])  # fmt: skip


def _says(book: Book, remedy: RemedyDef) -> Iterator[Said]:
    yield say("{does}.", does=remedy.does.rstrip("."))
    for fault, share in remedy.cures.items():
        yield say(t.CURES_FAULT, fault=fault, label=book.fault(fault), often=often(share))
    if remedy.needs_mended:
        yield say(t.NEEDS_MENDED, faults=listed(remedy.needs_mended))
    if remedy.hides_faults:
        yield say(t.COVERS_UP, faults=listed(remedy.hides_faults))
    if remedy.applies is not None:
        yield say(t.APPLIES, sentence=book.sentence(remedy.applies))


def _done(remedy: RemedyDef) -> Iterator[Said]:
    if remedy.caution:
        yield say(t.CAUTION, caution=remedy.caution)
    if remedy.by_actions:
        yield say(t.BY_ACTION, actions=listed(remedy.by_actions))
    low, high = number(remedy.minutes.lowest), number(remedy.minutes.highest)
    yield say(t.WORK_MINUTES_ONE if low == high else t.WORK_MINUTES, low=low, high=high)
    if remedy.parts is not None:
        parts = remedy.parts
        yield say(t.PARTS, low=number(parts.lowest), high=number(parts.highest))
    for count, step in enumerate(remedy.steps, start=1):
        template = t.STEP_CAUTION if step.caution else t.STEP
        yield say(template, number=count, does=step.does, caution=step.caution)
    for text in remedy.stop_when:
        yield say(t.STOP_WHEN, text=text)


def _after(remedy: RemedyDef) -> Iterator[Said]:
    for text in remedy.then:
        yield say(t.THEN, text=text)
    if remedy.verify_by:
        yield say(t.VERIFY, slots=listed(remedy.verify_by))
    if remedy.voids:
        yield say(t.VOIDS, channels=listed(remedy.voids))
    for again in remedy.rechecks:
        yield _again(again)
    if remedy.tell_the_customer:
        yield say(t.TELL, text=remedy.tell_the_customer)


def _again(again: Recheck) -> Said:
    if again.km is None:
        return say(t.RECHECK_DAYS, days=with_unit(number(again.days or 0), "days"))
    if again.days is None:
        return say(t.RECHECK_KM, km=number(again.km))
    return say(t.RECHECK_BOTH, km=number(again.km), days=with_unit(number(again.days), "days"))
