"""Random cases over a rulebook, made in memory, for the laws."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from sootsayer.casework.model import Absence, Case, CodeList, Entry, Said, Source, Vehicle
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.model import Model, Signal, SignalKind
from sootsayer.rulebook.shipped import shipped_rules

START = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
NOW = START + timedelta(minutes=30)
HERE = Place("case.yaml", 1, 1)
SOME = settings(deadline=None, max_examples=40, suppress_health_check=list(HealthCheck))


@cache
def rulebook() -> Rulebook:
    """The shipped rulebook, loaded once a process."""
    return load_rulebook([shipped_rules()])


@dataclass(frozen=True, slots=True)
class Reading:
    """One answer: a value or an absence, and where it came from."""

    slot: str
    value: Value
    source: Source
    absence: Absence | None = None


def slots_of(signal: Signal) -> tuple[str, ...]:
    return tuple(f"{signal.id}@{point}" for point in signal.points) or (signal.id,)


def values_of(signal: Signal, near: Sequence[float]) -> st.SearchStrategy[Value]:
    """Any possible value; numbers often on or beside a limit in the rulebook's hands."""
    if signal.kind is SignalKind.CHOICE:
        return st.sampled_from(signal.choices)
    if signal.kind is SignalKind.YES_NO:
        return st.booleans()
    assert signal.possible is not None
    low, high = signal.possible
    anywhere = st.floats(low, high).map(lambda x: round(x, 1))
    beside = [x for n in near for x in (n - 0.5, n, n + 0.5, n * 2) if low <= x <= high]
    return st.one_of(anywhere, st.sampled_from(beside)) if beside else anywhere


def sources_of(signal: Signal) -> st.SearchStrategy[Source]:
    named = [Source(name) for name in signal.channels if name]
    return st.sampled_from(named or [Source.TECHNICIAN, Source.CUSTOMER])


@st.composite
def readings(draw: st.DrawFn, model: Model, most: int = 25) -> tuple[Reading, ...]:
    """Up to `most` answers, no slot twice from one source."""
    near = sorted({limit.default for limit in model.limits.values()})
    slots = [(slot, signal) for signal in model.signals.values() for slot in slots_of(signal)]
    chosen = draw(st.lists(st.sampled_from(slots), max_size=most, unique_by=lambda pair: pair[0]))
    return tuple(
        Reading(slot, draw(values_of(signal, near)), draw(sources_of(signal)))
        for slot, signal in chosen
    )


@st.composite
def code_lists(draw: st.DrawFn) -> tuple[str, ...] | None:
    """No list of trouble codes, or a complete one of codes that rules ask about."""
    known = sorted(s[5:] for s in rulebook().program.inputs if s.startswith("code:"))
    assert known
    listed = st.lists(st.sampled_from(known), max_size=4, unique=True).map(tuple)
    return draw(st.none() | listed)


@st.composite
def cases(draw: st.DrawFn, most: int = 25, one_entry: bool = False) -> Case:
    """Any case of up to `most` answers; `one_entry`: those of a source stand in one entry."""
    answers = draw(readings(rulebook().model, most))
    if one_entry:
        answers = tuple(sorted(answers, key=lambda answer: answer.source.value))
    return some_case(answers, draw(code_lists()), one_entry)


def some_case(
    answers: Sequence[Reading], codes: tuple[str, ...] | None = None, one_entry: bool = False
) -> Case:
    """A case of these answers: an entry for each source, or for each answer, in the order given."""
    groups: list[tuple[Source, list[Reading]]] = []
    for answer in answers:
        if one_entry and groups and groups[-1][0] is answer.source:
            groups[-1][1].append(answer)
        else:
            groups.append((answer.source, [answer]))
    entries = [
        Entry(
            number=number,
            at=START + timedelta(seconds=number),
            by="tech-1",
            round="arrival",
            source=source,
            said=tuple(said(answer) for answer in group),
            place=Place("case.yaml", number + 5, 1),
        )
        for number, (source, group) in enumerate(groups, start=1)
    ]
    if codes is not None:
        entries.append(_codes_entry(len(entries) + 1, codes))
    return Case("made", "case.yaml", Vehicle("2.0 L panel van"), {}, tuple(entries))


def said(answer: Reading) -> Said:
    typed = answer.absence.value if answer.absence is not None else str(answer.value)
    return Said(answer.slot, answer.value, answer.absence, typed, HERE)


def _codes_entry(number: int, codes: tuple[str, ...]) -> Entry:
    return Entry(
        number=number,
        at=START + timedelta(seconds=number),
        by="tech-1",
        round="arrival",
        source=Source.SCAN,
        said=(),
        place=Place("case.yaml", number + 5, 1),
        codes=CodeList(True, codes, HERE, monitors_run=True),
    )
