"""The walk sheet: open checks with blanks to write in, on one page of 80 columns."""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.casework.model import Case
from sootsayer.catalogue import Said, say
from sootsayer.console import ask_texts as t
from sootsayer.console.paper import BLANK, HEADING, Line
from sootsayer.rulebook.model import Model, Signal, SignalKind

_BLANK = "________"


def sheet_lines(case: Case, model: Model, checks: Sequence[str]) -> list[Line]:
    """Each check with its caution and a blank for each fact, in the order given."""
    head = say(t.SHEET, case=case.id, vehicle=case.vehicle.label)
    lines = [Line(head, style=HEADING), Line(say(t.SHEET_HOW))]
    for number, id_ in enumerate(checks, start=1):
        check = model.checks[id_]
        text = say(t.SHEET_CHECK, number=number, does=check.does)
        right = say(t.OPEN_RIGHT, minutes=f"{check.minutes:g}")
        lines += [BLANK, Line(text, right=right)]
        if check.caution:
            lines.append(Line(say(t.CAUTION, caution=check.caution), indent=3))
        lines += [Line(_blank(slot, model), indent=3) for slot in check.gives]
    return lines


def _blank(slot: str, model: Model) -> Said:
    signal = model.signals.get(slot.partition("@")[0])
    if signal is None:
        return say(t.SHEET_CODES)
    if signal.kind is SignalKind.NUMBER:
        return say(t.SHEET_NUMBER, slot=slot, blank=_BLANK, unit=signal.unit or "")
    return say(t.SHEET_WORD, slot=slot, choices=_ticks(signal))


def _ticks(signal: Signal) -> Said:
    choices = signal.choices or ("yes", "no")
    return Said("   ".join(say("[ ] {choice}", choice=choice) for choice in choices))
