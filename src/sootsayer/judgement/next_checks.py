"""The checks that are worth doing next, the most useful per minute first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sootsayer.interview.bundles import bundles
from sootsayer.interview.choosing import Scored, ranked
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import Situation
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import NextCheckSaid, PermissionSaid, Permitted
from sootsayer.rulebook.model import Model


def useful(now: Situation, scorer: Scorer) -> tuple[Scored, ...]:
    """Every open check that would tell something, as stored, with what must follow, best first."""
    return tuple(each for each in ranked(scorer, bundles(now)) if six(each.gain_bits) > 0.0)


def said(
    model: Model, order: Sequence[Scored], waited_for: Mapping[str, tuple[str, ...]]
) -> tuple[NextCheckSaid, ...]:
    """The same as a verdict says it."""
    return tuple(_said(model, each, waited_for) for each in order)


def waited_for(permitted: Sequence[PermissionSaid]) -> dict[str, tuple[str, ...]]:
    """For each check the interlocks, of any of these actions, that it could clear."""
    found: dict[str, dict[str, None]] = {}
    for permission in permitted:
        for lock in permission.interlocks:
            if lock.state is Permitted.NOT_YET_CLEAR:
                for check in lock.would_clear:
                    found.setdefault(check, {})[lock.id] = None
    return {check: tuple(locks) for check, locks in sorted(found.items())}


def _said(model: Model, scored: Scored, waited: Mapping[str, tuple[str, ...]]) -> NextCheckSaid:
    first, *others = scored.bundle.checks
    check = model.checks[first]
    return NextCheckSaid(
        id=first,
        does=check.does,
        where=check.where.value,
        minutes=check.minutes,
        caution=check.caution,
        gain_bits=six(scored.gain_bits),
        in_all_minutes=six(scored.bundle.minutes),
        then=tuple(others),
        tells=tuple(each.family for each in scored.bundle.yields),
        clears=waited.get(first, ()),
    )
