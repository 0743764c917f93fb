"""What one answer did: a line of leading faults with their way, and what it forbade or cleared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.catalogue import Said, listed, say
from sootsayer.console import ask_texts as t
from sootsayer.console.judge_bits import DRIVE_ON, deciding
from sootsayer.console.names import Names
from sootsayer.console.open_points import first_of_kind, leads
from sootsayer.console.paper import STRONG, Line, clipped
from sootsayer.console.readings import reason
from sootsayer.console.words import KINDS, drive_said, per_cent
from sootsayer.judgement.answers import Changed
from sootsayer.judgement.leaders import Leader
from sootsayer.judgement.verdict import Permitted, Verdict

# Of a label in the one line; its whole stands in the verdict.
_LABEL = 30
NONE = "none"  # as `judgement.leaders` has it
_MOVED = 0.005
_WORTH_SAYING = 0.03  # of confidence, before an answer is given


@dataclass(frozen=True, slots=True)
class Lead:
    """The more probable of `none` (`fault` is "") and the first fault of a kind."""

    fault: str
    label: str
    sure: float


def lead(verdict: Verdict, kind: str) -> Lead:
    first = first_of_kind(verdict, kind)
    if first is not None and leads(verdict, first):
        return Lead(first.id, first.label, first.confidence)
    return Lead("", "", verdict.none.get(kind, 0.0))


def summary_lines(
    before: Verdict, after: Verdict, names: Names, *, drive: bool = True
) -> list[Line]:
    """The line of leading faults, then what changed of driving (unless that is told apart) and of
    the other actions."""
    parts = [_lead_said(kind, before, after) for kind in KINDS]
    lines = permission_lines(before, after, names, drive=drive)
    return [Line(Said("  ".join(parts)), indent=2), *lines]


def _lead_said(kind: str, before: Verdict, after: Verdict) -> Said:
    was, now = lead(before, kind), lead(after, kind)
    way = _way(was, now)
    slots = {"kind": say(t.KIND[kind]), "sure": _sure(now.sure), "way": way}
    if not now.fault:
        return say(t.NO_LEADS, **slots)
    return say(t.LEADS, **slots, label=clipped(say("{label}", label=now.label), _LABEL))


def _way(was: Lead, now: Lead) -> Said:
    if was.fault != now.fault:
        if not was.fault:
            return say(t.NEW_NONE)
        return say(t.NEW, label=clipped(say("{label}", label=was.label), _LABEL))
    if abs(now.sure - was.sure) < _MOVED:
        return say(t.SAME)
    return say(t.UP) if now.sure > was.sure else say(t.DOWN)


def _sure(probability: float) -> Said:
    return Said(per_cent(probability).strip())


def permission_lines(
    before: Verdict, after: Verdict, names: Names, *, drive: bool = True
) -> list[Line]:
    """Driving where its state changed, then every other action that became blocked or clear."""
    lines: list[Line] = []
    if drive and before.drive_on.state is not after.drive_on.state:
        lines.append(drive_line(after, names))
    was = {item.action: item.state for item in before.permissions}
    for item in after.permissions:
        if item.action == DRIVE_ON or was.get(item.action) is item.state:
            continue
        if item.state is Permitted.BLOCKED:
            lock = deciding(item)
            text = say(t.FORBIDDEN_BARE, does=item.does)
            if lock is not None:
                because = reason(lock, after.limits, names)
                text = say(t.FORBIDDEN, does=item.does, because=because)
            lines.append(Line(text, indent=2, style=STRONG))
        elif item.state is Permitted.CLEAR:
            lines.append(Line(say(t.CLEAR, does=item.does), indent=2))
        else:
            lines.append(Line(say(t.OPEN_AGAIN, does=item.does), indent=2))
    return lines


def drive_line(verdict: Verdict, names: Names) -> Line:
    answer = drive_said(verdict.drive_on.state)
    because = drive_because(verdict, names)
    text = say(t.DRIVE, answer=answer)
    if because:
        text = say(t.DRIVE_BECAUSE, answer=answer, because=because)
    return Line(text, indent=2, style=STRONG)


def drive_because(verdict: Verdict, names: Names) -> Said:
    """Every reason that decided it, in short sentences."""
    return Said(" ".join(reason(lock, verdict.limits, names) for lock in verdict.drive_on.reasons))


def changed_lines(before: Verdict, after: Verdict, names: Names) -> list[Line]:
    """Before and after a correction: leading faults that changed in name or number, permissions."""
    lines: list[Line] = []
    for kind in KINDS:
        was, now = lead(before, kind), lead(after, kind)
        if was.fault != now.fault or abs(was.sure - now.sure) >= _MOVED:
            slots = {"kind": say(t.KIND[kind]), "before": _whole(was), "after": _whole(now)}
            lines.append(Line(say(t.CHANGED_LEAD, **slots), indent=4))
    lines += [
        Line(line.text, indent=4, style=line.style)
        for line in permission_lines(before, after, names)
    ]
    if not lines:
        return [Line(say(t.CHANGED_NOTHING), indent=2)]
    return [Line(say(t.CHANGED), indent=2), *lines]


def would_be_said(
    before: Verdict, leaders: Sequence[Leader], changed: Sequence[Changed], names: Names
) -> Said | None:
    """In few words what an answer not yet given would bring: leads that move, and permissions;
    None where it would bring nothing."""
    moves = (_lead_moves(lead(before, each.kind), each, names) for each in leaders)
    parts = [said for said in moves if said is not None]
    does = {item.action: item.does for item in before.permissions}
    for state, template in ((Permitted.BLOCKED, t.WOULD_BLOCK), (Permitted.CLEAR, t.WOULD_CLEAR)):
        actions = [does[each.action] for each in changed if each.state is state]
        if actions:
            parts.append(say(template, does=", ".join(actions)))
    return listed(parts) if parts else None


def _lead_moves(was: Lead, now: Leader, names: Names) -> Said | None:
    """How the lead of a kind would move; None where hardly."""
    fault = "" if now.fault == NONE else now.fault
    if was.fault == fault and abs(now.confidence - was.sure) < _WORTH_SAYING:
        return None
    if not fault:
        return say(t.WOULD_NONE, kind=say(t.KIND[now.kind]), sure=_sure(now.confidence))
    if was.fault != fault:
        return say(t.WOULD_LEAD, label=names.of(fault), sure=_sure(now.confidence))
    way = say(t.UP) if now.confidence > was.sure else say(t.DOWN)
    return say(t.WOULD_MOVE, label=names.of(fault), way=way, sure=_sure(now.confidence))


def _whole(which: Lead) -> Said:
    if not which.fault:
        return say(t.SURE_NONE, sure=_sure(which.sure))
    return say(t.SURE, label=which.label, sure=_sure(which.sure))
