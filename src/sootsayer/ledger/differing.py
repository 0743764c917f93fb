"""What two verdicts on one case say differently, headline by headline."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from sootsayer.advice.permissions import Permitted
from sootsayer.ledger import headlines
from sootsayer.ledger.replay_model import Difference, Of

NOT_THERE = ""
# A confidence that moves by less than a point, or of a fault that nobody would tell of, is noise
# to a reader.
_POINT, _WORTH = 0.01, 0.05
_LOOSER = {Permitted.CLEAR.value: 2, Permitted.NOT_YET_CLEAR.value: 1, Permitted.BLOCKED.value: 0}


def differences(
    then: Mapping[str, Any], now: Mapping[str, Any], *, work: bool = True
) -> tuple[Difference, ...]:
    """Everything worth telling that differs, in the order of `Of`, then by id."""
    found = [*_drive(then, now), *_states(Of.PERMISSION, headlines.permissions, then, now)]
    found += _states(Of.LEADING, headlines.leading, then, now)
    found += _confidences(then, now)
    found += _states(Of.FINDING, headlines.findings, then, now)
    found += _limits(then, now)
    if work:
        found += _states(Of.WORK, headlines.work, then, now)
    return tuple(found)


def _drive(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Difference]:
    pair = headlines.drive_on(then), headlines.drive_on(now)
    if pair[0] != pair[1]:
        yield Difference(Of.DRIVE, "drive-on", *pair)


def _states(
    of: Of, states: Any, then: Mapping[str, Any], now: Mapping[str, Any]
) -> Iterator[Difference]:
    was, is_ = states(then), states(now)
    for id_ in sorted({*was, *is_}):
        pair = was.get(id_, NOT_THERE), is_.get(id_, NOT_THERE)
        # A new finding that says nothing of this case is no difference to it.
        if pair[0] != pair[1] and not {*pair} <= {NOT_THERE, "unknown", "false"}:
            yield Difference(of, id_, *pair)


def _confidences(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Difference]:
    was, is_ = headlines.confidences(then), headlines.confidences(now)
    for fault in sorted({*was, *is_}, key=lambda f: (-max(was.get(f, 0), is_.get(f, 0)), f)):
        pair = was.get(fault), is_.get(fault)
        ends = [share for share in pair if share is not None]
        moved = len(ends) < 2 or abs(ends[0] - ends[1]) >= _POINT
        if moved and max(ends) >= _WORTH:
            told = (NOT_THERE if share is None else f"{share:.6f}" for share in pair)
            yield Difference(Of.CONFIDENCE, fault, *told)


def _limits(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Difference]:
    was, is_ = headlines.limits(then), headlines.limits(now)
    for limit in sorted({*was} & {*is_}):
        if was[limit] != is_[limit]:
            yield Difference(Of.LIMIT, limit, f"{was[limit]:.10g}", f"{is_[limit]:.10g}")
