"""What may be done: each action with its interlocks, weighed on ever stricter facts."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import partial

from sootsayer.advice.permissions import Readings, drive_on_state, permit, weigh
from sootsayer.casework.model import Fact
from sootsayer.engine.conditions import Truth
from sootsayer.judgement.decided import close_ones, decided_by
from sootsayer.judgement.grounds import awaited, checks_giving, grounds_of, rule_at
from sootsayer.judgement.rounds import before
from sootsayer.judgement.softness import worse_ends
from sootsayer.judgement.trust import with_codes
from sootsayer.judgement.verdict import (
    DriveOn,
    DriveOnSaid,
    InterlockSaid,
    PermissionSaid,
    Permitted,
    Reason,
)
from sootsayer.judgement.views import View, view
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, interlock_slot
from sootsayer.rulebook.model import Action, Interlock

DRIVE_ON = "drive-on"


def permissions(work: Workings) -> tuple[PermissionSaid, ...]:
    """Every action, by id."""
    ages = {i.id: _within(work, i) for i in work.model.interlocks.values()}
    # Interlocks of one age see the same facts: one view for each age.
    young = {within: _fresh_view(work, within) for within in dict.fromkeys(ages.values())}
    close = close_ones(work)
    said = {
        i.id: _interlock(work, i, young[ages[i.id]], close) for i in work.model.interlocks.values()
    }
    return tuple(_permission(action, said) for action in work.model.actions.values())


def _permission(action: Action, said: Mapping[str, InterlockSaid]) -> PermissionSaid:
    needs = tuple(said[i] for i in action.needs)
    heeds = tuple(said[i] for i in action.heeds)
    return PermissionSaid(
        action=action.id,
        does=action.does,
        state=permit([i.state for i in needs], [i.state for i in heeds]),
        interlocks=needs,
        named=heeds,
        caution=action.caution,
        hurts=action.hurts,
    )


def drive_on(work: Workings, said: tuple[PermissionSaid, ...]) -> DriveOnSaid:
    """The verdict's first line. Without a `drive-on` action in the rulebook: not yet known."""
    permission = next((p for p in said if p.action == DRIVE_ON), None)
    if permission is None:
        return DriveOnSaid(DriveOn.NOT_YET_KNOWN, (), ())
    every = {i.id: i for i in (*permission.interlocks, *permission.named)}
    states = work.model.actions[DRIVE_ON].states
    state, decided = drive_on_state(permission.state, {i: every[i].state for i in every}, states)
    unknown = tuple(i for i in every.values() if i.state is Permitted.NOT_YET_CLEAR)
    return DriveOnSaid(state, tuple(every[i] for i in decided), unknown)


def _interlock(
    work: Workings, interlock: Interlock, young: View, close: Collection[str]
) -> InterlockSaid:
    name = interlock_slot(interlock.id)
    readings = Readings(
        applies=_truth(work, applies_slot("interlock", interlock.id), work.trusted),
        trusted=_truth(work, name, work.trusted),
        proven=_truth(work, name, work.proven),
        fresh=_truth(work, name, young),
        ends=_at_worse_ends(work, name, young.given(dict.fromkeys(close))),
    )
    state, reason = weigh(readings)
    waits = _awaits(work, name, reason, young)
    return InterlockSaid(
        id=interlock.id,
        says=interlock.says,
        state=state,
        reason=reason,
        grounds=grounds_of(work, name, work.trusted),
        awaits=waits,
        would_clear=_would_clear(work, interlock, waits) if waits else (),
        rule=rule_at(interlock.place.file, interlock.place.line, interlock.revision),
        when_not=interlock.when_not,
    )


def _truth(work: Workings, name: str, seen: View) -> Truth:
    if name not in work.rulebook.program.definitions:
        return True
    value = work.rulebook.program.run(seen.values, work.limits, only=(name,))[name]
    return value if isinstance(value, bool) else None


def _fresh_view(work: Workings, within: float | None) -> View:
    if within is None:
        return work.proven
    trust = work.found.trust
    young = _remembering(partial(is_fresh, work, within))
    seen = view(
        work.sheet,
        work.model,
        lambda f: trust.settled(f) and young(f),
        trust.corrected,
    )
    codes = {slot: fact for slot, fact in work.codes.items() if young(fact)}
    return with_codes(seen, codes).given(decided_by(work, young))


def _remembering(young: Callable[[Fact], bool]) -> Callable[[Fact], bool]:
    """The same answers, each worked out once: many tests ask for one fact. Facts are told apart
    by identity, and kept, so that no other can take the place of one."""
    known: dict[int, tuple[Fact, bool]] = {}

    def remembered(fact: Fact) -> bool:
        found = known.get(id(fact))
        if found is None:
            found = known[id(fact)] = fact, young(fact)
        return found[1]

    return remembered


def _within(work: Workings, interlock: Interlock) -> float | None:
    """The greatest age in minutes: the shop's own where it has one, else the pack's."""
    own = work.shop.ages.get(interlock.id) if work.shop is not None else None
    return interlock.within_minutes if own is None else own


def is_fresh(work: Workings, within_minutes: float, fact: Fact) -> bool:
    """Young enough at the moment of judging, not of a later time, and not made old by work."""
    age_minutes = (work.now - fact.at).total_seconds() / 60
    worked = work.last_work is not None and before(fact, work.last_work)
    return 0 <= age_minutes <= within_minutes and not worked


def _at_worse_ends(work: Workings, name: str, seen: View) -> Truth:
    program = work.rulebook.program
    for values in (seen.values, *worse_ends(program, seen, work.limits, name)):
        if program.run(values, work.limits, only=(name,))[name] is not True:
            return None
    return True


def _awaits(work: Workings, name: str, reason: Reason, young: View) -> tuple[str, ...]:
    """What has to be read, again or for the first time."""
    if reason is Reason.UNKNOWN:
        return awaited(work, name, work.trusted)
    if reason is Reason.UNPROVEN_INSTRUMENT:
        slots = awaited(work, name, work.proven)
        facts = [work.trusted.facts[s] for s in slots if s in work.trusted.facts]
        channels = {channel for fact in facts for channel in fact.channels}
        tests = {t for c in channels for t in work.found.channels[c].unsettled}
        return tuple(sorted({slot for test in tests for slot in awaited(work, test)}))
    grounds = tuple(g.slot for g in grounds_of(work, name, work.trusted))
    if reason is Reason.TOO_OLD:
        # Behind a channel test nothing is awaited: there the readings that it rested on are old.
        return awaited(work, name, young) or tuple(s for s in grounds if s not in young.facts)
    return grounds if reason is Reason.TOO_CLOSE else ()


def _would_clear(work: Workings, interlock: Interlock, waits: tuple[str, ...]) -> tuple[str, ...]:
    if interlock.ask:
        return interlock.ask
    ruled_out = {c: work.derived.get(applies_slot("check", c)) is False for c in work.model.checks}
    return tuple(checks_giving(work.model, waits, ruled_out))
