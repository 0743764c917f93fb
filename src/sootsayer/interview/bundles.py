"""Checks that only tell something together, and the findings that they let speak.

A finding may wait for readings of several checks. To an asker that looks one step ahead each
of them alone would seem worth nothing; so what is still missing is weighed as one bundle, and
the first step of it is worth what the bundle is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sootsayer.belief.network import Observable
from sootsayer.interview.open_checks import open_checks, open_slots, steps_before
from sootsayer.interview.situation import STAGES, Situation, channel_of, moving_minutes
from sootsayer.rulebook.model import Check
from sootsayer.rulebook.network import observable_for
from sootsayer.rulebook.reads import family_of, members_of

MOST_CHECKS = 5  # that a finding waits for; what needs more is left to the technician


@dataclass(frozen=True, slots=True)
class Yield:
    """A family that gets a voice, or a better one: which member speaks and how it sees.
    `instead_of` is the member that spoke before, None where none did."""

    family: str
    finding: str
    seen: Observable
    instead_of: str | None


@dataclass(frozen=True, slots=True)
class Bundle:
    """Checks in the order in which they are done, and all that they yield.

    `minutes`: of all of them, ways between stages included; `ahead`: the first of them belongs
    to a later stage than the present one.
    """

    checks: tuple[str, ...]
    minutes: float
    yields: tuple[Yield, ...]
    ahead: bool = False

    @property
    def first(self) -> str:
        return self.checks[0]


def bundles(now: Situation) -> tuple[Bundle, ...]:
    """Every open check with what must be done before it, and every set of checks that a finding
    waits for; those that let no family speak are left out. In the order of their checks."""
    checks = open_checks(now)
    opened = {id_: open_slots(now, check) for id_, check in checks.items()}
    waiting = _waiting(now, opened)
    steps = {
        id_: frozenset(s for action in check.by_actions for s in steps_before(now, action) or ())
        for id_, check in checks.items()
    }
    ranks = {check.id: i for i, check in enumerate(sorted(checks.values(), key=_rank))}
    sets = {closed for id_ in checks if (closed := _closed(ranks, steps, (id_,))) is not None}
    giving = _by_slot(opened)
    for slots in set(waiting.values()):
        cover = _cover(slots, checks, opened, giving)
        if cover is not None and len(cover) <= MOST_CHECKS:
            closed = _closed(ranks, steps, cover)
            if closed is not None:
                sets.add(closed)
    families = {finding: family_of(now.model, finding) for finding in waiting}
    channels = {
        id_: {slot: channel_of(now.model, checks[id_], slot) for slot in slots}
        for id_, slots in opened.items()
    }
    # Each under one of its slots: which cannot all be there where that one is not.
    awaiting = _by_slot({finding: (min(slots),) for finding, slots in waiting.items()})
    found = [_bundle(now, checks, waiting, awaiting, families, channels, each) for each in sets]
    return tuple(sorted((b for b in found if b.yields), key=lambda b: b.checks))


def _by_slot(sets: Mapping[str, Iterable[str]]) -> dict[str, list[str]]:
    """For each slot the names in whose sets it is."""
    found: dict[str, list[str]] = {}
    for name, slots in sets.items():
        for slot in slots:
            found.setdefault(slot, []).append(name)
    return found


def _waiting(now: Situation, opened: Mapping[str, frozenset[str]]) -> dict[str, frozenset[str]]:
    """The findings with evidence that open checks can decide, with what they wait for."""
    can_be_had = frozenset().union(*opened.values())
    found = {}
    for finding, slots in now.awaits.items():
        family = family_of(now.model, finding)
        if slots and family in now.model.evidence and can_be_had.issuperset(slots):
            speaker = now.speakers.get(family)
            members = members_of(now.model, family)
            if speaker is None or members.index(finding) < members.index(speaker):
                found[finding] = frozenset(slots)
    return found


def _cover(
    slots: frozenset[str],
    checks: Mapping[str, Check],
    opened: Mapping[str, frozenset[str]],
    giving: Mapping[str, Sequence[str]],
) -> tuple[str, ...] | None:
    """A cheap set of checks that gives all the slots: the most slots per minute first."""
    left, chosen = set(slots), []
    while left:
        useful = {id_ for slot in left for id_ in giving.get(slot, ())}
        if not useful:
            return None
        best = min(useful, key=lambda id_: (checks[id_].minutes / len(left & opened[id_]), id_))
        chosen.append(best)
        left -= opened[best]
    return tuple(chosen)


def _closed(
    ranks: Mapping[str, int], steps: Mapping[str, frozenset[str]], wanted: Iterable[str]
) -> tuple[str, ...] | None:
    """The checks with all that must be done before them (`steps`), in the order of doing
    (`ranks` of those that can be done); None where something needed cannot be done."""
    before: dict[str, frozenset[str]] = {}
    waiting = list(wanted)
    while waiting:
        id_ = waiting.pop()
        if id_ not in ranks:
            return None
        if id_ not in before:
            before[id_] = steps[id_]
            waiting.extend(before[id_])
    if not any(before.values()):
        return tuple(sorted(before, key=ranks.__getitem__))
    done: list[str] = []
    while len(done) < len(before):
        ready = [i for i, first in before.items() if i not in done and first.issubset(done)]
        if not ready:  # each waits for the other
            return None
        done.append(min(ready, key=ranks.__getitem__))
    return tuple(done)


def _rank(check: Check) -> tuple[int, float, str]:
    return STAGES.index(check.where), check.minutes, check.id


def _bundle(
    now: Situation,
    checks: Mapping[str, Check],
    waiting: Mapping[str, frozenset[str]],
    awaiting: Mapping[str, Sequence[str]],
    families: Mapping[str, str],
    channels: Mapping[str, Mapping[str, str]],
    done: tuple[str, ...],
) -> Bundle:
    through: dict[str, str] = {}
    minutes, stage = 0.0, now.stage
    for id_ in done:
        check = checks[id_]
        minutes += check.minutes + moving_minutes(stage, check.where)
        stage = check.where
        through.update(channels[id_])
    speaking: dict[str, str] = {}
    for finding in (each for slot in through for each in awaiting.get(slot, ())):
        slots = waiting[finding]
        if slots <= through.keys() and not _set_aside(now, finding, slots, through):
            family = families[finding]
            members = members_of(now.model, family)
            best = speaking.setdefault(family, finding)
            if members.index(finding) < members.index(best):
                speaking[family] = finding
    yields = tuple(
        _yield(now, family, finding, through) for family, finding in sorted(speaking.items())
    )
    ahead = STAGES.index(checks[done[0]].where) > STAGES.index(now.stage)
    return Bundle(done, minutes, yields, ahead)


def _set_aside(
    now: Situation, finding: str, slots: frozenset[str], through: Mapping[str, str]
) -> bool:
    """Whether what a finding reads would come through a channel that is distrusted."""
    tested = now.model.findings[finding].tests_channel
    return any(through[s] in now.distrusted and through[s] != tested for s in slots)


def _yield(now: Situation, family: str, finding: str, through: Mapping[str, str]) -> Yield:
    read = {through[slot] for slot in now.awaits[finding]} - {""}
    seen = observable_for(now.model, family, finding, sorted(read))
    return Yield(family, finding, seen, now.speakers.get(family))
