"""What a new rule would have changed, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.catalogue import Said, say, say_count
from sootsayer.commands.teaching.replay import KINDS, NONE, Change, Replayed
from sootsayer.commands.teaching.talk import Talk
from sootsayer.console import rules_new_texts as t
from sootsayer.console.rules_check_page import case_said
from sootsayer.console.vocabulary import STATE_ID, id_said, kind_said
from sootsayer.rulebook.review.remark import Concern, Decision
from sootsayer.rulebook.shop import Shop

MOST = 8  # changes told one by one
MOST_BESIDE = 3


def tell_beside(talk: Talk, decisions: Sequence[Decision], name: str) -> None:
    """How the rule differs from others on the very same facts, each by a case."""
    told = []
    for each in decisions:
        if each.concern is Concern.DIFFERS and each.case and each.other:
            if each.thing == name:
                told.append(say(t.BESIDE, rule=each.other, case=case_said(each.case)))
            elif each.other == name:
                told.append(say(t.BESIDE, rule=each.thing, case=case_said(each.case)))
    talk.tell(*told[:MOST_BESIDE])


def tell_replayed(talk: Talk, found: Replayed, shop: Shop) -> None:
    """How many verdicts would have changed, and the first of them one by one."""
    if found.count:
        talk.tell(say_count(*t.REPLAYED, count=found.count, changed=found.changed))
    else:
        talk.tell(say(t.REPLAYED_NONE, folder=str(shop.cases)))
    talk.tell(*(_change(each) for each in found.changes[:MOST]))
    if len(found.changes) > MOST:
        talk.tell(say_count(*t.CHANGED_MORE, count=len(found.changes) - MOST))
    if found.broken:
        talk.tell(say_count(*t.REPLAYED_BROKEN, count=found.broken))


def _one(text: str) -> Said:
    """A state, a fault by its id, or that none leads."""
    return say("none") if text == NONE else id_said(STATE_ID, text)


def _change(change: Change) -> Said:
    before, after = (_one(text) for text in (change.before, change.after))
    slots = {"case": change.case, "before": before, "after": after}
    if change.what in KINDS:
        judged = {1: say(t.BETTER), -1: say(t.WORSE)}.get(change.judged, Said(""))
        return say(t.CHANGED_LEAD, kind=kind_said(change.what), judged=judged, **slots)
    if change.what == "drive-on":
        return say(t.CHANGED_DRIVE, **slots)
    return say(t.CHANGED_PERMIT, action=change.what, **slots)
