"""The facts in force: corrections applied, sources ranked, rounds told apart.

Facts of the customer's account and of the vehicle last the whole visit; so does `not
fitted`, until a value is read. Readings last their round. The order in which the facts of
one entry were written never matters.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable
from datetime import UTC, datetime

from sootsayer.casework.corrections import Statement, code_lists, entries_until, statements
from sootsayer.casework.model import Absence, Case, Fact, FactSheet, Source
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.rulebook.model import Lasts, Model, Signal

_NAME = {source: source.value for source in Source}
_RANK = {source: rank for rank, source in enumerate(Source)}


def signal_of(slot: str, model: Model) -> Signal:
    """The signal of a slot `signal` or `signal@point`. Raises KeyError if unknown."""
    return model.signals[slot.partition("@")[0]]


def rounds(case: Case, as_of: int | None = None) -> list[str]:
    """The names of the rounds, in the order in which they were begun."""
    names = (entry.round for entry in entries_until(case, as_of) if entry.round is not None)
    return list(dict.fromkeys(names))


def rounds_read(case: Case, model: Model, as_of: int | None = None) -> dict[str, tuple[int, int]]:
    """The rounds that have readings, in the order in which they were begun: the numbers of the
    first and the last entry first made that read something in them."""
    said = [
        one for one in statements(case, as_of) if one.said.slot.partition("@")[0] in model.signals
    ]
    begun = _rounds_with_readings(case, said, model, as_of)
    last = dict(begun)
    for one in said:
        if one.root.round in last:
            last[one.root.round] = max(last[one.root.round], one.root.number)
    return {name: (begun[name], last[name]) for name in sorted(begun, key=begun.__getitem__)}


def fact_sheet(
    case: Case, model: Model, as_of: int | None = None, *, in_round: str | None = None
) -> FactSheet:
    """All facts in force as of entry `as_of` (0: the header alone; None: the whole case).

    Readings are those of `in_round`, else of the newest round that has readings: a value or
    a list of trouble codes. A slot's facts stand with values before absences, then best
    source first, one fact a source, so that the first is the one that counts.
    """
    said = [
        one for one in statements(case, as_of) if one.said.slot.partition("@")[0] in model.signals
    ]
    begun = _rounds_with_readings(case, said, model, as_of)
    newest = max(begun, key=begun.__getitem__) if begun else None
    current = in_round if in_round is not None else newest
    kept: dict[str, dict[Source, Fact]] = {}
    for fact in header_facts(case, model):
        kept.setdefault(fact.slot, {})[fact.source] = fact
    for one in said:
        if _counts(one, model, current):
            fact = _fact(one, model)
            kept.setdefault(fact.slot, {})[fact.source] = fact
    _carry_not_fitted(said, kept, model)
    if in_round is None:
        _carry_asked(said, kept, model, max(begun.values(), default=0))
    last = as_of if as_of is not None else (case.entries[-1].number if case.entries else 0)
    return FactSheet(last, current, {slot: _ranked(kept[slot].values()) for slot in sorted(kept)})


def header_facts(case: Case, model: Model) -> tuple[Fact, ...]:
    """What the header says of the vehicle, as facts of entry 0, where the model has the signal.

    `fitted: {low-pressure recirculation: yes}` is `fitted-low-pressure-recirculation`; the
    sizes are `engine-litres`, `cylinders` and `filter-litres`.
    """
    vehicle = case.vehicle
    sizes: dict[str, Value | None] = {
        "engine litres": vehicle.engine_litres,
        "cylinders": None if vehicle.cylinders is None else float(vehicle.cylinders),
        "filter litres": vehicle.filter_litres,
    }
    said: dict[str, tuple[str, Value | None]] = {
        _slug(key): (key, value) for key, value in sizes.items() if value is not None
    }
    said |= {f"fitted-{_slug(key)}": (key, value) for key, value in vehicle.fitted.items()}
    at = case.entries[0].at if case.entries else datetime.fromtimestamp(0, UTC)
    top = Place(case.file, 1, 1)
    return tuple(
        Fact(
            slot, value, Absence.DO_NOT_KNOW if value is None else None, model.signals[slot].unit,
            Source.TECHNICIAN, None, 0, at, vehicle.places.get(key, top), _header_text(value),
            _sd(model.signals[slot], value, None), _channel(model.signals[slot], Source.TECHNICIAN),
        )
        for slot, (key, value) in sorted(said.items())
        if slot in model.signals
    )  # fmt: skip


def _slug(name: str) -> str:
    return "-".join(name.split())


def fact_in_force(sheet: FactSheet, slot: str) -> Fact | None:
    """The fact that counts for a slot, or None where nothing was said."""
    facts = sheet.by_source.get(slot)
    return facts[0] if facts else None


def _header_text(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "unknown" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _rounds_with_readings(
    case: Case, said: Iterable[Statement], model: Model, as_of: int | None
) -> dict[str, int]:
    """Rounds that have a reading in force, with the number of the entry first made."""
    first: dict[str, int] = {}
    for one in said:
        if (
            one.root.round is not None
            and one.said.absence is None
            and signal_of(one.said.slot, model).lasts is Lasts.ROUND
        ):
            first.setdefault(one.root.round, one.root.number)
    for read in code_lists(case, as_of):
        if read.root.round is not None:
            number = first.get(read.root.round, read.root.number)
            first[read.root.round] = min(number, read.root.number)
    return first


def _counts(one: Statement, model: Model, current: str | None) -> bool:
    """Whether the statement is in force in the round `current`."""
    return signal_of(one.said.slot, model).lasts is Lasts.VISIT or one.root.round == current


def _carry_asked(
    said: Iterable[Statement], kept: dict[str, dict[Source, Fact]], model: Model, since: int
) -> None:
    """A reason for no value, given in a later round that has no readings yet, is kept.

    It is unknown to logic either way, but whoever asks next should know that it was asked.
    """
    reasons = (Absence.CANNOT, Absence.DO_NOT_KNOW)
    silent = set(kept)
    for one in said:
        slot = one.said.slot
        if one.said.absence in reasons and slot not in silent and one.root.number > since:
            kept.setdefault(slot, {})[one.root.source] = _fact(one, model)


def _carry_not_fitted(
    said: Iterable[Statement], kept: dict[str, dict[Source, Fact]], model: Model
) -> None:
    """What a vehicle does not have it lacks in every round, unless a value was read."""
    newest: dict[str, Statement] = {}
    for one in said:
        if one.said.absence in (None, Absence.NOT_FITTED):
            newest[one.said.slot] = one
    for slot, one in newest.items():
        if one.said.absence is not Absence.NOT_FITTED:
            continue
        if all(fact.value is None for fact in kept.get(slot, {}).values()):
            kept.setdefault(slot, {})[one.root.source] = _fact(one, model)


def _fact(one: Statement, model: Model) -> Fact:
    signal = signal_of(one.said.slot, model)
    value = NOT_FITTED if one.said.absence is Absence.NOT_FITTED else one.said.value
    return Fact(
        slot=one.said.slot,
        value=value,
        absence=one.said.absence,
        unit=signal.unit,
        source=one.root.source,
        round=one.root.round,
        entry=one.entry.number,
        at=one.root.at,
        place=one.said.place,
        typed=one.said.typed,
        sd=_sd(signal, value, one.said.step),
        channel=_channel(signal, one.root.source),
    )


def _sd(signal: Signal, value: Value, typed_step: float | None) -> float:
    """One standard deviation: the error and the coarser step (uniform: step / sqrt(12))."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return 0.0
    step = max(signal.step, typed_step or 0.0)
    return math.sqrt(signal.error**2 + step**2 / 12)


def _channel(signal: Signal, source: Source) -> str:
    """A reading without a named instrument is taken for one of the vehicle's own."""
    channels = signal.channels
    if not channels:
        return ""
    named = channels.get(_NAME[source]) or channels.get("")
    return named or channels.get(_NAME[Source.SCAN]) or next(iter(channels.values()), "")


def _ranked(facts: Collection[Fact]) -> tuple[Fact, ...]:
    if len(facts) == 1:
        return tuple(facts)
    return tuple(sorted(facts, key=lambda fact: (fact.value is None, _RANK[fact.source])))
