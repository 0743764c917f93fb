"""Checks as moves of a plan: what each may show, given each candidate."""

from __future__ import annotations

import math
from collections.abc import Sequence

from sootsayer.advice.plan_problem import Candidate, Look
from sootsayer.belief.network import Observable
from sootsayer.belief.noisy import level_spread
from sootsayer.judgement.beliefs import applies
from sootsayer.judgement.verdict import FamilySaid, FindingSaid
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot
from sootsayer.rulebook.model import Check
from sootsayer.rulebook.network import observable_for
from sootsayer.rulebook.reads import family_of, members_of

MOST_LOOKS = 4  # the most telling for their minutes
MOST_OUTCOMES = 15


def looks(
    work: Workings,
    candidates: Sequence[Candidate],
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
    rate: float,
) -> tuple[Look, ...]:
    """The open checks that tell most of what is wrong for their minutes, at `rate` a minute.

    A check lets a family speak that nothing speaks for yet, where it gives all that one of its
    findings waits for.
    """
    found = []
    for check in work.model.checks.values():
        outcomes = _outcomes(work, check, candidates, families, findings)
        told = _bits(candidates, outcomes) if len(outcomes) > 1 else 0.0
        if told > 1e-6:
            found.append((told / check.minutes, Look(check.id, check.minutes * rate, outcomes)))
    found.sort(key=lambda it: (-it[0], it[1].id))
    return tuple(look for _, look in found[:MOST_LOOKS])


def _outcomes(
    work: Workings,
    check: Check,
    candidates: Sequence[Candidate],
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
) -> tuple[tuple[float, ...], ...]:
    if not applies(work, applies_slot("check", check.id)) or not _at_hand(work, check):
        return ()
    found: tuple[tuple[float, ...], ...] = ((1.0,) * len(candidates),)
    for seen in _given(work, check, families, findings):
        spreads = [level_spread(seen, each.faults) for each in candidates]
        levels = tuple(zip(*spreads, strict=True))
        if len(found) * len(levels) > MOST_OUTCOMES:
            break
        found = tuple(
            tuple(a * b for a, b in zip(outcome, level, strict=True))
            for outcome in found
            for level in levels
        )
    return found


def _at_hand(work: Workings, check: Check) -> bool:
    tools = None if work.shop is None else work.shop.tools
    return tools is None or set(check.tools) <= set(tools)


def _given(
    work: Workings, check: Check, families: Sequence[FamilySaid], findings: Sequence[FindingSaid]
) -> list[Observable]:
    """The families that the check lets speak, as their best member then sees."""
    gives = set(check.gives)
    waiting = {f.id: set(f.awaits) for f in findings if f.level is None and f.set_aside is None}
    silent = {each.id for each in families if each.speaker is None}
    names = {
        family
        for finding, slots in waiting.items()
        if slots and slots <= gives
        for family in (family_of(work.model, finding),)
        if family in silent and family in work.model.evidence
    }
    speakers = (
        (name, next(m for m in members_of(work.model, name) if waiting.get(m, {""}) <= gives))
        for name in sorted(names)
    )
    return [observable_for(work.model, name, speaker) for name, speaker in speakers]


def _bits(candidates: Sequence[Candidate], outcomes: Sequence[Sequence[float]]) -> float:
    """How much the outcome tells of the candidate, in bits."""
    told = 0.0
    for outcome in outcomes:
        joint = [c.probability * share for c, share in zip(candidates, outcome, strict=True)]
        total = math.fsum(joint)
        told += math.fsum(
            p * math.log2(p / (total * c.probability))
            for p, c in zip(joint, candidates, strict=True)
            if p > 0.0
        )
    return told
