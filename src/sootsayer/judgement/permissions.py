"""What may be done: each action with its interlocks, weighed on ever stricter facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.advice.permissions import Readings, drive_on_state, permit, weigh
from sootsayer.casework.model import Fact
from sootsayer.data_classes import dataclass
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


@dataclass(frozen=True, slots=True)
class _Weighed:
    """How an interlock stands, and what it sees of the facts that are young enough for it."""

    state: Permitted
    reason: Reason
    young: View


def permissions(work: Workings) -> tuple[PermissionSaid, ...]:
    """Every action, by id."""
    found = _weighed(work)
    said = {i.id: _interlock(work, i, found[i.id]) for i in work.model.interlocks.values()}
    return tuple(_permission(action, said) for action in work.model.actions.values())


def permission_states(work: Workings) -> tuple[dict[str, Permitted], DriveOn]:
    """As `permissions` and `drive_on`, each action's state alone: a fraction of the time."""
    locks = {name: each.state for name, each in _weighed(work).items()}
    found = {
        action.id: permit([locks[i] for i in action.needs], [locks[i] for i in action.heeds])
        for action in work.model.actions.values()
    }
    drive = work.model.actions.get(DRIVE_ON)
    if drive is None:
        return found, DriveOn.NOT_YET_KNOWN
    its = {i: locks[i] for i in (*drive.needs, *drive.heeds)}
    return found, drive_on_state(found[DRIVE_ON], its, drive.states)[0]


def _weighed(work: Workings) -> dict[str, _Weighed]:
    """Every interlock, each set of facts run through the engine once for all of them."""
    locks = work.model.interlocks
    slots = {name: (interlock_slot(name), applies_slot("interlock", name)) for name in locks}
    wanted = [
        slot
        for pair in slots.values()
        for slot in pair
        if slot in work.rulebook.program.definitions
    ]
    trusted, proven = (_truths(work, wanted, seen) for seen in (work.trusted, work.proven))
    views, undecided = _young_views(work), dict.fromkeys(close_ones(work))
    each = {id(seen): seen for seen in views.values()}
    runs = {key: _truths(work, wanted, seen) for key, seen in each.items()}
    found = {}
    for name, (holds, applies) in slots.items():
        young = views[name]
        truths = trusted[holds], proven[holds], runs[id(young)][holds]
        ends = None
        if truths == (True, True, True):  # else nothing asks for it
            ends = _at_worse_ends(work, holds, young.given(undecided))
        state, reason = weigh(Readings(trusted.get(applies, True), *truths, ends))
        found[name] = _Weighed(state, reason, young)
    return found


def _truths(work: Workings, names: Sequence[str], seen: View) -> dict[str, Truth]:
    values = work.rulebook.program.run(seen.values, work.limits, only=names)
    return {name: value if isinstance(value, bool) else None for name, value in values.items()}


def _young_views(work: Workings) -> dict[str, View]:
    """What each interlock sees of the facts that are young enough for it."""
    ages = {i.id: _within(work, i) for i in work.model.interlocks.values()}
    views = {id(seen): seen for seen in work.decided_in.values()}.values()
    facts = {id(fact): fact for each in work.sheet.by_source.values() for fact in each}
    facts |= {id(fact): fact for fact in work.codes.values()}
    facts |= {id(fact): fact for seen in views for fact in seen.facts.values()}
    minutes = {i: age_of(work, fact) for i, fact in facts.items()}
    by_age: dict[float | None, View] = {}
    by_old: dict[frozenset[int], View] = {}  # ages for which the same facts are too old
    for within in dict.fromkeys(ages.values()):
        if within is None:
            by_age[within] = work.proven
            continue
        old = frozenset(i for i, age in minutes.items() if age is None or age > within)
        if old not in by_old:
            by_old[old] = _fresh_view(work, old)
        by_age[within] = by_old[old]
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


def _interlock(work: Workings, interlock: Interlock, found: _Weighed) -> InterlockSaid:
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


def _fresh_view(work: Workings, old: frozenset[int]) -> View:
    """What is left without the facts of these ids."""
    trust = work.found.trust

    def young(fact: Fact) -> bool:
        return id(fact) not in old

    seen = view(
        work.sheet,
        work.model,
        lambda f: trust.settled(f) and young(f),
        trust.corrected,
    )
    codes = {slot: fact for slot, fact in work.codes.items() if young(fact)}
    return with_codes(seen, codes).given(decided_by(work, young))


def _within(work: Workings, interlock: Interlock) -> float | None:
    """The greatest age in minutes: the shop's own where it has one, else the pack's."""
    own = work.shop.ages.get(interlock.id) if work.shop is not None else None
    return interlock.within_minutes if own is None else own


def age_of(work: Workings, fact: Fact) -> float | None:
    """The age of a fact in minutes; None where it is of a later time, or made old by work."""
    minutes = (work.now - fact.at).total_seconds() / 60
    worked = work.last_work is not None and before(fact, work.last_work)
    return None if worked or minutes < 0 else minutes


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
