"""Every entry of the case in one line: when, who, from where, and what it says."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.casework.model import CodeList, Entry
from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import moment_said
from sootsayer.console.names import Names
from sootsayer.console.vocabulary import absence_said, round_said, source_id_said
from sootsayer.report import file_texts as t
from sootsayer.report.reported import Reported
from sootsayer.report.sheet import Block, Items, Text


def entry_blocks(of: Reported) -> Iterator[Block]:
    """Entries by round, in their order; what sources tell differently; how points are read."""
    entries = [e for e in of.work.case.entries if e.number <= of.work.sheet.as_of]
    if of.verdict.torn:
        yield Text(say(t.TORN))
    if not entries:
        yield Text(say(t.NO_ENTRIES))
    for round_, group in _by_round(entries):
        heading = say(t.NO_ROUND) if round_ is None else say(t.ROUND, round=round_said(round_))
        yield Text(heading, strong=True)
        yield Items(tuple(entry_said(entry, of.names) for entry in group))
    differ = tuple(
        say(
            t.DIFFER,
            label=one.label,
            source=source_id_said(one.counts.source),
            typed=of.names.typed(one.slot, one.counts.typed),
            other_source=source_id_said(one.other.source),
            other=of.names.typed(one.slot, one.other.typed),
        )
        for one in of.verdict.contradictions
    )
    if differ:
        yield Items(differ)
    points = tuple(_points(of, entries))
    if points:
        yield Text(say(t.POINTS, points=listed(points)))


def _by_round(entries: list[Entry]) -> Iterator[tuple[str | None, list[Entry]]]:
    """Runs of one round, so that the order of the visit is kept."""
    run: list[Entry] = []
    for entry in entries:
        if run and entry.round != run[-1].round:
            yield run[-1].round, run
            run = []
        run.append(entry)
    if run:
        yield run[-1].round, run


def entry_said(entry: Entry, names: Names) -> Said:
    """An entry in one line."""
    slots = {
        "number": entry.number,
        "time": moment_said(entry.at),
        "by": entry.by,
        "source": source_id_said(entry.source.value),
    }
    return say(t.ENTRY, **slots, facts=listed(list(_says(entry, names))))


def _says(entry: Entry, names: Names) -> Iterator[Said]:
    if entry.corrects is not None:
        yield say(t.CORRECTS, number=entry.corrects)
    for said in entry.said:
        if said.absence is not None:
            yield say(t.ABSENT, slot=said.slot, absence=absence_said(said.absence.value))
        else:
            yield say(t.FACT, slot=said.slot, typed=names.typed(said.slot, said.typed))
    if entry.codes is not None:
        yield _codes(entry.codes)
    if entry.work is not None:
        yield say(t.WORK, work=entry.work)
    if entry.note is not None:
        yield say(t.NOTE, note=entry.note)
    if entry.outcome is not None:
        found = entry.outcome
        slots = {"faults": ", ".join(found.faults), "works": ", ".join(found.cured_by)}
        yield say(t.OUTCOME, **slots, proof=found.proved_by)


def _codes(codes: CodeList) -> Said:
    read = say(t.COMPLETE if codes.complete else t.PARTIAL)
    return say(t.CODES, read=read, codes=", ".join(codes.codes) or say(t.CODES_NONE))


def _points(of: Reported, entries: list[Entry]) -> Iterator[Said]:
    used = dict.fromkeys(
        said.slot.partition("@")[2] for entry in entries for said in entry.said if "@" in said.slot
    )
    for name in used:
        point = of.work.model.points.get(name)
        if point is not None:
            yield say(t.POINT, point=shown(name), conditions=point.conditions)
