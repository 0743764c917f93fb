"""Once work is to be chosen: what the interlocks wait for comes first."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.interview.open_checks import is_open
from sootsayer.interview.situation import STAGES, Situation, moving_minutes


def clearing(now: Situation, wanted: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The open checks that interlocks wait for, in the order in which to do them.

    `wanted`: check to the interlocks that it could clear. Stage by stage, from where the
    technician is; at a stage the check that settles most interlocks a minute first.
    """
    checks = now.model.checks
    open_ = [id_ for id_ in wanted if id_ in checks and is_open(now, checks[id_])]
    here = STAGES.index(now.stage)

    def rank(id_: str) -> tuple[bool, int, float, str]:
        check = checks[id_]
        stage = STAGES.index(check.where)
        minutes = check.minutes + moving_minutes(now.stage, check.where)
        return stage < here, stage, minutes / len(wanted[id_]), id_

    return tuple(sorted(open_, key=rank))
