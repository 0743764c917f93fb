"""What is decided beforehand, channel tests above all, as a permission may rest on it.

A test that passed long ago, or that passed by less than the error of its reading, is a test
that passed; it is no permission.
"""

from __future__ import annotations

from collections.abc import Callable

from sootsayer.casework.model import Fact
from sootsayer.engine.conditions import Value
from sootsayer.judgement.softness import borderline, weights
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings


def decided_by(work: Workings, young: Callable[[Fact], bool]) -> dict[str, Value]:
    """Each of them as the facts that are `young` decide it; None where these do not."""
    views = {id(seen): seen for seen in work.decided_in.values()}  # many were decided in one
    left = {key: _young_part(seen, young) for key, seen in views.items()}
    return {name: _again(work, name, left[id(seen)]) for name, seen in work.decided_in.items()}


def close_ones(work: Workings) -> frozenset[str]:
    """Those whose readings stand so near to a threshold that they could be otherwise."""
    return frozenset(name for name, seen in work.decided_in.items() if _is_close(work, name, seen))


def _young_part(seen: View, young: Callable[[Fact], bool]) -> View | None:
    """What a view has of young facts; None where that is all of it."""
    old = {slot for slot, fact in seen.facts.items() if not young(fact)}
    if not old:
        return None
    return View(seen.facts, {slot: v for slot, v in seen.values.items() if slot not in old})


def _again(work: Workings, name: str, left: View | None) -> Value:
    if left is None:
        return work.derived[name]
    return work.rulebook.program.run(left.before(name), work.limits, only=(name,))[name]


def _is_close(work: Workings, name: str, seen: View) -> bool:
    levels = work.model.findings[name].levels
    undecided = View(seen.facts, seen.before(name))
    return borderline(weights(work.rulebook.program, undecided, work.limits, name, levels))
