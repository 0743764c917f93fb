"""The short page's middle: what speaks for and against the faults that lead."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.catalogue import Said, say
from sootsayer.console import judge_bits as bits
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.open_points import first_of_kind, leads
from sootsayer.console.paper import HEADING, Line
from sootsayer.console.room import Room
from sootsayer.console.words import BARE_MENTION, KINDS
from sootsayer.judgement.verdict import Contribution, FaultSaid, Verdict

# What of the room it depends on.
WHY_READS = ("fors", "againsts", "others")
# What is left of 80 columns beside the indent and the mark.
_ONE_LINE = 76


class Worded:
    """What speaks for and against the faults of a verdict, each worded once."""

    def __init__(self, verdict: Verdict, names: Names) -> None:
        self.verdict = verdict
        self._names = names
        self._said: dict[int, Said] = {}

    def __call__(self, item: Contribution) -> Said:
        if id(item) not in self._said:
            self._said[id(item)] = _item(item, self.verdict, self._names)
        return self._said[id(item)]


def why_lines(worded: Worded, room: Room) -> list[Line]:
    """Of every leading fault the weightiest of both sides, and how much there is of each."""
    verdict = worded.verdict
    lines: list[Line] = []
    cut = len(_shares(verdict, room)) < len(weighed(verdict))
    for fault, plus, minus in _shares(verdict, room):
        lines += _for_and_against(fault, plus, minus, worded)
        cut = cut or plus < len(fault.for_) or minus < len(fault.against)
    lines.insert(0, Line(say(t.WHY_CUT if cut else t.WHY), style=HEADING))
    if len(lines) == 1:
        told = any(fault.for_ or fault.against for fault in verdict.faults)
        lines.append(Line(say(t.NOTHING_LEADS if told else t.NOTHING), indent=2))
    return lines


def weighed(verdict: Verdict) -> list[FaultSaid]:
    """The leading faults; then, of kinds where none leads, the first if much speaks against it."""
    firsts = [fault for kind in KINDS if (fault := first_of_kind(verdict, kind)) is not None]
    leading = [fault for fault in firsts if leads(verdict, fault)]
    others = [fault for fault in firsts if not leads(verdict, fault) and fault.against]
    return leading + others


def _shares(verdict: Verdict, room: Room) -> list[tuple[FaultSaid, int, int]]:
    """Each fault that is weighed, with how many for and against are shown of it."""
    faults = weighed(verdict)
    leading = [fault for fault in faults if leads(verdict, fault)]
    shares = []
    for fault, plus, minus in zip(leading, room.fors, room.againsts, strict=False):
        if plus or minus:
            shares.append((fault, min(plus, len(fault.for_)), min(minus, len(fault.against))))
    if room.others:
        for fault in faults[len(leading) :]:
            shares.append((fault, 0, min(room.others, len(fault.against))))
    return shares


def _for_and_against(fault: FaultSaid, plus: int, minus: int, worded: Worded) -> list[Line]:
    pluses, minuses = fault.for_, fault.against
    leading = leads(worded.verdict, fault)
    template = _template(pluses, minuses, minus) if leading else t.WEIGHED_AGAINST
    heading = say(
        template,
        label=fault.label,
        plus=plus,
        pluses=len(pluses),
        minus=minus,
        minuses=len(minuses),
    )
    lines = [Line(heading, indent=2)]
    for mark, items in (("+ ", pluses[:plus]), ("- ", minuses[:minus])):
        lines += [Line(worded(item), indent=2, mark=mark) for item in items]
    return lines


def _item(item: Contribution, verdict: Verdict, names: Names) -> Said:
    """On one line where it can be: by its family's label where the finding's own is too long."""
    text = bits.contribution(item, names)
    if len(text) <= _ONE_LINE or item.level in {"true", "false"}:
        return text
    family = next((each.label for each in verdict.families if each.id == item.family), item.says)
    shorter = bits.contribution(replace(item, says=family), names)
    return shorter if len(shorter) < len(text) else text


def _template(
    pluses: tuple[Contribution, ...], minuses: tuple[Contribution, ...], minus: int
) -> str:
    if not minuses:
        return t.WEIGHED_FOR if pluses else t.WEIGHED_NOT
    if minus == 0 and all(item.word == BARE_MENTION for item in minuses):
        return t.WEIGHED_SLIGHT if len(minuses) > 1 else t.WEIGHED_SLIGHT_ONE
    return t.WEIGHED
