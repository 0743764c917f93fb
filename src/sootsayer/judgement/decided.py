"""What is decided beforehand, channel tests above all, as a permission may rest on it.

A test that passed long ago, or that passed by less than the error of its reading, is a test
that passed; it is no permission.
"""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.engine.conditions import Value
from sootsayer.judgement.findings import soft_levels
from sootsayer.judgement.softness import borderline
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings


def decided_by(work: Workings, old: frozenset[int]) -> dict[str, Value]:
    """Each of them without the facts of these ids; None where what is left does not decide it."""
    seen_by: dict[int, list[str]] = {}  # many were decided in one view
    for name, seen in work.decided_in.items():
        seen_by.setdefault(id(seen), []).append(name)
    found: dict[str, Value] = {}
    for names in seen_by.values():
        left = _young_part(work, names, old)
        found.update(_again(work, names, left))
    return {name: found[name] for name in work.decided_in}


def close_ones(work: Workings) -> frozenset[str]:
    """Those whose readings stand so near to a threshold that they could be otherwise."""
    return frozenset(
        name for name in work.decided_in if borderline(soft_levels(work, work.model.findings[name]))
    )


def _young_part(work: Workings, names: Sequence[str], old: frozenset[int]) -> View | None:
    """What the view in which these were decided has without the facts of these ids; None where
    none of them was read for it."""
    seen, reads = work.decided_in[names[0]], work.rulebook.program.reads
    read = {slot for name in names for slot in reads(name) if slot in seen.facts}
    gone = {slot for slot in read if id(seen.facts[slot]) in old}
    if not gone:
        return None
    return View(seen.facts, {slot: v for slot, v in seen.values.items() if slot not in gone})


def _again(work: Workings, names: Sequence[str], left: View | None) -> dict[str, Value]:
    if left is None:
        return {name: work.derived[name] for name in names}
    run, limits = work.rulebook.program.run, work.limits
    once = [name for name in names if name not in left.values]
    values = run(left.values, limits, only=once) if once else {}
    for name in names:
        if name in left.values:
            values[name] = run(left.before(name), limits, only=(name,))[name]
    return {name: values[name] for name in names}
