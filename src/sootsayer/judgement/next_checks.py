"""The checks that are worth doing next, the most useful per minute first."""

from __future__ import annotations

from sootsayer.interview.bundles import bundles
from sootsayer.interview.choosing import Scored, ranked
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import Situation
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import NextCheckSaid
from sootsayer.rulebook.model import Model


def next_checks(now: Situation, scorer: Scorer) -> tuple[NextCheckSaid, ...]:
    """Every open check that would tell something, the most useful first."""
    return tuple(
        _said(now.model, scored) for scored in ranked(scorer, bundles(now)) if scored.gain_bits
    )


def _said(model: Model, scored: Scored) -> NextCheckSaid:
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
    )
