"""Answers as entries of the case: new ones, and corrections of earlier ones.

Nothing here writes: a line is made, read back together with the whole case, and only what the
case will take is handed out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from sootsayer.casework.append import entry_line
from sootsayer.casework.case_file import case_of
from sootsayer.casework.corrections import Statement, code_lists, statements
from sootsayer.casework.model import Absence, CodeList, Source
from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import say
from sootsayer.commands.asking.state import Item, Session
from sootsayer.console import ask_texts as t
from sootsayer.documents.torn import split_torn
from sootsayer.judgement.judge import judge
from sootsayer.rulebook.model import Lasts


def with_lines(session: Session, lines: Sequence[str], now: datetime) -> Session:
    """The session with these entries in its case, judged again. Raises documents.Refused."""
    before = split_torn(session.data)[0]
    gap = b"" if before.endswith(b"\n") or not before else b"\n"
    data = before + gap + "".join(f"{line}\n" for line in lines).encode()
    return reread(session, data, now)


def reread(session: Session, data: bytes, now: datetime) -> Session:
    """The session on what the case file now holds. Raises documents.Refused."""
    setting = session.setting
    case = case_of(parse_case(data, setting.file), setting.model)
    verdict = judge(case, setting.rulebook, now=now, shop=setting.shop)
    return replace(session, data=data, case=case, verdict=verdict)


def entries_for(items: Sequence[Item], session: Session, now: datetime) -> tuple[str, ...]:
    """One entry for each source, with a note where a reason or a doubt is to be kept."""
    lines = []
    for source in dict.fromkeys(item.source for item in items):
        own = [item for item in items if item.source is source]
        lines.append(
            entry_line(
                at=now, by=session.by, round=session.round,
                source=None if source is Source.TECHNICIAN else source,
                facts=facts_of(own), none=absences_of(own), note=_note(own),
            )
        )  # fmt: skip
    return tuple(lines)


def corrections_for(
    items: Sequence[Item], stood: dict[str, Statement], session: Session, now: datetime
) -> tuple[str, ...]:
    """Entries that correct what stood, one for each entry first made; the rest as new ones."""
    lines: list[str] = []
    fresh = [item for item in items if item.slot not in stood]
    for root in sorted({stood[item.slot].root.number for item in items if item.slot in stood}):
        own = [i for i in items if i.slot in stood and stood[i.slot].root.number == root]
        lines.append(
            entry_line(
                at=now, by=session.by, corrects=root,
                facts=facts_of(own), none=absences_of(own), note=_note(own),
            )
        )  # fmt: skip
    return (*lines, *entries_for(fresh, session, now)) if fresh else tuple(lines)


def standing(items: Sequence[Item], session: Session) -> dict[str, Statement]:
    """What already stands of these slots: from the same source, in the same round (or, of facts
    that last the whole visit, in any)."""
    found: dict[str, Statement] = {}
    for item in items:
        signal = session.model.signals[item.slot.partition("@")[0]]
        for one in statements(session.case):
            whole_visit = signal.lasts is Lasts.VISIT
            if (
                one.said.slot == item.slot
                and one.root.source is item.source
                and (whole_visit or one.root.round == session.round)
            ):
                found[item.slot] = one
    return found


def any_standing(slot: str, session: Session) -> Statement | None:
    """The newest word on a slot, from whichever source, that can be changed now."""
    signal = session.model.signals[slot.partition("@")[0]]
    found = [
        one
        for one in statements(session.case)
        if one.said.slot == slot
        and (signal.lasts is Lasts.VISIT or one.root.round == session.round)
    ]
    return max(found, key=lambda one: one.entry.number, default=None)


def facts_of(items: Sequence[Item]) -> dict[str, str]:
    return {item.slot: item.typed for item in items if item.absence is None}


def absences_of(items: Sequence[Item]) -> dict[str, Absence]:
    return {item.slot: item.absence for item in items if item.absence is not None}


def _note(items: Sequence[Item]) -> str | None:
    """What the format has no key for: why something cannot be had, and what was doubted."""
    parts = [
        say(t.NOTE_CANNOT, slot=item.slot, why=item.why)
        for item in items
        if item.absence is not None and item.why
    ]
    parts += [
        say(t.NOTE_IMPLAUSIBLE, slot=item.slot, typed=item.typed, why=item.why)
        for item in items
        if item.absence is None and item.why
    ]
    return "; ".join(parts) or None


def codes_entry(codes: CodeList, session: Session, now: datetime) -> str:
    """A list of trouble codes as an entry; of a list read in this round, as its correction."""
    stands = [one for one in code_lists(session.case) if one.root.round == session.round]
    if stands and stands[-1].codes == codes:
        return ""
    return entry_line(at=now, by=session.by, round=session.round, source=Source.SCAN, codes=codes)
