"""A kept case judged with today's rulebook: what differs, and which change made it so.

Which change: each is tried alone, in the rulebook of that day. What one change alone brings about
was made so by it. What none brings about alone came of several together.
"""

from __future__ import annotations

from sootsayer.casework.moments import read_moment
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.ledger.changes import changes, with_change
from sootsayer.ledger.differing import differences
from sootsayer.ledger.folder import Ledger
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import part, text
from sootsayer.ledger.rebuilding import Rebuilt
from sootsayer.ledger.replay_model import Change, Difference, Of, Today
from sootsayer.ledger.replaying import (
    CannotReplay,
    case_of_record,
    rebuilt_of,
    told_again,
)

# Each takes a judgement. Beyond this many the rulebook is another one, and no single change is
# worth naming.
MOST_CHANGES = 200
_FAILS = (LookupError, ValueError, ArithmeticError, AssertionError, TypeError, AttributeError)


def with_todays(ledger: Ledger, record: Record, now: Rebuilt) -> Today:
    """Judge a record's case with today's rulebook and settings."""
    try:
        told = told_again(record, now)
    except CannotReplay as cannot:
        return Today(cannot=cannot.detail)
    differing = differences(part(record.body, "verdict"), told)
    try:
        then = rebuilt_of(ledger, record)
    except CannotReplay:
        return Today(found=tuple((each, ()) for each in differing), tried=False)
    changed = changes(then, now)
    if not differing or len(changed) > MOST_CHANGES:
        found = tuple((each, ()) for each in differing)
        return Today(changed=len(changed), found=found, tried=not differing)
    made = _made_so(record, then, now, changed)
    return Today(
        changed=len(changed),
        found=tuple(
            (each, tuple(c for c, does in made if _does(each, does))) for each in differing
        ),
    )


def _made_so(
    record: Record, then: Rebuilt, now: Rebuilt, changed: tuple[Change, ...]
) -> list[tuple[Change, dict[tuple[Of, str], Difference]]]:
    """What each change brings about alone."""
    made = []
    before = _headlines(record, then)
    for change in changed:
        try:
            after = _headlines(record, with_change(then, now, change))
        except (CannotReplay, *_FAILS):
            continue  # alone it fits nothing of that day: it is one of several
        found = differences(before, after, work=False)
        made.append((change, {(each.of, each.id): each for each in found}))
    return made


def _headlines(record: Record, rebuilt: Rebuilt) -> dict[str, object]:
    """The verdict without next checks and plan, which take long and follow from the rest."""
    case = case_of_record(record, rebuilt)
    moment = read_moment(text(record.body, "judged_at"))
    verdict = judge(case, rebuilt.rulebook, now=moment, shop=rebuilt.shop, proposing=False)
    return as_json(verdict)


def _does(each: Difference, made: dict[tuple[Of, str], Difference]) -> bool:
    """Whether it leads from then to now: of a confidence, whether it moves it the same way."""
    by_it = made.get((each.of, each.id))
    if by_it is None:
        return False
    if each.of is not Of.CONFIDENCE or not (each.then and each.now and by_it.then and by_it.now):
        return by_it.now == each.now
    return (float(by_it.now) > float(by_it.then)) == (float(each.now) > float(each.then))
