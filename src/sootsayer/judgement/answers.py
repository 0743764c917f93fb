"""What each answer to a check would change: said by looking at the case with that answer in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from sootsayer.belief.inference import solve
from sootsayer.casework.model import CodeList, Entry, Said
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.engine.thresholds import thresholds
from sootsayer.interview.bundles import Yield, bundles
from sootsayer.interview.situation import source_of
from sootsayer.judgement.leaders import Leader, leaders
from sootsayer.judgement.looking import Looked, look
from sootsayer.judgement.permissions import drive_on
from sootsayer.judgement.verdict import DriveOn, Permitted
from sootsayer.rulebook.model import CODES, Check, Signal, SignalKind
from sootsayer.rulebook.reads import levels_of

FIRST_ROUND = "arrival"
NOWHERE = Place("an answer that was not given", 1, 1)


@dataclass(frozen=True, slots=True)
class Changed:
    """An action whose permission an answer would change, and to what."""

    action: str
    state: Permitted


@dataclass(frozen=True, slots=True)
class AnswerSaid:
    """One answer to a slot, and the case with it.

    `value`: the answer; of a number one of those from `low` to `high` (None: no end), all of
    which say the same; of `codes` the only code listed, "" for none. `leaders`: what would lead;
    `changed`: the kinds in which that is something else than now.
    """

    slot: str
    value: Value
    low: float | None
    high: float | None
    leaders: tuple[Leader, ...]
    changed: tuple[str, ...]
    permissions: tuple[Changed, ...]
    drive_on: DriveOn


@dataclass(frozen=True, slots=True)
class LevelSaid:
    """What would lead if a family said this level: of what several readings decide together."""

    family: str
    level: str
    leaders: tuple[Leader, ...]
    changed: tuple[str, ...]


def answers_to(seen: Looked, check_id: str, *, only: str | None = None) -> tuple[AnswerSaid, ...]:
    """Every answer to what the check gives (to the slot `only`, if it is given) and was not asked
    yet, each by itself."""
    check = seen.work.model.checks[check_id]
    before = leaders(seen.network, seen.solved)
    return tuple(
        _answer(seen, check, before, slot, value, low, high)
        for slot in check.gives
        if slot not in seen.now.asked and only in (None, slot)
        for value, low, high in possible_answers(seen, slot)
    )


def levels_of_check(seen: Looked, check_id: str) -> tuple[LevelSaid, ...]:
    """For each family that the check, with what must follow it, would give a voice: what each
    of its levels would change."""
    bundle = next((b for b in bundles(seen.now) if b.first == check_id), None)
    before = leaders(seen.network, seen.solved)
    return tuple(
        _level(seen, before, each, rank, level)
        for each in (bundle.yields if bundle is not None else ())
        for rank, level in enumerate(levels_of(seen.work.model, each.family))
    )


def possible_answers(seen: Looked, slot: str) -> Iterator[tuple[Value, float | None, float | None]]:
    """The answers to a slot that rules tell apart, each with the range that it stands for."""
    model = seen.work.model
    if slot == CODES:
        yield from ((code, None, None) for code in ("", *model.codes))
        return
    signal = model.signals[slot.partition("@")[0]]
    if signal.kind is SignalKind.YES_NO:
        yield from ((value, None, None) for value in (True, False))
    elif signal.kind is SignalKind.CHOICE:
        yield from ((choice, None, None) for choice in signal.choices)
    else:
        yield from _numbers(signal, _cuts(seen, slot))


def _cuts(seen: Looked, slot: str) -> tuple[float, ...]:
    """Where any finding or interlock cuts the number of a slot, with all else as it is now."""
    work = seen.work
    program = work.rulebook.program
    found: set[float] = set()
    for name in program.order:
        if slot in program.reads(name):
            values = {s: v for s, v in work.trusted.values.items() if s not in program.definitions}
            found.update(thresholds(program, values, work.limits, name).get(slot, ()))
    return tuple(sorted(found))


def _numbers(
    signal: Signal, cuts: tuple[float, ...]
) -> Iterator[tuple[Value, float | None, float | None]]:
    """One number for each stretch between two cuts, in the signal's unit."""
    lowest, highest = signal.possible or (0.0, 1.0)
    inside = [cut for cut in cuts if lowest < cut < highest]
    edges = [lowest, *inside, highest]
    for low, high in pairwise(edges):
        yield (
            (low + high) / 2.0,
            None if low == lowest else low,
            None if high == highest else high,
        )


def _answer(
    seen: Looked,
    check: Check,
    before: tuple[Leader, ...],
    slot: str,
    value: Value,
    low: float | None,
    high: float | None,
) -> AnswerSaid:
    there = _with(seen, check, slot, value)
    after = leaders(there.network, there.solved)
    was = {permission.action: permission.state for permission in seen.permitted}
    return AnswerSaid(
        slot=slot,
        value=value,
        low=low,
        high=high,
        leaders=after,
        changed=_changed(before, after),
        permissions=tuple(
            Changed(p.action, p.state) for p in there.permitted if p.state is not was[p.action]
        ),
        drive_on=drive_on(there.work, there.permitted).state,
    )


def _with(seen: Looked, check: Check, slot: str, value: Value) -> Looked:
    """The case with one more entry."""
    work = seen.work
    codes: CodeList | None = None
    said: tuple[Said, ...] = ()
    if slot == CODES:
        listed = (str(value),) if value else ()
        codes = CodeList(True, listed, NOWHERE, monitors_run=True)
    else:
        said = (Said(slot, value, None, "", NOWHERE),)
    entry = Entry(
        number=len(work.case.entries) + 1,
        at=work.now,
        by="",
        round=work.sheet.round or FIRST_ROUND,
        source=source_of(check),
        said=said,
        place=NOWHERE,
        codes=codes,
    )
    case = replace(work.case, entries=(*work.case.entries, entry))
    return look(case, work.rulebook, now=work.now, shop=work.shop, stage=seen.now.stage)


def _level(
    seen: Looked, before: tuple[Leader, ...], each: Yield, rank: int, level: str
) -> LevelSaid:
    others = tuple(o for o in seen.network.observables if o.id != each.family)
    network = replace(seen.network, observables=(*others, each.seen))
    hard = tuple(float(k == rank) for k in range(len(each.seen.otherwise)))
    after = leaders(network, solve(network, {**seen.evidence, each.family: hard}))
    return LevelSaid(each.family, level, after, _changed(before, after))


def _changed(before: tuple[Leader, ...], after: tuple[Leader, ...]) -> tuple[str, ...]:
    return tuple(now.kind for was, now in zip(before, after, strict=True) if was.fault != now.fault)
