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
    return {name: _again(work, name, seen, young) for name, seen in work.decided_in.items()}


def close_ones(work: Workings) -> frozenset[str]:
    """Those whose readings stand so near to a threshold that they could be otherwise."""
    return frozenset(name for name, seen in work.decided_in.items() if _is_close(work, name, seen))


def _again(work: Workings, name: str, seen: View, young: Callable[[Fact], bool]) -> Value:
    old = {slot for slot, fact in seen.facts.items() if not young(fact)}
    if not old:
        return work.derived[name]
    values = {slot: value for slot, value in seen.values.items() if slot not in {*old, name}}
    return work.rulebook.program.run(values, work.limits, only=(name,))[name]


def _is_close(work: Workings, name: str, seen: View) -> bool:
    levels = work.model.findings[name].levels
    undecided = View(seen.facts, {s: value for s, value in seen.values.items() if s != name})
    return borderline(weights(work.rulebook.program, undecided, work.limits, name, levels))
