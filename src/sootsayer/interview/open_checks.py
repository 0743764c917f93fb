"""Which checks can still be done here and now."""

from __future__ import annotations

from sootsayer.interview.situation import Situation
from sootsayer.rulebook.model import CODES, Check
from sootsayer.rulebook.reads import slots_given


def open_checks(now: Situation) -> dict[str, Check]:
    """The checks that are open, by id: something that they give was never asked, they apply,
    the tools for them are at hand, nothing that they take is forbidden, nobody put them off."""
    return {check.id: check for check in now.model.checks.values() if is_open(now, check)}


def is_open(now: Situation, check: Check) -> bool:
    """Whether the check can still be done."""
    if check.id in now.ruled_out or check.id in now.later:
        return False
    if now.tools is not None and not now.tools.issuperset(check.tools):
        return False
    if any(steps_before(now, action) is None for action in check.by_actions):
        return False
    return bool(open_slots(now, check))


def open_slots(now: Situation, check: Check) -> frozenset[str]:
    """What the check gives of which nothing was said: neither a value nor why there is none."""
    if CODES in check.gives and CODES not in now.asked:
        return frozenset(s for s in slots_given(now.model, check) if s not in now.asked)
    return frozenset(slot for slot in check.gives if slot not in now.asked and slot != CODES)


def steps_before(now: Situation, action: str) -> tuple[str, ...] | None:
    """The checks that must be done before the action is clear; None where it is forbidden."""
    return () if now.before_action is None else now.before_action.get(action, ())
