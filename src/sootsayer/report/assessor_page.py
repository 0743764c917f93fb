"""The page for an assessor: one record, told so that a stranger can follow it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.console import records_said, records_texts
from sootsayer.console.names import Names, names_of
from sootsayer.console.vocabulary import state_said
from sootsayer.ledger import headlines
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import mappings, part, text, whole
from sootsayer.ledger.replay_model import Explained, Replayed, Why
from sootsayer.report import assessor_texts as t
from sootsayer.report.assessor_steps import known_blocks
from sootsayer.report.sheet import Block, Caution, Items, Section, Sheet, Text


@dataclass(frozen=True, slots=True)
class Assessed:
    """What the page draws: the record, its way entry by entry, whether it came out the same again,
    and the outcomes that point back to it, oldest first."""

    record: Record
    explained: Explained
    again: Replayed
    outcomes: Sequence[Record]

    @property
    def names(self) -> Names:
        """What things were called in the rulebook of that day."""
        found = self.explained
        if found.rulebook is None or found.case is None:
            return Names()
        return names_of(found.rulebook, found.case)

    @property
    def body(self) -> dict[str, Any]:
        return self.record.body

    @property
    def told(self) -> dict[str, Any]:
        return part(self.body, "verdict")


def assessor_page(of: Assessed) -> Sheet:
    """The sheet."""
    body, record = of.body, of.record
    under = say(
        t.UNDER,
        vehicle=text(body, "case", "vehicle") or say("vehicle"),
        time=records_said.time_said(text(body, "at")),
        by=text(body, "by"),
        moment=records_said.time_said(text(body, "judged_at")),
        entry=whole(of.told, "as_of", "entry") or 0,
        program=text(body, "program"),
    )
    sections = [
        Section(say(t.KNOWN), tuple(known_blocks(of.explained, of.names))),
        Section(say(t.ADVISED), tuple(_advised(of))),
        Section(say(t.ALLOWED), tuple(_allowed(of))),
        *_cautions(of),
        Section(say(t.DECIDED), tuple(_decided(of))),
        Section(say(t.CAME), tuple(_came(of))),
        Section(say(t.RESTS), (Items(tuple(_rests(of))),)),
    ]
    foot = say(t.FOOT, number=record.number, digest=record.line.digest)
    title = say(t.TITLE, number=record.number, case=record.case)
    return Sheet(t.ID, title, under, tuple(sections), foot)


def _advised(of: Assessed) -> Iterator[Block]:
    yield Text(records_said.advised(of.told)[0], strong=True)
    yield Items(tuple(records_said.leads(of.told)))
    planned = mappings(of.told.get("plan"))
    if planned:
        yield Text(say(t.WORK))
        yield Items(tuple(_work(each) for each in planned))
    else:
        yield Text(records_said.first_work(of.told))
    checks = mappings(of.told.get("next_checks"))
    first = checks[0].get("does") if checks else None
    yield Text(say(t.NEXT, does=first) if first else say(t.NOTHING_NEXT))


def _work(each: dict[str, Any]) -> Said:
    state = state_said(str(each.get("state")))
    return say(t.WORK_ONE, label=each.get("label") or each.get("remedy"), state=state)


def _allowed(of: Assessed) -> Iterator[Block]:
    for each in mappings(of.told.get("permissions")):
        state = records_said.permission(text(each, "state"))
        yield Text(say(t.ALLOWED_ONE, does=each.get("does"), state=state), strong=True)
        locks = mappings(each.get("interlocks"))
        told = []
        for reason, template in t.REASON.items():
            said = [_lock(lock, of.names) for lock in locks if lock.get("reason") == reason]
            told += [say(template, locks=listed(said))] if said else []
        yield Items(tuple(told))


def _lock(lock: dict[str, Any], names: Names) -> Said:
    forbids = lock.get("reason") == "does-not-hold"
    says = (lock.get("when_not") if forbids else None) or lock.get("says")
    readings = [
        say(t.READING, label=g.get("label"), typed=_typed(g, names), entry=g.get("entry"))
        for g in mappings(lock.get("grounds"))
    ]
    return (
        say(t.LOCK, says=says, readings=listed(readings))
        if readings
        else say(t.LOCK_BARE, says=says)
    )


def _typed(ground: dict[str, Any], names: Names) -> Said:
    return names.typed(text(ground, "slot"), text(ground, "typed"))


def _cautions(of: Assessed) -> Iterator[Section]:
    names = headlines.labels(of.told)
    told = tuple(
        Caution(say(t.CAUTION, of=names.get(name, name)), shown(text(each, "caution")))
        for each in mappings(of.body.get("cautions"))
        if (name := text(each, "of"))
    )
    if told:
        yield Section(say(t.CAUTIONS), told)


def _decided(of: Assessed) -> Iterator[Block]:
    decided = of.body.get("decided")
    if decided is None:
        yield Text(say(t.NOT_ASKED))
    elif not decided:
        yield Text(say(t.AS_ADVISED))
    else:
        no_why = say(t.NO_WHY)
        yield Items(
            tuple(
                say(t.OTHERWISE, what=text(d, "what"), why=text(d, "why") or no_why)
                for d in mappings(decided)
            )
        )


def _came(of: Assessed) -> Iterator[Block]:
    if not of.outcomes:
        yield Text(say(t.NOTHING_CAME))
    for each in of.outcomes:
        done = tuple(_done(work) for work in mappings(each.body.get("done")))
        yield Items((*done, *_outcome(each, of.names)))


def _done(work: dict[str, Any]) -> Said:
    time = records_said.time_said(text(work, "at"))
    return say(t.DONE, time=time, by=text(work, "by"), work=text(work, "work"))


def _outcome(record: Record, names: Names) -> Iterator[Said]:
    found = part(record.body, "outcome")
    faults, works = ([names.of(i) for i in _texts(found.get(k))] for k in ("faults", "cured_by"))
    said = say(t.CONFIRMED, faults=listed(faults)) if faults else say(t.NONE_FOUND)
    time = records_said.time_said(text(record.body, "at"))
    yield say(t.OUTCOME, number=record.number, time=time, by=text(record.body, "by"), faults=said)
    if works:
        yield say(t.CURED, works=listed(works))
    proof = text(found, "proved_by")
    yield say(t.PROVED, proof=proof) if proof else say(t.NOT_PROVED)


def _texts(found: object) -> list[str]:
    return [str(each) for each in found] if isinstance(found, list) else []


def _rests(of: Assessed) -> Iterator[Said]:
    slots = {}
    if of.again.why is not Why.NONE:
        slots["why"] = say(records_texts.WHY_NOT[of.again.why.value], detail=of.again.detail)
    yield say(t.AGAIN[of.again.again.value], **slots)
    for what, digest in (
        (t.RECORD, of.record.line.digest),
        (t.LOGIC, text(of.body, "rulebook", "logic")),
        (t.WORDS, text(of.body, "rulebook", "words")),
        (t.CASE, text(of.body, "case", "digest")),
    ):
        yield say(t.DIGEST, what=say(what), digest=digest)
    withheld = whole(of.body, "case", "withheld")
    if withheld:
        yield say_count(*t.WITHHELD, count=withheld)
