"""What may be done: each action with its interlocks."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.advice.permissions import drive_on_state, permit
from sootsayer.judgement.grounds import awaited, checks_giving, grounds_of, rule_at
from sootsayer.judgement.interlocks import Weighed, weighed
from sootsayer.judgement.verdict import (
    DriveOn,
    DriveOnSaid,
    InterlockSaid,
    PermissionSaid,
    Permitted,
    Reason,
)
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, interlock_slot
from sootsayer.rulebook.model import Action, Interlock

DRIVE_ON = "drive-on"


def permissions(work: Workings) -> tuple[PermissionSaid, ...]:
    """Every action, by id."""
    found = weighed(work)
    said = {i.id: _interlock(work, i, found[i.id]) for i in work.model.interlocks.values()}
    return tuple(_permission(action, said) for action in work.model.actions.values())


def permission_states(work: Workings) -> tuple[dict[str, Permitted], DriveOn]:
    """As `permissions` and `drive_on`, each action's state alone: a fraction of the time."""
    locks = {name: each.state for name, each in weighed(work).items()}
    found = {
        action.id: permit([locks[i] for i in action.needs], [locks[i] for i in action.heeds])
        for action in work.model.actions.values()
    }
    drive = work.model.actions.get(DRIVE_ON)
    if drive is None:
        return found, DriveOn.NOT_YET_KNOWN
    its = {i: locks[i] for i in (*drive.needs, *drive.heeds)}
    return found, drive_on_state(found[DRIVE_ON], its, drive.states)[0]


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


def _interlock(work: Workings, interlock: Interlock, found: Weighed) -> InterlockSaid:
    name = interlock_slot(interlock.id)
    waits = _awaits(work, name, found.reason, found.young)
    return InterlockSaid(
        id=interlock.id,
        says=interlock.says,
        state=found.state,
        reason=found.reason,
        grounds=grounds_of(work, name, work.trusted),
        awaits=waits,
        would_clear=_would_clear(work, interlock, waits) if waits else (),
        rule=rule_at(interlock.place.file, interlock.place.line, interlock.revision),
        when_not=interlock.when_not,
    )


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
