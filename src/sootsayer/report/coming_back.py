"""When to come back: by the work done, by how fast it fills again, and at once."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import fixed, with_unit
from sootsayer.report import customer_texts as t
from sootsayer.report.reported import Reported
from sootsayer.rulebook.model import Recheck


def coming_back(of: Reported) -> Iterator[Said]:
    """The sentences, each once."""
    remedies = [remedy for _, work in of.done if (remedy := of.remedy(work)) is not None]
    rechecks = dict.fromkeys(each for remedy in remedies for each in remedy.rechecks)
    told = [_recheck(each) for each in rechecks]
    if of.done and not told:
        told.append(say(t.BACK_USUAL))
    yield from dict.fromkeys(told)
    yield from _full_again(of)
    yield say(t.BACK_AT_ONCE)


def _recheck(each: Recheck) -> Said:
    if each.km is None:
        return say(t.BACK_DAYS, days=with_unit(fixed(each.days or 0), "days"))
    if each.days is None:
        return say(t.BACK_AFTER, km=fixed(each.km))
    return say(t.BACK_BOTH, km=fixed(each.km), days=with_unit(fixed(each.days), "days"))


def _full_again(of: Reported) -> Iterator[Said]:
    """By the plan, where there is one: of the work that comes first, or was done."""
    plan = of.verdict.plan
    if plan is None:
        return
    done = {work for _, work in of.done}
    first = [r for r in plan.remedies if r.remedy in done or r.remedy in plan.order[:1]]
    for remedy in first:
        if remedy.returns is not None:
            low, high = remedy.returns.km.lowest, remedy.returns.km.highest
            if high is None:
                yield say(t.BACK_RETURNS_FROM, low=fixed(low))
            else:
                yield say(t.BACK_RETURNS, low=fixed(low), high=fixed(high))
            return
