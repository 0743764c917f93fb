"""A case in which everything that is known of a made-up vehicle was entered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import UTC, datetime, timedelta
from typing import Final

from sootsayer.casework.model import Case, CodeList, Entry, Said, Source, Vehicle
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.rulebook.model import Model, Where

MADE_AT: Final = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
_FILE = "made.yaml"
_TOLD_BY = {Where.COUNTER: Source.CUSTOMER, Where.SCAN: Source.SCAN}


def case_of(
    model: Model,
    facts: Mapping[str, Value],
    vehicle: Vehicle | None = None,
    at: datetime = MADE_AT,
    name: str = "made",
) -> Case:
    """The facts as one round of entries, one a source, a second apart from `at` on.

    `facts`: slot to a value in the signal's unit; None is left out; `code:P2463` true or false
    make a complete list of trouble codes whose monitors have run. Nothing is checked against the
    signals: `read_case` does that for what stands in a file.
    """
    by_source: dict[Source, list[Said]] = {}
    codes = {slot[5:]: value for slot, value in facts.items() if slot.startswith("code:")}
    for slot, value in sorted(facts.items()):
        if value is None or slot.startswith("code:"):
            continue
        said = Said(slot, value, None, str(value), Place(_FILE, 1, 1))
        by_source.setdefault(source_of(model, slot), []).append(said)
    entries = [
        _entry(number, at, source, tuple(by_source[source]))
        for number, source in enumerate(_in_order(by_source), start=1)
    ]
    if codes:
        listed = tuple(sorted(code for code, there in codes.items() if there is True))
        entries.append(_entry(len(entries) + 1, at, Source.SCAN, (), listed))
    vehicle = Vehicle("2.0 L panel van") if vehicle is None else vehicle
    return Case(name, _FILE, vehicle, {}, tuple(entries))


def source_of(model: Model, slot: str) -> Source:
    """Where a fact comes from in an ordinary visit: the vehicle's own instruments where they
    show it, else whoever does the check that gives it."""
    signal = model.signals[slot.partition("@")[0]]
    if Source.SCAN.value in signal.channels:
        return Source.SCAN
    for check in model.checks.values():
        if slot in check.gives:
            return _TOLD_BY.get(check.where, Source.TECHNICIAN)
    return Source.TECHNICIAN


def _in_order(sources: Iterable[Source]) -> list[Source]:
    order = (Source.CUSTOMER, Source.SCAN, Source.TECHNICIAN)
    return [source for source in order if source in set(sources)]


def _entry(
    number: int,
    at: datetime,
    source: Source,
    said: tuple[Said, ...],
    codes: tuple[str, ...] | None = None,
) -> Entry:
    place = Place(_FILE, number, 1)
    listed = None if codes is None else CodeList(True, codes, place, monitors_run=True)
    return Entry(
        number=number,
        at=at + timedelta(seconds=number),
        by="made",
        round="arrival",
        source=source,
        said=said,
        place=place,
        codes=listed,
    )
