"""The walk sheet: open checks with blanks to write in, on one page of 80 columns."""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.casework.model import Case
from sootsayer.catalogue import Said, say, say_count
from sootsayer.catalogue_numbers import brief, unit_said
from sootsayer.console import ask_texts as t
from sootsayer.console.paper import BLANK, HEADING, Line, page
from sootsayer.console.screen import PLAIN_WIDTH, plain_console
from sootsayer.interview.sheet import Blank, SheetLeg
from sootsayer.rulebook.model import CODES, Model

PAGE_LINES = 62  # of a printed page of A4 or letter, with margins
_BLANK = "________"


def page_of(
    case: Case, model: Model, legs: Sequence[SheetLeg], left_out: int, *, measured: bool = False
) -> tuple[Line, ...]:
    """Leg by leg each check with its caution, which is never left out, and a blank for each fact.

    `left_out`: how many checks found no room. `measured`: nothing where it is longer than a page.
    """
    head = say(t.SHEET, case=case.id, vehicle=case.vehicle.label)
    lines = [Line(head, style=HEADING), Line(say(t.SHEET_HOW))]
    number = 0
    for leg in legs:
        lines += [BLANK, Line(say(t.LEG[leg.leg.value]), style=HEADING)]
        for each in leg.lines:
            number += 1
            lines += _check(number, each.check, each.blanks, model)
    if left_out:
        one, many = t.SHEET_LEFT
        lines += [BLANK, Line(say_count(one, many, count=left_out))]
    long = measured and not page(lines).fits(plain_console(), PLAIN_WIDTH, PAGE_LINES - 2)
    return () if long and number > 1 else tuple(lines)


def _check(number: int, id_: str, blanks: Sequence[Blank], model: Model) -> list[Line]:
    check = model.checks[id_]
    right = say(t.OPEN_RIGHT, minutes=brief(check.minutes))
    mark = f"{number}. ".rjust(4)
    lines = [Line(say(t.SHEET_CHECK, does=check.does), mark=mark, right=right)]
    if check.caution:
        lines.append(Line(say(t.CAUTION, caution=check.caution), indent=4))
    return lines + [line for blank in blanks for line in _blank(blank, model)]


def _blank(blank: Blank, model: Model) -> list[Line]:
    """The place for one answer; words that do not fit on one line stand below each other."""
    if blank.slot == CODES:
        return [Line(say(t.SHEET_CODES), indent=4)]
    signal = model.signals[blank.slot.partition("@")[0]]
    if signal.unit is not None:
        text = say(t.SHEET_NUMBER, slot=blank.slot, blank=_BLANK, unit=unit_said(blank.unit))
        return [Line(text, indent=4)]
    choices = [signal.choice_words.get(choice, choice) for choice in blank.choices]
    ticks = [say(t.SHEET_TICK, choice=choice) for choice in choices or (say("yes"), say("no"))]
    whole = say(t.SHEET_WORD, slot=blank.slot, choices=Said("   ".join(ticks)))
    if len(whole) <= PLAIN_WIDTH - 4:
        return [Line(whole, indent=4)]
    return [Line(say(t.LABELLED, label=blank.slot), indent=4), *(Line(x, indent=6) for x in ticks)]
