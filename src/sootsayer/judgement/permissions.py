"""What may be done: each action with its interlocks, weighed on ever stricter facts."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from sootsayer.advice.permissions import Readings, drive_on_state, permit, weigh
from sootsayer.casework.model import Fact
from sootsayer.engine.conditions import Truth
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
    young = _young_views(work)
    said = {i.id: _interlock(work, i, young[i.id]) for i in work.model.interlocks.values()}
    return tuple(_permission(action, said) for action in work.model.actions.values())


def permission_states(work: Workings) -> tuple[dict[str, Permitted], DriveOn]:
    """As `permissions` and `drive_on`, each action's state alone: a fraction of the time."""
    young = _young_views(work)
    locks = {i.id: _weighed(work, i, young[i.id])[0] for i in work.model.interlocks.values()}
    found = {
        action.id: permit([locks[i] for i in action.needs], [locks[i] for i in action.heeds])
        for action in work.model.actions.values()
    }
    drive = work.model.actions.get(DRIVE_ON)
    if drive is None:
        return found, DriveOn.NOT_YET_KNOWN
    its = {i: locks[i] for i in (*drive.needs, *drive.heeds)}
    return found, drive_on_state(found[DRIVE_ON], its, drive.states)[0]


def _young_views(work: Workings) -> dict[str, View]:
    """What each interlock sees of the facts that are young enough for it."""
    ages = {i.id: _within(work, i) for i in work.model.interlocks.values()}
    # Interlocks of one age see the same facts: one view for each age.
    by_age = {within: _fresh_view(work, within) for within in dict.fromkeys(ages.values())}
    return {name: by_age[within] for name, within in ages.items()}


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


def _interlock(work: Workings, interlock: Interlock, young: View) -> InterlockSaid:
    name = interlock_slot(interlock.id)
    state, reason = _weighed(work, interlock, young)
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


def _weighed(work: Workings, interlock: Interlock, young: View) -> tuple[Permitted, Reason]:
    name = interlock_slot(interlock.id)
    return weigh(
        Readings(
            applies=_truth(work, applies_slot("interlock", interlock.id), work.trusted),
            trusted=_truth(work, name, work.trusted),
            proven=_truth(work, name, work.proven),
            fresh=_truth(work, name, young),
            ends=_at_worse_ends(work, name, young),
        )
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
    young = partial(is_fresh, work, within)
    seen = view(
        work.sheet,
        work.model,
        lambda f: trust.settled(f) and young(f),
        trust.corrected,
    )
    codes = {slot: fact for slot, fact in work.codes.items() if young(fact)}
    decided = {name: work.derived[name] for name in work.decided_in}
    return with_codes(seen, codes).given(decided)


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
    for values in worse_ends(program, seen, work.limits, name):
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
    if reason is Reason.TOO_OLD:
        return awaited(work, name, young)
    if reason is Reason.TOO_CLOSE:
        return tuple(g.slot for g in grounds_of(work, name, work.trusted))
    return ()


def _would_clear(work: Workings, interlock: Interlock, waits: tuple[str, ...]) -> tuple[str, ...]:
    if interlock.ask:
        return interlock.ask
    ruled_out = {c: work.derived.get(applies_slot("check", c)) is False for c in work.model.checks}
    return tuple(checks_giving(work.model, waits, ruled_out))
