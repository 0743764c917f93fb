"""Numbers, levels and states in words. The scale of confidence is our own."""

from __future__ import annotations

import re
from collections.abc import Mapping

from sootsayer.belief.weighing import word_said
from sootsayer.catalogue import OWN, Said, language, say, shown
from sootsayer.catalogue_numbers import figure, number, with_unit
from sootsayer.console.vocabulary import ABSENCE, absence_said, source_id_said
from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.judgement.verdict import ChannelState, DriveOn, Permitted
from sootsayer.physics.units import known_unit

# From this per cent upward, the word. `docs/reading-a-verdict.md` has the same table, and a
# test compares them.
CONFIDENCE = (
    (95, "almost certain"),
    (80, "very likely"),
    (60, "likely"),
    (40, "about even"),
    (20, "unlikely"),
    (5, "very unlikely"),
    (0, "almost ruled out"),
)
KINDS = ("measurement", "condition", "cause")
BAR_CELLS = 10
BARE_MENTION = "not worth more than a bare mention"
BAR_FULL, BAR_EMPTY = "█", "·"

# A number as cases have it, and its unit.
_TYPED = re.compile(r"([-+−]?)([0-9]+)(?:[.,]([0-9]+))?(\s*)([^\s0-9].*)?")
_ANSWERS = {"yes": True, "true": True, "no": False, "false": False}
_CHANNEL = {
    ChannelState.UNPROVEN: "unproven",
    ChannelState.PROVEN: "proven",
    ChannelState.CORRECTED: "corrected",
    ChannelState.DISTRUSTED: "distrusted",
}
_PERMITTED = {
    Permitted.CLEAR: "clear: nothing entered forbids it; the technician decides",
    Permitted.BLOCKED: "blocked",
    Permitted.NOT_YET_CLEAR: "not yet clear",
}
_DRIVE = {
    DriveOn.MAY_BE_DRIVEN: "Nothing entered forbids it; the technician decides.",
    DriveOn.WORKSHOP_ONLY: "Only to the workshop, and gently.",
    DriveOn.NOT_TO_BE_DRIVEN: "No: it is not to be driven.",
    DriveOn.NOT_TO_BE_STARTED: "No: it is not to be driven and not to be started.",
    DriveOn.NOT_YET_KNOWN: "That is not yet known.",
}


def per_cent(probability: float) -> Said:
    """` 97 %`, `>99 %`, ` <1 %`: five characters, right-aligned; certainty is never shown."""
    if probability > 0.99:
        return say(">99 %")
    if probability < 0.01:
        return say(" <1 %")
    return Said(say("{number} %", number=round(probability * 100)).rjust(5))


def confidence(probability: float) -> Said:
    """The word for a probability; taken from the rounded per cent so that both agree."""
    return say(confidence_word(probability))


def confidence_word(probability: float) -> str:
    """The word itself, which is the same in every language."""
    rounded = round(probability * 100)
    return next(word for least, word in CONFIDENCE if rounded >= least)


def bar(probability: float) -> Said:
    """Ten cells, as many filled as tenths."""
    full = min(BAR_CELLS, max(0, round(probability * BAR_CELLS)))
    return Said(BAR_FULL * full + BAR_EMPTY * (BAR_CELLS - full))


def gauge(probability: float) -> Said:
    """Number and bar, always sixteen characters wide."""
    return Said(f"{per_cent(probability)} {bar(probability)}")


def value_said(
    value: Value, unit: str | None = None, words: Mapping[str, str] | None = None
) -> Said:
    """A slot's value: a number with its unit, a word, yes or no, or that it is not known. `words`:
    how the declared words of its signal or finding are said."""
    if value is None:
        return say("not known")
    if value is NOT_FITTED:
        return say("not fitted")
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    if isinstance(value, str):
        return level_said(value, words)
    return with_unit(number(value), unit)


def level_said(level: str | None, words: Mapping[str, str] | None = None) -> Said:
    """A finding's level: `true` and `false` as yes and no; others as `words` say them."""
    if level is None:
        return say("not known")
    if level in {"true", "false"}:
        return say("yes") if level == "true" else say("no")
    return shown((words or {}).get(level, level))


def typed_said(typed: str, words: Mapping[str, str] | None = None) -> Said:
    """What an entry says, as the language in force writes it; in English as it was typed."""
    if language() == OWN:
        return shown(typed)
    said = (words or {}).get(typed)
    if said:
        return shown(said)
    if typed in ABSENCE:
        return absence_said(typed)
    if typed == "unknown":  # the header's word for what nobody knows
        return say("unknown")
    if typed in _ANSWERS:
        return say("yes") if _ANSWERS[typed] else say("no")
    found = _TYPED.fullmatch(typed)
    return shown(typed) if found is None else _amount(found)


def _amount(found: re.Match[str]) -> Said:
    """A number with its unit or without one; an unknown unit stays as it stands."""
    sign, whole, decimals, gap, unit = found.groups(default="")
    minus = "-" if sign == "−" else sign
    text = figure(f"{minus}{whole}" + (f".{decimals}" if decimals else ""))
    known = known_unit(unit) if unit else ""
    return with_unit(text, known) if known is not None else shown(f"{text}{gap}{unit}")


def worth_said(word: str) -> Said:
    """The word for a weight by Kass & Raftery (1995); its longest name in short."""
    return say("slight") if word == BARE_MENTION else word_said(word)


def source_said(source: str) -> Said:
    """Who or what told it."""
    return say("scan tool") if source == "scan" else source_id_said(source)


def channel_said(state: ChannelState) -> Said:
    return say(_CHANNEL[state])


def permitted_said(state: Permitted) -> Said:
    return say(_PERMITTED[state])


def drive_said(state: DriveOn) -> Said:
    return say(_DRIVE[state])
