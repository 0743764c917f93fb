"""Other orders of asking: the customary one, and the cheapest first. For training, and to be
measured against."""

from __future__ import annotations

from collections.abc import Iterable

from sootsayer.interview.bundles import Bundle
from sootsayer.interview.open_checks import steps_before
from sootsayer.interview.situation import Situation, moving_minutes
from sootsayer.rulebook.model import Model


def customary_order(model: Model) -> tuple[str, ...]:
    """All checks in the customary order of the packs; those that it does not name, by id."""
    named = dict.fromkeys(model.customary_order)
    return (*named, *(id_ for id_ in model.checks if id_ not in named))


def telling(now: Situation, bundles: Iterable[Bundle]) -> frozenset[str]:
    """The checks that are part of anything that would let a finding speak, and that can be done
    now: nothing has to be done before them."""
    checks = now.model.checks
    return frozenset(
        id_
        for bundle in bundles
        for id_ in bundle.checks
        if not any(steps_before(now, action) for action in checks[id_].by_actions)
    )


def by_custom(now: Situation, open_: frozenset[str]) -> tuple[str, ...]:
    """The open checks in the customary order."""
    return tuple(id_ for id_ in customary_order(now.model) if id_ in open_)


def cheapest_first(now: Situation, open_: frozenset[str]) -> tuple[str, ...]:
    """The open checks by their minutes, the way to them included; ties by id."""

    def minutes(id_: str) -> float:
        check = now.model.checks[id_]
        return check.minutes + moving_minutes(now.stage, check.where)

    return tuple(sorted(open_, key=lambda id_: (minutes(id_), id_)))
