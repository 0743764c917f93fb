"""What would change the verdict: the cheapest open check whose outcome could."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sootsayer.belief.inference import solve
from sootsayer.belief.network import Kind
from sootsayer.interview.bundles import Bundle, bundles
from sootsayer.interview.deciding import kinds_that_may_change
from sootsayer.interview.open_checks import is_open
from sootsayer.interview.scoring import Scorer
from sootsayer.interview.situation import Situation
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.next_checks import waited_for
from sootsayer.judgement.verdict import PermissionSaid, Verdict
from sootsayer.judgement.workings import Workings


@dataclass(frozen=True, slots=True)
class WouldChange:
    """A check and what one of its outcomes could change.

    `then`: checks that must follow for it to tell anything; `minutes`: of all of them, ways
    between stages included. `kinds`: those of which something else could lead (reckoned with
    the ten leading faults); `actions`: those that would be forbidden or come nearer to clear.
    """

    check: str
    then: tuple[str, ...]
    minutes: float
    kinds: tuple[str, ...]
    actions: tuple[str, ...]


def cheapest_that_could(
    work: Workings, verdict: Verdict, kinds: Collection[Kind], actions: Collection[str]
) -> WouldChange | None:
    """The fewest minutes for which the leading fault of one of the kinds, or the permission for
    one of the actions, could change; None where no open check could. Ties by id."""
    now = situation(work, verdict.findings, verdict.families, verdict.permissions)
    wanted = [p for p in verdict.permissions if p.action in actions]
    by_action = _for_actions(now, wanted)
    by_kind = _for_kinds(work, verdict, now, kinds) if kinds else None
    found = [each for each in (by_action, by_kind) if each is not None]
    if len(found) == 2 and found[0].check == found[1].check and found[0].then == found[1].then:
        return WouldChange(
            found[0].check, found[0].then, found[0].minutes, found[1].kinds, found[0].actions
        )
    return min(found, key=lambda each: (each.minutes, each.check), default=None)


def _for_actions(now: Situation, wanted: list[PermissionSaid]) -> WouldChange | None:
    checks = now.model.checks
    open_ = [id_ for id_ in waited_for(wanted) if is_open(now, checks[id_])]
    if not open_:
        return None
    best = min(open_, key=lambda id_: (checks[id_].minutes, id_))
    waiting = tuple(p.action for p in wanted if best in waited_for([p]))
    return WouldChange(best, (), checks[best].minutes, (), waiting)


def _for_kinds(
    work: Workings, verdict: Verdict, now: Situation, kinds: Collection[Kind]
) -> WouldChange | None:
    network, evidence = network_of(work, verdict.families)
    scorer = scorer_for(network, evidence, solve(network, evidence))
    for bundle in sorted(bundles(now), key=lambda each: (each.minutes, each.checks)):
        changed = _changed(scorer, bundle, kinds)
        if changed:
            return WouldChange(bundle.first, bundle.checks[1:], bundle.minutes, changed, ())
    return None


def _changed(scorer: Scorer, bundle: Bundle, kinds: Collection[Kind]) -> tuple[str, ...]:
    may = kinds_that_may_change(scorer, bundle)
    return tuple(kind.value for kind in Kind if kind in kinds and kind in may)
