"""What is still open, and which checks would tell: a list to read, in no way a ranking.

Ranking by what a check would change is the work of `interview`; here the checks stand in the
order of what waits for them (driving on, then what the leading faults lack and what keeps an
instrument from being proven, then the rest), the quickest first. Of several that give one thing the
quickest is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.catalogue import Said, shown
from sootsayer.console.names import CheckName, Names, Refusal
from sootsayer.console.words import KINDS
from sootsayer.judgement.verdict import FaultSaid, Verdict


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A check, and the labels of what it would tell."""

    check: CheckName
    tells: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class ShutPoint:
    """What no check will tell any more (`refusal`), or no check gives (None)."""

    label: Said
    refusal: Refusal | None


@dataclass(frozen=True, slots=True)
class _Want:
    label: Said
    slots: tuple[str, ...]
    checks: tuple[str, ...] = ()
    rank: int = 0  # whose want is met first


def first_of_kind(verdict: Verdict, kind: str) -> FaultSaid | None:
    """The most probable fault of a kind; the verdict's list is sorted."""
    return next((fault for fault in verdict.faults if fault.kind == kind), None)


def leads(verdict: Verdict, fault: FaultSaid | None) -> bool:
    """Whether this fault is more probable than that there is none of its kind."""
    return fault is not None and fault.confidence > verdict.none.get(fault.kind, 0.0)


def open_points(verdict: Verdict, names: Names) -> tuple[list[OpenPoint], list[ShutPoint]]:
    """What waits for a check, and what no check will tell."""
    told: dict[str, tuple[int, CheckName, list[Said]]] = {}
    shut: list[ShutPoint] = []
    for want in _wants(verdict, names):
        if not (want.slots or want.checks):
            continue  # set aside, or decided: no fact is missing
        check = _check_for(want, names)
        if check is None:
            shut.append(ShutPoint(want.label, _refusal(want, names)))
            continue
        labels = told.setdefault(check.id, (want.rank, check, []))[2]
        if want.label not in labels:
            labels.append(want.label)
    ordered = sorted(told.values(), key=lambda each: (each[0], each[1].minutes, each[1].id))
    return [OpenPoint(check, tuple(labels)) for _, check, labels in ordered], shut


def _wants(verdict: Verdict, names: Names) -> list[_Want]:
    awaits = {finding.id: finding.awaits for finding in verdict.findings}
    wants = [
        _Want(shown(lock.says), lock.awaits, lock.would_clear) for lock in verdict.drive_on.unknown
    ]
    families = {family.id: family.label for family in verdict.families}
    for rank, family in _missing_families(verdict):
        members = names.members.get(family, (family,))
        slots = tuple(slot for member in members for slot in awaits.get(member, ()))
        wants.append(_Want(shown(families.get(family) or names.of(family)), slots, (), rank))
    for channel in verdict.channels:
        rank = 1 if channel.id in verdict.filter_well.because else 3
        slots = tuple(slot for test in channel.awaits for slot in awaits.get(test, ()))
        wants.append(_Want(shown(channel.label), slots, (), rank))
    return sorted(wants, key=lambda want: want.rank)


def _missing_families(verdict: Verdict) -> list[tuple[int, str]]:
    """Of the first fault of each kind, those that lead before the others; each family once."""
    firsts = [fault for kind in KINDS if (fault := first_of_kind(verdict, kind)) is not None]
    ranked: dict[str, int] = {}
    for fault in sorted(firsts, key=lambda fault: not leads(verdict, fault)):
        for family in fault.missing:
            ranked.setdefault(family, 1 if leads(verdict, fault) else 2)
    return [(rank, family) for family, rank in ranked.items()]


def _check_for(want: _Want, names: Names) -> CheckName | None:
    named = [check for check in map(names.check, want.checks) if check is not None]
    slots = {slot for slot in want.slots if slot not in names.refusals}
    giving = [check for check in names.checks if slots.intersection(check.gives)]
    return min(named or giving, key=lambda check: (check.minutes, check.id), default=None)


def _refusal(want: _Want, names: Names) -> Refusal | None:
    return next((names.refusals[slot] for slot in want.slots if slot in names.refusals), None)
