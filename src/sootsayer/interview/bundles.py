"""Checks that only tell something together, and the findings that they let speak.

A finding may wait for readings of several checks. To an asker that looks one step ahead each
of them alone would seem worth nothing; so what is still missing is weighed as one bundle, and
the first step of it is worth what the bundle is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sootsayer.belief.network import Observable
from sootsayer.interview.open_checks import open_checks, open_slots, steps_before
from sootsayer.interview.situation import STAGES, Situation, channel_of, moving_minutes
from sootsayer.rulebook.model import Check
from sootsayer.rulebook.network import observable_for
from sootsayer.rulebook.reads import family_of, members_of

MOST_CHECKS = 5  # of a bundle; what needs more is left to chance and to the technician


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

    `minutes`: of all of them, ways between stages included.
    """

    checks: tuple[str, ...]
    minutes: float
    yields: tuple[Yield, ...]

    @property
    def first(self) -> str:
        return self.checks[0]


def bundles(now: Situation) -> tuple[Bundle, ...]:
    """Every open check with what must be done before it, and every set of checks that a finding
    waits for; those that let no family speak are left out. In the order of their checks."""
    checks = open_checks(now)
    opened = {id_: open_slots(now, check) for id_, check in checks.items()}
    waiting = _waiting(now, opened)
    sets = {closed for id_ in checks if (closed := _closed(now, checks, (id_,))) is not None}
    for slots in set(waiting.values()):
        cover = _cover(slots, checks, opened)
        closed = None if cover is None else _closed(now, checks, cover)
        if closed is not None and len(closed) <= MOST_CHECKS:
            sets.add(closed)
    families = {finding: family_of(now.model, finding) for finding in waiting}
    found = [_bundle(now, checks, opened, waiting, families, each) for each in sets]
    return tuple(sorted((b for b in found if b.yields), key=lambda b: b.checks))


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
    slots: frozenset[str], checks: Mapping[str, Check], opened: Mapping[str, frozenset[str]]
) -> tuple[str, ...] | None:
    """A cheap set of checks that gives all the slots: the most slots per minute first."""
    left, chosen = set(slots), []
    while left:
        useful = [id_ for id_ in checks if left & opened[id_]]
        if not useful:
            return None
        best = min(useful, key=lambda id_: (checks[id_].minutes / len(left & opened[id_]), id_))
        chosen.append(best)
        left -= opened[best]
    return tuple(chosen)


def _closed(
    now: Situation, checks: Mapping[str, Check], wanted: Iterable[str]
) -> tuple[str, ...] | None:
    """The checks with all that must be done before them, in the order of doing; None where
    something needed cannot be done."""
    done: list[str] = []
    for id_ in sorted(wanted, key=lambda each: _rank(checks[each])):
        if not _add(now, checks, id_, done, ()):
            return None
    return tuple(done)


def _add(
    now: Situation,
    checks: Mapping[str, Check],
    id_: str,
    done: list[str],
    above: tuple[str, ...],
) -> bool:
    if id_ in done:
        return True
    if id_ not in checks or id_ in above:
        return False
    for action in checks[id_].by_actions:
        for step in steps_before(now, action) or ():
            if not _add(now, checks, step, done, (*above, id_)):
                return False
    done.append(id_)
    return True


def _rank(check: Check) -> tuple[int, float, str]:
    return STAGES.index(check.where), check.minutes, check.id


def _bundle(
    now: Situation,
    checks: Mapping[str, Check],
    opened: Mapping[str, frozenset[str]],
    waiting: Mapping[str, frozenset[str]],
    families: Mapping[str, str],
    done: tuple[str, ...],
) -> Bundle:
    through: dict[str, str] = {}
    minutes, stage = 0.0, now.stage
    for id_ in done:
        check = checks[id_]
        minutes += check.minutes + moving_minutes(stage, check.where)
        stage = check.where
        through.update({slot: channel_of(now.model, check, slot) for slot in opened[id_]})
    speaking: dict[str, str] = {}
    for finding, slots in waiting.items():
        if through.keys() >= slots and not _set_aside(now, finding, slots, through):
            family = families[finding]
            members = members_of(now.model, family)
            best = speaking.setdefault(family, finding)
            if members.index(finding) < members.index(best):
                speaking[family] = finding
    yields = tuple(
        _yield(now, family, finding, through) for family, finding in sorted(speaking.items())
    )
    return Bundle(done, minutes, yields)


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
