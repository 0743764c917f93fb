"""The findings of a case: what each says, on what grounds, and what was set aside."""

from __future__ import annotations

from sootsayer.engine.conditions import Value
from sootsayer.judgement.grounds import awaited, grounds_of, rule_at
from sootsayer.judgement.rounding import six
from sootsayer.judgement.softness import as_level, borderline, weights
from sootsayer.judgement.verdict import ChannelState, FindingSaid, Ground
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import FindingDef


def findings(work: Workings) -> tuple[FindingSaid, ...]:
    """Every finding, by id."""
    return tuple(_finding(work, finding) for finding in work.model.findings.values())


def soft_levels(work: Workings, finding: FindingDef) -> tuple[float, ...]:
    """The level weights of a known finding, lowest level first."""
    found = work.soft.get(finding.id)
    if found is None:
        name, seen, program = finding.id, work.view_of(finding.id), work.rulebook.program
        value = work.derived[name]
        if name in seen.values:
            seen = View(seen.facts, seen.before(name))
            value = program.run(seen.values, work.limits, only=(name,))[name]
        found = weights(program, seen, work.limits, name, finding.levels, value)
        work.soft[finding.id] = found
    return found


def _finding(work: Workings, finding: FindingDef) -> FindingSaid:
    value = work.derived[finding.id]
    aside, would_be = set_aside(work, finding.id, value)
    soft = () if value is None else soft_levels(work, finding)
    close = bool(soft) and borderline(soft)
    return FindingSaid(
        id=finding.id,
        says=finding.says,
        level=as_level(value),
        graded=finding.graded,
        borderline=close,
        grounds=_grounds(work, finding.id, value, aside),
        rule=rule_at(finding.place.file, finding.place.line, finding.revision),
        set_aside=aside,
        would_be=would_be,
        weights=tuple(six(weight) for weight in soft) if close else (),
        awaits=awaited(work, finding.id) if value is None and aside is None else (),
    )


def _grounds(work: Workings, name: str, value: Value, aside: str | None) -> tuple[Ground, ...]:
    if value is None and aside is None:  # what is unknown has none
        return ()
    return grounds_of(work, name) if aside is None else grounds_of(work, name, work.full)


def set_aside(work: Workings, name: str, value: Value) -> tuple[str | None, str | None]:
    """The distrusted channel for whose sake a finding is set aside, and what it would have said."""
    if value is not None or work.would_be[name] is None:
        return None, None
    for slot in sorted(work.rulebook.program.reads(name)):
        fact = work.full.facts.get(slot)
        if fact is not None and work.found.trust.distrusted(fact):
            distrusted = sorted(c for c in fact.channels if _distrusted(work, c))
            return distrusted[0], as_level(work.would_be[name])
    return None, None


def _distrusted(work: Workings, channel: str) -> bool:
    return work.found.trust.states.get(channel) is ChannelState.DISTRUSTED
