"""Closed cases judged with and without a new rule: which verdicts it would have changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from sootsayer.casework.model import Case
from sootsayer.commands.moment import moment_of
from sootsayer.commands.rules_cases import cases_read
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shop import Shop

KINDS = ("measurement", "condition", "cause")
NONE = "none"


@dataclass(frozen=True, slots=True)
class Change:
    """One difference. `what`: a kind of fault, `drive-on`, or an action. `judged`: 1 better by
    the confirmed outcome, -1 worse, 0 neither."""

    case: str
    what: str
    before: str
    after: str
    judged: int = 0


@dataclass(frozen=True, slots=True)
class Replayed:
    """How many closed cases there are, how many verdicts differ, in what, and what is broken."""

    count: int
    changed: int
    changes: tuple[Change, ...]
    broken: int


def replayed(before: Rulebook, after: Rulebook, folder: Path, shop: Shop | None) -> Replayed:
    """Each closed case of the folder, as it stood before its outcome, by both rulebooks."""
    count = broken = 0
    changes: list[Change] = []
    for _, case in cases_read(before, [folder]):
        if case is None:
            broken += 1
        elif case.closed:
            count += 1
            changes += _differences(case, before, after, shop)
    changed = len({change.case for change in changes})
    return Replayed(count, changed, tuple(changes), broken)


def _differences(
    case: Case, before: Rulebook, after: Rulebook, shop: Shop | None
) -> Iterator[Change]:
    closing = next(entry for entry in case.entries if entry.outcome is not None)
    assert closing.outcome is not None
    confirmed = set(closing.outcome.faults)
    now = moment_of(case, at=None, as_of=None, demonstration=True)
    one, other = (
        judge(case, rulebook, now=now, as_of=closing.number - 1, shop=shop, proposing=False)
        for rulebook in (before, after)
    )
    for kind in KINDS:
        first, second = _leading(one, kind), _leading(other, kind)
        if first != second:
            judged = (second in confirmed) - (first in confirmed)
            yield Change(case.id, kind, first, second, judged)
    if one.drive_on.state is not other.drive_on.state:
        yield Change(case.id, "drive-on", one.drive_on.state.value, other.drive_on.state.value)
    states = {each.action: each.state.value for each in other.permissions}
    for each in one.permissions:
        now_is = states.get(each.action, each.state.value)
        if each.action != "drive-on" and now_is != each.state.value:
            yield Change(case.id, each.action, each.state.value, now_is)


def _leading(verdict: Verdict, kind: str) -> str:
    first = next((each for each in verdict.faults if each.kind == kind), None)
    if first is None or first.confidence <= verdict.none[kind]:
        return NONE
    return first.id
