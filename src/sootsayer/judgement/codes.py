"""Trouble codes as facts that a conclusion can rest on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from sootsayer.casework.codes import CodeValues, code_values
from sootsayer.casework.model import Case, Entry, Fact, Source
from sootsayer.rulebook.model import Model

# From memory: after this far and this many warm-ups most monitors have run. A rulebook may
# state its own as limits of these names.
ABSENT_AFTER = {"absent-code-distance": 300.0, "absent-code-warm-ups": 10.0}


def code_facts(
    case: Case, model: Model, as_of: int | None, limits: Mapping[str, float]
) -> dict[str, Fact]:
    """Slot `code:P2463` to a fact, for each code that is known to be listed or absent."""
    after = {name: limits.get(name, default) for name, default in ABSENT_AFTER.items()}
    read = code_values(
        case,
        model,
        as_of,
        after["absent-code-distance"],
        int(after["absent-code-warm-ups"]),
    )
    if read.at is None:
        return {}
    entry = next(e for e in case.entries if e.number == read.entry)
    return {
        slot: _fact(slot, value, read, read.at, entry)
        for slot, value in sorted(read.values.items())
        if value is not None
    }


def _fact(slot: str, value: bool, read: CodeValues, at: datetime, entry: Entry) -> Fact:
    assert read.entry is not None
    assert read.place is not None
    code = slot.removeprefix("code:")
    return Fact(
        slot=slot,
        value=value,
        absence=None,
        unit=None,
        source=Source.SCAN,
        round=entry.round,
        entry=read.entry,
        at=at,
        place=read.place,
        typed=code if value else f"{code} not listed",
    )
