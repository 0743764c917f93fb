"""Before and after: two rounds of a case, like for like."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.advice.like_for_like import (
    CANNOT_BE_MENDED,
    Between,
    Change,
    Refusal,
    Taken,
    Unlike,
    Warmth,
)
from sootsayer.advice.like_for_like_change import changed, with_what_is_real
from sootsayer.advice.like_for_like_gates import has_flow, reasons_against
from sootsayer.advice.like_for_like_outcome import Outcome, Standing, outcome
from sootsayer.casework.corrections import works
from sootsayer.casework.facts import rounds_read
from sootsayer.casework.model import Entry, Fact
from sootsayer.judgement import compare_rules as rules
from sootsayer.judgement.compare_taken import RoundSeen, measured, see_round
from sootsayer.judgement.rounds import before as read_before
from sootsayer.judgement.workings import Workings
from sootsayer.physics.measured import Measured


@dataclass(frozen=True, slots=True)
class Figure:
    """A soot figure of both rounds, in its own unit: told, never counted. `counted_from`: the
    model, the pressure, or nothing known."""

    slot: str
    before: Measured
    after: Measured
    unit: str

    @property
    def fell(self) -> bool:
        return self.before.value - self.after.value > 2 * (self.before.sd + self.after.sd)


@dataclass(frozen=True, slots=True)
class WorkDone:
    """Work between the rounds, and the entry that says so."""

    work: str
    entry: int


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two rounds compared. `before`, `after` say how the filter stood in each; `unsettled`: tests
    that the later round's instruments still wait for."""

    case: str
    from_round: str
    to_round: str
    changes: tuple[Change, ...]
    refusals: tuple[Refusal, ...]
    figures: tuple[Figure, ...]
    works: tuple[WorkDone, ...]
    before: Standing
    after: Standing
    unsettled: tuple[str, ...]
    outcome: Outcome


def rounds_of(work: Workings) -> tuple[str, ...]:
    """The rounds that have readings, in the order in which they were begun."""
    return tuple(rounds_read(work.case, work.model, work.sheet.as_of))


def compare(work: Workings, from_round: str, to_round: str) -> Comparison:
    """Every reading of the two rounds, compared or refused. Both must be among `rounds_of`, the
    first of them begun earlier. Raises KeyError otherwise."""
    before, after = see_round(work, from_round), see_round(work, to_round)
    changes: list[Change] = []
    refusals: list[Refusal] = []
    for slot, one, other in _pairs(work, before, after):
        told = _compared(work, before, after, slot, one, other)
        (changes if isinstance(told, Change) else refusals).append(told)  # type: ignore[arg-type]
    real = with_what_is_real(changes)
    return Comparison(
        case=work.case.id,
        from_round=from_round,
        to_round=to_round,
        changes=real,
        refusals=tuple(refusals),
        figures=tuple(_figures(before, after)),
        works=tuple(
            WorkDone(name, entry.number)
            for entry, name in works(work.case, work.sheet.as_of)
            if before.last < entry.number < after.first
        ),
        before=before.standing,
        after=after.standing,
        unsettled=after.unsettled,
        outcome=outcome(real, after.standing),
    )


def _pairs(
    work: Workings, before: RoundSeen, after: RoundSeen
) -> Iterator[tuple[str, Taken | None, Taken | None]]:
    """Readings of the same point; of those left over one at each side, two that were read with
    their flow, so that they can be brought together from different speeds."""
    for slot in (slot for slot in before.taken if slot in after.taken):
        yield slot, before.taken[slot], after.taken[slot]
    early = [taken for slot, taken in before.taken.items() if slot not in after.taken]
    late = [taken for slot, taken in after.taken.items() if slot not in before.taken]
    may_be = rules.tolerances(work.limits)
    while early and late and has_flow(early[0], may_be) and has_flow(late[0], may_be):
        one, other = early.pop(0), late.pop(0)
        yield other.slot, one, other
    if len(before.taken) == len(after.taken) == len(early) == len(late) == 1:
        yield late[0].slot, early[0], late[0]
        return
    for taken in early:
        yield taken.slot, taken, None
    for taken in late:
        yield taken.slot, None, taken


def _compared(
    work: Workings,
    before: RoundSeen,
    after: RoundSeen,
    slot: str,
    one: Taken | None,
    other: Taken | None,
) -> Change | Refusal:
    if one is None or other is None:
        missing = Unlike.NOT_READ_BEFORE if one is None else Unlike.NOT_READ_AFTER
        return _refused(work, slot, (missing,), one, other)
    may_be = rules.tolerances(work.limits)
    between = _between(work, before.read[one.slot], after.read[other.slot])
    why = reasons_against(one, other, between, may_be)
    if why:
        return _refused(work, slot, why, one, other)
    try:
        return changed(one, other, may_be)
    except ValueError:
        return _refused(work, slot, (Unlike.OUT_OF_RANGE,), one, other)


def _between(work: Workings, one: Fact, other: Fact) -> Between:
    done = [
        (entry, name)
        for entry, name in works(work.case, work.sheet.as_of)
        if read_before(one, entry) and not read_before(other, entry)
    ]
    remedies = work.model.remedies
    touched = {c for _, name in done if name in remedies for c in remedies[name].voids}
    return Between(frozenset(touched), any(_wets(work, each) for each in done))


def _wets(work: Workings, done: tuple[Entry, str]) -> bool:
    remedy = work.model.remedies.get(done[1])
    actions = () if remedy is None else remedy.by_actions
    return not rules.WETTING.isdisjoint((done[1], *actions))


def _refused(
    work: Workings,
    slot: str,
    why: tuple[Unlike, ...],
    one: Taken | None,
    other: Taken | None,
) -> Refusal:
    """With what to read now instead, where reading now can mend it."""
    if set(why) & CANNOT_BE_MENDED or (one is not None and one.warmth is Warmth.COLD):
        return Refusal(slot, why, one, other)
    assert one is not None
    signal = rules.signals_taken(work.model)
    wanted = [one.slot]
    at = f"@{one.point}"
    extra = {
        Unlike.SENSOR_CHANGED: [f"{signal['dp']}@{rules.AT_REST}"],
        Unlike.OTHER_INSTRUMENT: [f"{signal['dp']}@{rules.AT_REST}"],
        Unlike.COLD_AFTER: [rules.COOLANT],
        Unlike.WARMTH_UNKNOWN_AFTER: [rules.COOLANT],
        Unlike.TEMPERATURES_APART: [signal["exhaust-temperature"] + at, signal["air"] + at],
        Unlike.OTHER_SPEED: [signal["exhaust-temperature"] + at, signal["air"] + at],
        Unlike.PERHAPS_WET: [rules.WET],
        Unlike.WET_AFTER: [rules.WET],
        Unlike.OTHER_EGR: [rules.EGR],
        Unlike.RECIRCULATION_UNKNOWN: [signal["recirculated"]],
    }
    for reason in why:
        wanted += extra.get(reason, [])
    known = [s for s in dict.fromkeys(wanted) if s.partition("@")[0] in work.model.signals]
    return Refusal(slot, why, one, other, tuple(known))


def _figures(before: RoundSeen, after: RoundSeen) -> Iterator[Figure]:
    for slot in rules.FIGURES:
        one, other = before.facts.full.facts.get(slot), after.facts.full.facts.get(slot)
        if one is None or other is None:
            continue
        unit = one.unit or ""
        early, late = measured(one, unit), measured(other, unit)
        if early is not None and late is not None:
            yield Figure(slot, early, late, unit)
