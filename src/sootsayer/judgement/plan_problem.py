"""From a judged case to the problem that a plan solves: which faults, which work, at what price."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from sootsayer.advice.plan_problem import Candidate, Problem, Work
from sootsayer.advice.work_state import WorkState, work_state
from sootsayer.belief import network
from sootsayer.judgement.beliefs import applies
from sootsayer.judgement.plan_costs import Price, chances_of, price_of
from sootsayer.judgement.verdict import PermissionSaid
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot
from sootsayer.rulebook.model import Model, RemedyDef

# Sets of faults rarer than this, and faults rarer than that among them all, are not worth a piece
# of work, and only make more ways to weigh.
LEAST_SHARE = 0.005
LEAST_FAULT = 0.02


@dataclass(frozen=True, slots=True)
class Offer:
    """One remedy that applies: its state, its price, and its chances."""

    remedy: RemedyDef
    state: WorkState
    price: Price
    chances: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Reach:
    """The candidates as far as the work reaches them: `within` renormalised, empty where nothing
    is in reach; `nothing` is wrong, all is `beyond` reach, and `unlisted`, as probabilities."""

    within: tuple[Candidate, ...]
    nothing: float
    beyond: float
    unlisted: float


def offers(work: Workings, permitted: Sequence[PermissionSaid]) -> tuple[Offer, ...]:
    """Every remedy that is not ruled out, by id."""
    states = {each.action: each.state for each in permitted}
    return tuple(
        Offer(
            remedy,
            work_state(states[action] for action in remedy.by_actions),
            price_of(remedy, work.shop),
            chances_of(remedy, work.shop),
        )
        for remedy in work.model.remedies.values()
        if applies(work, applies_slot("remedy", remedy.id))
    )


def in_reach(beliefs: network.Beliefs, offered: Sequence[Offer]) -> Reach:
    """Each candidate without the faults that no offered work cures, and without faint ones; the
    same ones put together."""
    curable = {fault for offer in offered for fault in offer.chances}
    nothing = math.fsum(each.probability for each in beliefs.candidates if not each.faults)
    within = _together(beliefs.candidates, curable)
    whole = math.fsum(within.values())
    beyond = math.fsum(each.probability for each in beliefs.candidates) - nothing - whole
    likely = {
        fault
        for fault in curable
        if math.fsum(p for faults, p in within.items() if fault in faults) >= LEAST_FAULT * whole
    }
    kept = {
        faults: p
        for faults, p in _together(beliefs.candidates, likely).items()
        if p >= LEAST_SHARE * whole
    }
    total = math.fsum(kept.values())
    ordered = sorted(kept.items(), key=lambda it: (-it[1], sorted(it[0])))
    candidates = tuple(Candidate(f, p / total) for f, p in ordered) if total > 0.0 else ()
    return Reach(candidates, nothing, max(0.0, beyond), beliefs.left_out + whole - total)


def _together(
    candidates: Sequence[network.Candidate], faults: Collection[str]
) -> dict[frozenset[str], float]:
    """The candidates narrowed to these faults, those that become the same put together."""
    within: dict[frozenset[str], float] = {}
    for each in candidates:
        left = frozenset(each.faults) & frozenset(faults)
        if left:
            within[left] = within.get(left, 0.0) + each.probability
    return within


def problem_of(
    model: Model, reach: Reach, offered: Sequence[Offer], costs: Mapping[str, float], failing: float
) -> Problem:
    """The problem of this work at these costs; `failing`: the cost of ending unrepaired."""
    groups = _kinds(model, reach)
    work = tuple(
        Work(
            offer.remedy.id,
            costs[offer.remedy.id],
            dict(offer.chances),
            frozenset(offer.remedy.needs_mended),
            frozenset(offer.remedy.hides_faults),
            _seen_after(model, offer.remedy, groups),
        )
        for offer in offered
    )
    return Problem(reach.within, work, failing)


def _kinds(model: Model, reach: Reach) -> dict[network.Kind, frozenset[str]]:
    """The faults in reach by kind; a cause is not seen to be gone, only a filter or an
    instrument that is well again."""
    faults = {fault for each in reach.within for fault in each.faults}
    seen = (network.Kind.MEASUREMENT, network.Kind.CONDITION)
    return {k: frozenset(f for f in faults if model.faults[f].kind is k) for k in seen}


def _seen_after(
    model: Model, remedy: RemedyDef, groups: Mapping[network.Kind, frozenset[str]]
) -> tuple[frozenset[str], ...]:
    """What the readings that verify it tell: whether any fault of the kinds it cures is left."""
    if not remedy.verify_by:
        return ()
    kinds = {model.faults[fault].kind for fault in remedy.cures}
    return tuple(group for kind, group in groups.items() if kind in kinds and group)
