"""What was known when, and what each answer did: a kept case judged entry by entry.

Each entry is judged with the rulebook of that day, at the moment of the entry, with what had been
entered until then and nothing that came later.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from sootsayer.belief.inference import solve
from sootsayer.casework.model import Case, Entry
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.rounding import six
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.ledger.folder import Ledger
from sootsayer.ledger.model import Record
from sootsayer.ledger.rebuilding import Rebuilt
from sootsayer.ledger.replay_model import Answer, Explained, Moved, Step
from sootsayer.ledger.replaying import CannotReplay, case_of_record, rebuilt_of
from sootsayer.rulebook.model import CODES

# A move of less than a point, or of what nobody would speak of, tells a reader nothing.
_MOVED, _WORTH = 0.01, 0.02
_MOST = 4


@dataclass(frozen=True, slots=True)
class _State:
    """What a verdict comes down to: no more is compared, so no more is reckoned."""

    confidences: Mapping[str, float]
    drive: str
    permissions: Mapping[str, str]


def explain(ledger: Ledger, record: Record) -> Explained:
    """Go through the kept case, entry by entry."""
    try:
        rebuilt = rebuilt_of(ledger, record)
        case = case_of_record(record, rebuilt)
    except CannotReplay as cannot:
        return Explained((), why=cannot.why, detail=cannot.detail)
    return Explained(tuple(_steps(case, rebuilt)), case, rebuilt.rulebook.model)


def _steps(case: Case, rebuilt: Rebuilt) -> Iterator[Step]:
    before: _State | None = None
    for entry in case.entries:
        if before is None:
            before = _state(case, rebuilt, entry.number - 1, entry.at)
        after = _state(case, rebuilt, entry.number, entry.at)
        yield Step(
            entry,
            _moved(before.confidences, after.confidences),
            tuple(_answers(case, rebuilt, entry, after)),
            None if before.drive == after.drive else (before.drive, after.drive),
            tuple(_permissions(before.permissions, after.permissions)),
        )
        before = after


def _answers(case: Case, rebuilt: Rebuilt, entry: Entry, after: _State) -> Iterator[Answer]:
    """Each answer with what it moved, the weightiest first, then those that moved nothing."""
    found = []
    for slot, typed, without in _each_left_out(entry):
        other = replace(case, entries=(*case.entries[: entry.number - 1], without))
        work = work_out(other, rebuilt.rulebook, entry.at, None, rebuilt.shop)
        found.append(Answer(slot, typed, _moved(_confidences(work), after.confidences)))
    yield from sorted(found, key=_least_moved)


def _least_moved(answer: Answer) -> float:
    return -max((abs(each.after - each.before) for each in answer.moved), default=0.0)


def _each_left_out(entry: Entry) -> Iterator[tuple[str, str, Entry]]:
    for said in entry.said:
        left = tuple(each for each in entry.said if each is not said)
        typed = said.typed if said.absence is None else said.absence.value
        yield said.slot, typed, replace(entry, said=left)
    if entry.codes is not None:
        yield CODES, ", ".join(entry.codes.codes), replace(entry, codes=None)


def _state(case: Case, rebuilt: Rebuilt, as_of: int, now: datetime) -> _State:
    """The headlines of the verdict; entries behind `as_of` are taken away."""
    until = replace(case, entries=case.entries[:as_of])
    work = work_out(until, rebuilt.rulebook, now, None, rebuilt.shop)
    permitted = permissions(work)
    return _State(
        _confidences(work),
        drive_on(work, permitted).state.value,
        {each.action: each.state.value for each in permitted},
    )


def _confidences(work: Workings) -> dict[str, float]:
    network, evidence = network_of(work, families(work.model, findings(work)))
    return {fault: six(share) for fault, share in solve(network, evidence).posteriors.items()}


def _moved(was: Mapping[str, float], is_: Mapping[str, float]) -> tuple[Moved, ...]:
    found = [Moved(fault, was.get(fault, 0.0), is_.get(fault, 0.0)) for fault in {*was, *is_}]
    found = [each for each in found if _is_worth_telling(each)]
    found.sort(key=lambda each: (-abs(each.after - each.before), each.fault))
    return tuple(found[:_MOST])


def _is_worth_telling(each: Moved) -> bool:
    return abs(each.after - each.before) >= _MOVED and max(each.after, each.before) >= _WORTH


def _permissions(was: Mapping[str, str], is_: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    for action in sorted({*was, *is_}):
        if was.get(action) != is_.get(action):
            yield action, was.get(action, ""), is_.get(action, "")
