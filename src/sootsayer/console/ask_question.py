"""The question as it is drawn, and the prompt before the answer. No more than a few lines."""

from __future__ import annotations

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import brief, unit_said
from sootsayer.console import ask_texts as t
from sootsayer.console.paper import HEADING, QUIET, STRONG, Line
from sootsayer.console.vocabulary import tool_said
from sootsayer.rulebook.model import Check, Model, Signal, SignalKind

CODES = "codes"


def check_lines(check: Check) -> list[Line]:
    """What to do, where and for how long, with the caution beside it, which is never cut."""
    stage = say(t.STAGE[check.where.value])
    right = say(t.CHECK_RIGHT, stage=stage, minutes=brief(check.minutes))
    lines = [Line(say(t.CHECK, does=check.does), style=HEADING, right=right)]
    if check.caution:
        lines.append(Line(say(t.CAUTION, caution=check.caution), indent=2, style=STRONG))
    if check.tools:
        tools = Said(", ".join(tool_said(tool) for tool in check.tools))
        lines.append(Line(say(t.TOOLS, tools=tools), indent=2, style=QUIET))
    return lines


def codes_lines() -> list[Line]:
    right = say(t.CHECK_RIGHT, stage=say(t.STAGE["scan"]), minutes="3")
    return [
        Line(say(t.CODES_DOES), style=HEADING, right=right),
        Line(say(t.CAUTION, caution=say(t.CODES_CAUTION)), indent=2, style=STRONG),
        Line(say(t.CODES_HOW), indent=2),
    ]


def slot_lines(slot: str, model: Model) -> list[Line]:
    """The one fact that is asked now, and what can be answered."""
    signal, point = signal_and_point(slot, model)
    text = say(t.ASKED, asks=signal.asks) if signal.asks else _label(signal, point, model)
    lines = [Line(text, indent=2)]
    if signal.kind is SignalKind.CHOICE:
        lines.append(Line(choices_said(signal), indent=4))
    return lines


def _label(signal: Signal, point: str, model: Model) -> Said:
    if not point:
        return say(t.LABELLED, label=signal.label)
    known = model.points.get(point)
    label = known.label if known else point
    return say("{signal}, {point}", signal=signal.label, point=label)


def choices_said(signal: Signal) -> Said:
    parts = [
        say(t.CHOICE, number=number, choice=signal.choice_words.get(choice, choice))
        for number, choice in enumerate(signal.choices, start=1)
    ]
    return Said("   ".join(parts))


def signal_and_point(slot: str, model: Model) -> tuple[Signal, str]:
    name, _, point = slot.partition("@")
    return model.signals[name], point


def prompt_for(slot: str, unit: str, model: Model) -> Said:
    """What stands before the answer; ends with `> ` and names the unit that a bare number has."""
    if slot == CODES:
        return say(t.PROMPT_CODES)
    signal, _ = signal_and_point(slot, model)
    if signal.kind is SignalKind.YES_NO:
        return say(t.PROMPT_YES_NO, slot=slot)
    if signal.kind is SignalKind.CHOICE:
        return say(t.PROMPT_CHOICE, slot=slot)
    if not unit:
        return say(t.PROMPT_COUNT, slot=slot)
    return say(t.PROMPT_NUMBER, slot=slot, unit=unit_said(unit))
