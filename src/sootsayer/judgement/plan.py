"""The plan of a case: every remedy with its state, and the permitted work by what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum

from sootsayer.advice.plan_choice import Begun, Choice, Method, best_first, choose
from sootsayer.advice.plan_problem import Problem
from sootsayer.advice.work_state import WorkState
from sootsayer.judgement.beliefs import Believed
from sootsayer.judgement.plan_looks import looks
from sootsayer.judgement.plan_problem import Offer, Reach, in_reach, offers, problem_of
from sootsayer.judgement.plan_remedy import RemedySayer
from sootsayer.judgement.plan_said import (
    Expected,
    LookSaid,
    OpeningSaid,
    Plan,
    Range,
    RemedySaid,
)
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import FamilySaid, FindingSaid, PermissionSaid
from sootsayer.judgement.wishes import REMOVAL
from sootsayer.judgement.workings import Workings

COST, TIME = "cost", "time"
# To end unrepaired counts as so many times all that could be done here. That is a judgement of
# value, not of fact, so a shop may set its own (`unrepaired`). Why so high: a customer who pays and
# drives off with the fault has lost the money, the trust and, by and by, the filter; and why it
# grows with the work: nothing else says how dear this vehicle is. What it does: work is left out
# only where its chance is fainter than its share of all costs divided by this: dear work, about
# half of all, at one in twenty; work of a tenth of all, at one in a hundred. At 1 half the work
# would be dropped on even odds; at 100 hardly any ever.
UNREPAIRED = 10.0
NO_CHOICE = Choice(Method.EXACT, (), (), ())


@dataclass(frozen=True, slots=True)
class Planned:
    """The choices: among what is permitted, and among that and what is not yet clear."""

    reach: Reach
    by: str
    now: Choice
    once_clear: Choice
    problem: Problem | None
    whole: Problem | None
    holds: bool


def plan_of(
    work: Workings,
    believed: Believed,
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
    permitted: Sequence[PermissionSaid],
) -> Plan:
    """The plan of a case that is worked out and believed."""
    offered = offers(work, permitted)
    open_ = [each for each in offered if each.state is not WorkState.FORBIDDEN]
    reach = in_reach(believed.beliefs, open_)
    moves = [each for each in open_ if _reaches(each, reach)]
    by = COST if all(each.price.money is not None for each in moves) else TIME
    planned = _planned(work, reach, moves, by, families, findings)
    sayer = RemedySayer(work, believed, permitted)
    said = tuple(_with_choice(sayer.said(offer), offer, planned, moves) for offer in offered)
    unpriced = dict.fromkeys(name for each in moves for name in each.price.why_unknown)
    return Plan(
        method=planned.now.method,
        by=by,
        currency="" if work.shop is None else work.shop.currency,
        unpriced=tuple(sorted(unpriced)),
        order=planned.now.order,
        once_clear=planned.once_clear.order,
        once_clear_method=planned.once_clear.method,
        looks=_looks_said(work, planned.now),
        openings=_openings(work, planned, said),
        nothing=six(reach.nothing),
        beyond=six(reach.beyond),
        unlisted=six(reach.unlisted),
        holds=planned.holds,
        declined=work.full.values.get(REMOVAL) is True,
        remedies=tuple(sorted(said, key=_rank)),
    )


def _reaches(offer: Offer, reach: Reach) -> bool:
    return any(each.faults & offer.chances.keys() for each in reach.within)


def _planned(
    work: Workings,
    reach: Reach,
    moves: Sequence[Offer],
    by: str,
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
) -> Planned:
    if not moves or not reach.within:
        return Planned(reach, by, NO_CHOICE, NO_CHOICE, None, None, True)
    clear = [each for each in moves if each.state is WorkState.PERMITTED]
    costs = {each.remedy.id: _cost(each, by, 0.5) for each in moves}
    failing = _unrepaired(work) * fsum(costs.values())
    whole = problem_of(work.model, reach, moves, costs, failing)
    problem = problem_of(work.model, reach, clear, costs, failing)
    rate = 1.0 if by == TIME else _labour(work) / 60.0
    seen = looks(work, reach.within, families, findings, rate) if len(clear) > 1 else ()
    now = choose(replace(problem, looks=seen))
    later = now if len(clear) == len(moves) else choose(whole)
    return Planned(reach, by, now, later, problem, whole, _holds(problem, clear, by, now))


def _unrepaired(work: Workings) -> float:
    own = None if work.shop is None else work.shop.unrepaired
    return UNREPAIRED if own is None else own


def _labour(work: Workings) -> float:
    return 0.0 if work.shop is None or work.shop.labour_rate is None else work.shop.labour_rate


def _cost(offer: Offer, by: str, share: float) -> float:
    """In money or minutes, so far from the lowest to the highest."""
    if by == COST and offer.price.money is not None:
        lowest, highest = offer.price.money.lowest, offer.price.money.highest
    else:
        lowest, highest = offer.price.time
    return lowest + share * (highest - lowest)


def _holds(problem: Problem, clear: Sequence[Offer], by: str, now: Choice) -> bool:
    """Whether the same comes first at the lowest and at the highest prices."""
    if not now.begun:
        return True
    firsts = set()
    for share in (0.0, 0.5, 1.0):
        costs = {each.remedy.id: _cost(each, by, share) for each in clear}
        work = tuple(replace(each, cost=costs[each.id]) for each in problem.work)
        best = best_first(replace(problem, work=work))
        firsts.add(None if best is None else best.first)
    return len(firsts) == 1


def _with_choice(
    said: RemedySaid, offer: Offer, planned: Planned, moves: Sequence[Offer]
) -> RemedySaid:
    choice = planned.now if offer.state is WorkState.PERMITTED else planned.once_clear
    begun = next((each for each in choice.begun if each.work == offer.remedy.id), None)
    if begun is None or offer.state is WorkState.FORBIDDEN:
        return said
    return replace(said, alone=six(begun.cures), expected=_expected(begun, moves))


def _expected(begun: Begun, moves: Sequence[Offer]) -> Expected:
    """Each price times how often the work is done on average."""
    prices = {each.remedy.id: each.price for each in moves}
    money = [0.0, 0.0]
    minutes = [0.0, 0.0]
    known = True
    for name, times in begun.often.items():
        price = prices[name]
        minutes[0] += times * price.minutes.lowest
        minutes[1] += times * price.minutes.highest
        if price.money is None:
            known = False
        else:
            money[0] += times * price.money.lowest
            money[1] += times * price.money.highest
    cost = Range(six(money[0]), six(money[1])) if known else None
    return Expected(cost, Range(six(minutes[0]), six(minutes[1])), six(begun.left))


def _rank(said: RemedySaid) -> tuple[object, ...]:
    """Permitted work that helps by what it takes, then what is not yet clear, then the rest."""
    states = [WorkState.PERMITTED, WorkState.NOT_YET_CLEAR, WorkState.FORBIDDEN]
    helps = said.expected is not None
    group = states.index(said.state) if helps or said.state is WorkState.FORBIDDEN else 3
    return (group, _middle(said), said.remedy)


def _middle(said: RemedySaid) -> float:
    if said.expected is None:
        return 0.0
    ends = said.expected.cost or said.expected.minutes
    return (ends.lowest + (ends.highest or ends.lowest)) / 2.0


def _looks_said(work: Workings, now: Choice) -> tuple[LookSaid, ...]:
    checks = work.model.checks
    return tuple(
        LookSaid(
            each.look,
            checks[each.look].does,
            checks[each.look].caution,
            checks[each.look].minutes,
            six(each.saves),
            six(each.more),
            each.changes,
        )
        for each in now.looks
    )


def _openings(
    work: Workings, planned: Planned, said: Sequence[RemedySaid]
) -> tuple[OpeningSaid, ...]:
    """Work that is not yet clear and would be worth having, what gains most first, and what would
    settle that."""
    if planned.whole is None or planned.problem is None:
        return ()
    without = best_first(planned.problem)
    found = []
    for each in said:
        if each.state is not WorkState.NOT_YET_CLEAR or each.expected is None:
            continue
        checks = tuple(dict.fromkeys(c for reason in each.reasons for c in reason.would_clear))
        own = next(one for one in planned.whole.work if one.id == each.remedy)
        with_it = best_first(replace(planned.problem, work=(*planned.problem.work, own)))
        minutes = sum(work.model.checks[c].minutes for c in checks)
        if without is None or with_it is None:
            bare = OpeningSaid(each.remedy, checks, minutes, None, None)
            found.append((_middle(each), bare))
        elif with_it.weighed < without.weighed - 1e-9:
            saves, more = without.cost - with_it.cost, without.left - with_it.left
            opening = OpeningSaid(each.remedy, checks, minutes, six(saves), six(more))
            found.append((with_it.weighed, opening))
    return tuple(opening for _, opening in sorted(found, key=lambda it: (it[0], it[1].remedy)))
