"""The handbook pages of findings, families, limits and interlocks."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import number, unit_said
from sootsayer.console import rules_show_texts as t
from sootsayer.console.article import (
    Article,
    Book,
    Part,
    article,
    given_part,
    known_part,
    listed,
    part,
    proofs_part,
    spread_said,
    used_part,
    words_listed,
)
from sootsayer.console.vocabulary import round_said
from sootsayer.rulebook.model import FindingDef
from sootsayer.rulebook.reads import (
    channels_behind,
    condition_slots,
    facts_behind,
    family_of,
    levels_of,
    members_of,
    readings_behind,
)


def finding_article(book: Book, id_: str) -> Article:
    finding = book.model.findings[id_]
    family = family_of(book.model, id_)
    return article("finding", id_, finding.says, finding.pack, [
        part(t.SAYS, _says(book, finding)),
        known_part(book, id_, finding.basis, finding.place, finding.revision),
        _read(book, id_),
        _seen(book, id_ if id_ in book.model.evidence else family),
        used_part(book, id_),
        proofs_part(book, finding.proofs, finding.id),
    ])  # fmt: skip


def _says(book: Book, finding: FindingDef) -> Iterator[Said]:
    if finding.when is not None:
        yield say(t.TRUE_WHEN, sentence=book.sentence(finding.when))
    else:
        yield from _levels(book, finding)
    if finding.applies is not None:
        yield say(t.APPLIES_FINDING, sentence=book.sentence(finding.applies))
    if finding.in_round:
        yield say(t.IN_ROUND, round=round_said(finding.in_round))
    if finding.tests_channel and finding.corrects_by:
        yield say(t.CORRECTS, channel=finding.tests_channel, slot=finding.corrects_by)
    elif finding.tests_channel:
        yield say(t.TESTS, channel=finding.tests_channel)
    family = family_of(book.model, finding.id)
    if family != finding.id:
        members = members_of(book.model, family)
        rank = members.index(finding.id) + 1
        yield say(t.FAMILY, family=family, rank=rank, of=len(members))
    if finding.acquits_at:
        yield say(t.ACQUITS, levels=words_listed(book, finding.id, finding.acquits_at))
    if finding.apart_because:
        yield say(t.APART, why=finding.apart_because)


def _levels(book: Book, finding: FindingDef) -> Iterator[Said]:
    of = finding.of or ""
    cuts = [book.operand(cut, book.units.get(of, "")) for cut in finding.cuts]
    words = book.words.get(finding.id, {})
    for rank, level in enumerate(words.get(each, each) for each in finding.levels):
        if rank == 0:
            yield say(t.LEVEL_FIRST, level=level, slot=of, high=cuts[0])
        elif rank == len(cuts):
            yield say(t.LEVEL_LAST, level=level, slot=of, low=cuts[-1])
        else:
            yield say(t.LEVEL, level=level, slot=of, low=cuts[rank - 1], high=cuts[rank])


def _read(book: Book, *findings: str) -> Part:
    slots = dict.fromkeys(
        read
        for slot in facts_behind(book.model, *findings)
        for read in readings_behind(book.model, slot)
    )
    return given_part(book, slots)


def _seen(book: Book, target: str) -> Part:
    """What is seen with what, and what hides it."""
    block = book.model.evidence.get(target)
    lines: list[Said] = []
    if block is not None:
        levels, words = levels_of(book.model, target), book.words.get(target)
        for fault, spread in block.seen_with.items():
            slots = {"often": spread_said(spread, levels, words), "label": book.fault(fault)}
            lines.append(say(t.FAULT_LINK, fault=fault, **slots))
        lines.append(say(t.OTHERWISE, often=spread_said(block.otherwise, levels, words)))
    for hider in book.model.faults.values():
        if target in hider.hides:
            levels, words = levels_of(book.model, target), book.words.get(target)
            often = spread_said(hider.hides[target], levels, words)
            lines.append(say(t.HIDES, fault=hider.id, label=hider.label, often=often))
    return part(t.SEEN, lines)


def family_article(book: Book, id_: str) -> Article:
    family = book.model.families[id_]
    channels = channels_behind(book.model, *family.members)
    return article("family", id_, family.label, family.pack, [
        part(t.SAYS, [
            say(t.MEMBERS, members=listed(family.members)),
            say(t.LEVELS, levels=words_listed(book, id_, family.levels)),
            *(say(t.CHANNEL_OF, channel=each, source=say(t.ANY_SOURCE)) for each in channels),
        ]),
        known_part(book, id_, None, family.place),
        _read(book, *family.members),
        _seen(book, id_),
    ])  # fmt: skip


def limit_article(book: Book, id_: str) -> Article:
    limit = book.model.limits[id_]
    unit = "" if limit.unit == "none" else limit.unit
    return article("limit", id_, limit.label, limit.pack, [
        part(t.SAYS, [say(t.DEFAULT, value=number(limit.default), unit=unit_said(unit))]),
        known_part(book, id_, limit.basis, limit.place),
        used_part(book, id_),
    ])  # fmt: skip


def interlock_article(book: Book, id_: str) -> Article:
    lock = book.model.interlocks[id_]
    says = [
        say(t.HOLDS_WHEN, sentence=book.sentence(lock.holds)),
        say(t.NOT_WHEN, text=lock.when_not),
    ]
    if lock.applies is not None:
        says.append(say(t.APPLIES, sentence=book.sentence(lock.applies)))
    if lock.within_minutes is not None:
        says.append(say(t.WITHIN, minutes=number(lock.within_minutes)))
    if lock.ask:
        says.append(say(t.ASK, checks=listed(lock.ask)))
    slots = [
        read
        for slot in condition_slots(lock.holds)
        for fact in facts_behind(book.model, slot)
        for read in readings_behind(book.model, fact)
    ]
    users = [
        say(t.USER, what=say(t.USER_KIND["action"]), id=action.id)
        for action in book.model.actions.values()
        if id_ in (*action.needs, *action.heeds)
    ]
    return article("interlock", id_, lock.says, lock.pack, [
        part(t.SAYS, says),
        known_part(book, id_, lock.basis, lock.place, lock.revision),
        given_part(book, slots),
        part(t.USED, users),
        proofs_part(book, (*lock.proofs, *lock.applies_proofs)),
    ])  # fmt: skip


def code_article(book: Book, code: str) -> Article:
    slot = f"code:{code}"
    return article("code", code, "", "", [used_part(book, slot), given_part(book, [slot])])


def retired_article(book: Book, id_: str) -> Article:
    gone = book.model.retired[id_]
    template = t.SUCCESSOR if gone.successor else t.NO_SUCCESSOR
    lines = [say(template, id=gone.successor, why=shown(gone.why))]
    return article("retired", id_, "", gone.pack, [
        part(t.SAYS, lines), known_part(book, id_, None, gone.place),
    ])  # fmt: skip
