"""The demonstration cases, read with the shipped rulebook, and parts taken out of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Case, Entry
from sootsayer.engine.conditions import Value
from sootsayer.rulebook.shipped import shipped_cases
from tests.laws.making_cases import rulebook

NAMES = tuple(sorted(path.stem for path in Path(shipped_cases()).glob("*.yaml")))

# What costs much is tried on these: one of each sort, and the ones that other tests know.
A_FEW = (
    "blocked-by-short-trips",
    "empty-can",
    "estate-before-and-after",
    "iced-sensor",
    "keys-through-the-door",
    "leaking-front-hose",
    "sensor-offset",
    "stuck-sensor",
    "three-at-once",
)


@cache
def demonstration(name: str) -> Case:
    return read_case(Path(shipped_cases()) / f"{name}.yaml", rulebook().model)


def closing_moment(case: Case) -> datetime:
    """The time of the last entry before the outcome."""
    return [entry.at for entry in case.entries if entry.outcome is None][-1]


def demonstrations() -> Iterator[tuple[Case, datetime]]:
    """A few demonstration cases, each with the moment at which it is judged."""
    for name in A_FEW:
        yield demonstration(name), closing_moment(demonstration(name))


def slots_said(case: Case) -> tuple[str, ...]:
    """Every fact with a value in the case, once, in a fixed order."""
    return tuple(
        sorted({s.slot for entry in case.entries for s in entry.said if s.absence is None})
    )


def forgetting(case: Case, slots: Collection[str]) -> Case:
    """The case in which these facts were never given; every entry stays where it was."""

    def less(entry: Entry) -> Entry:
        return replace(entry, said=tuple(s for s in entry.said if s.slot not in slots))

    return replace(case, entries=tuple(less(entry) for entry in case.entries))


def without_codes(case: Case) -> Case:
    return replace(case, entries=tuple(replace(entry, codes=None) for entry in case.entries))


def saying(case: Case, values: Mapping[str, Value]) -> Case:
    """The case with other values for facts that it has."""
    assert set(values) <= set(slots_said(case))

    def other(entry: Entry) -> Entry:
        said = (
            replace(s, value=values[s.slot], typed=str(values[s.slot])) if s.slot in values else s
            for s in entry.said
        )
        return replace(entry, said=tuple(said))

    return replace(case, entries=tuple(other(entry) for entry in case.entries))


def healthy() -> tuple[Case, datetime]:
    """A case whose filter may be called well: a demonstration with its sensor's zero put right."""
    case = demonstration("sensor-offset")
    right = {"dp@rest": 0.0, "dp@idle": 5.0, "dp@2500": 19.0, "sensor-volts@rest": 0.5}
    return saying(case, right), closing_moment(case)
