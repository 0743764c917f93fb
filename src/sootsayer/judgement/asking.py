"""A case as the interview sees it: what is open, what is known, what is forbidden."""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.belief.leading import leading_joint
from sootsayer.casework.corrections import code_lists
from sootsayer.casework.model import Absence, Fact
from sootsayer.interview.leading_table import LeadingTable
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import STAGES, Situation
from sootsayer.judgement.beliefs import Believed
from sootsayer.judgement.verdict import (
    ChannelState,
    FamilySaid,
    FindingSaid,
    PermissionSaid,
    Permitted,
)
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot
from sootsayer.rulebook.model import CODES, Model, Where


def situation(
    work: Workings,
    found: Sequence[FindingSaid],
    kin: Sequence[FamilySaid],
    permitted: Sequence[PermissionSaid],
    *,
    stage: Where | None = None,
    later: frozenset[str] = frozenset(),
) -> Situation:
    """Where the case stands. `stage`: where the technician is, None: where the newest entry
    was made; `later`: checks put off in this session."""
    asked = _asked(work)
    tools = None if work.shop is None or work.shop.tools is None else frozenset(work.shop.tools)
    return Situation(
        model=work.model,
        stage=stage or _stage(work),
        asked=asked,
        awaits={f.id: f.awaits for f in found if f.level is None and f.set_aside is None},
        speakers={f.id: f.speaker for f in kin if f.speaker is not None},
        ruled_out=frozenset(
            c for c in work.model.checks if work.derived.get(applies_slot("check", c)) is False
        ),
        later=later,
        tools=tools,
        before_action={p.action: _before(work.model, p, asked) for p in permitted},
        distrusted=frozenset(
            c for c, s in work.found.trust.states.items() if s is ChannelState.DISTRUSTED
        ),
    )


def scorer_of(believed: Believed) -> Scorer:
    """The joint table of the case's leading faults, ready to weigh checks against."""
    problem, posteriors = believed.solved.problem, believed.solved.posteriors
    numbers, joint = leading_joint(problem, posteriors)
    leading = tuple(problem.ids[i] for i in numbers)
    outside = {fault: p for fault, p in posteriors.items() if fault not in leading}
    seen = {each.id: each for each in believed.network.observables}
    entered = {family: (seen[family], levels) for family, levels in believed.evidence.items()}
    return Scorer(LeadingTable(leading, joint, outside), entered)


def _asked(work: Workings) -> frozenset[str]:
    said = {slot for slot, facts in work.sheet.by_source.items() if _is_said(facts)}
    if work.codes or code_lists(work.case, work.sheet.as_of):
        said.add(CODES)
    return frozenset(said)


def _is_said(facts: Sequence[Fact]) -> bool:
    return any(fact.absence is not Absence.NOT_ASKED for fact in facts)


def _stage(work: Workings) -> Where:
    """Where the newest answers were given: the first stage at which a check gives any of them."""
    sheet = work.sheet.by_source
    newest = max((fact.entry for facts in sheet.values() for fact in facts), default=0)
    if not newest:
        return Where.COUNTER
    given = {slot for slot, facts in sheet.items() if any(f.entry == newest for f in facts)}
    stages = (c.where for c in work.model.checks.values() if given.intersection(c.gives))
    return min(stages, key=STAGES.index, default=Where.COUNTER)


def _before(model: Model, said: PermissionSaid, asked: frozenset[str]) -> tuple[str, ...] | None:
    """The checks that have to be done before an action is clear; None where it is forbidden,
    or where no check that is still open would clear it."""
    if said.state is Permitted.BLOCKED:
        return None
    steps: dict[str, None] = {}
    for lock in said.interlocks:
        if lock.state is Permitted.CLEAR:
            continue
        step = next((c for c in lock.would_clear if _gives_news(model, c, asked)), None)
        if step is None:
            return None
        steps[step] = None
    return tuple(steps)


def _gives_news(model: Model, check: str, asked: frozenset[str]) -> bool:
    return not asked.issuperset(model.checks[check].gives)
