"""What was typed as an answer: a value as it will be written, or why there is none.

A bare number takes the unit last used for that signal on this case, is said back and written
with it and with a decimal point, so that the file never depends on what was typed before.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from sootsayer.casework.collector import Collector
from sootsayer.casework.model import Absence, Case, Said, Source
from sootsayer.casework.values import read_said
from sootsayer.catalogue import Said as Text
from sootsayer.catalogue import say, shown
from sootsayer.catalogue_numbers import number, unit_said
from sootsayer.commands.asking.state import Item, Setting
from sootsayer.commands.heard import folded, pattern, says, word_said
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.documents.nodes import Document, Mapping, Place, Scalar
from sootsayer.physics.typed_numbers import ungrouped
from sootsayer.physics.units import TwoWays, Typed, UnitError, read_number
from sootsayer.rulebook.model import Model, Signal, SignalKind

_PLACE = Place("", 1, 1)
_DIGITS = re.compile(r"\s*([+\-−]?)([0-9]*)(?:[.,]([0-9]*))?")
_ABSENT = ((h.DO_NOT_KNOW, Absence.DO_NOT_KNOW), (h.NOT_FITTED, Absence.NOT_FITTED))


@dataclass(frozen=True, slots=True)
class NotUsable:
    """Why a text is no answer, and what would be one. `nameless`: it names no signal at all.
    `either`: the two ways to write a number that can be read in two, as nobody misreads them."""

    what: Text
    instead: Text
    nameless: bool = False
    either: tuple[str, ...] = ()


def read_answer(
    text: str, slot: str, source: Source, case: Case, setting: Setting
) -> Item | NotUsable:
    """The answer `text` to the question for `slot`. `later` is no answer: see `is_later`."""
    signal = setting.model.signals[slot.partition("@")[0]]
    typed = " ".join(text.split())
    if not is_choice(typed, signal):
        absent = absence_in(typed)
        if absent is not None:
            return Item(slot, source, absence=absent[0], why=absent[1])
    if signal.kind is SignalKind.NUMBER:
        return _number(typed, slot, signal, source, case, setting)
    if signal.kind is SignalKind.YES_NO:
        return _yes_no(typed, slot, signal, source)
    return _choice(typed, slot, signal, source)


def is_later(text: str) -> bool:
    return says(text, h.LATER)


def is_choice(typed: str, signal: Signal) -> bool:
    """Whether a text is one of the words of a signal, by itself or as it is said."""
    ways = (*signal.choices, *signal.choice_words.values())
    return folded(typed) in {folded(way) for way in ways}


def absence_in(typed: str) -> tuple[Absence, str] | None:
    """The reason for no value that a text is, with why it cannot be had; None for anything else."""
    found = next((absence for ways, absence in _ABSENT if says(typed, ways)), None)
    if found is not None:
        return found, ""
    cannot = re.match(rf"(?:{pattern(h.CANNOT)})(?=$|[ :,;(])", typed, re.IGNORECASE)
    if cannot is not None:
        return Absence.CANNOT, _reason(typed[cannot.end() :])
    return (Absence.CANNOT, typed.casefold()) if says(typed, h.WHYS) else None


def _reason(rest: str) -> str:
    bare = rest.strip(" :,;()")
    because = re.match(rf"(?:{pattern(h.BECAUSE)})(?!\w)", bare)
    return (bare[because.end() :] if because else bare).strip()[:120]


def _yes_no(typed: str, slot: str, signal: Signal, source: Source) -> Item | NotUsable:
    if says(typed, h.YES) or says(typed, h.NO):
        value = says(typed, h.YES)
        return Item(slot, source, "yes" if value else "no", value)
    return NotUsable(
        say(t.NOT_YES_NO, label=signal.label, text=_short(typed)), say(t.NOT_YES_NO_NEXT)
    )


def _choice(typed: str, slot: str, signal: Signal, source: Source) -> Item | NotUsable:
    found = word_said(typed, signal.choices, signal.choice_words)
    if typed.isascii() and typed.isdigit() and len(typed) < 3 and not is_choice(typed, signal):
        index = int(typed)
        found = list(signal.choices[index - 1 : index]) if index else []
    if len(found) == 1:
        return Item(slot, source, found[0], found[0])
    what = say(t.NO_CHOICE, label=signal.label, text=_short(typed))
    ways = [signal.choice_words.get(choice, choice) for choice in signal.choices]
    return NotUsable(what, say(t.NO_CHOICE_NEXT, choices=", ".join(ways)))


def _number(
    typed: str, slot: str, signal: Signal, source: Source, case: Case, setting: Setting
) -> Item | NotUsable:
    typed = ungrouped(typed)
    try:
        read = read_number(typed)
    except TwoWays as two:
        return NotUsable(two.what, two.instead, either=two.readings)
    except UnitError as error:
        return NotUsable(shown(error.what), shown(error.instead))
    unit, was_bare = read.unit, read.unit is None and bool(signal.unit)
    if was_bare:
        unit = usual_unit(signal, case, setting)
    written = f"{_digits(typed)} {unit}".strip() if unit else _digits(typed)
    said = _said(written, slot, signal, case, setting.model)
    if isinstance(said, NotUsable):
        return said
    return Item(slot, source, written, said.value, back=_back(read, unit, was_bare, said, signal))


def _digits(typed: str) -> str:
    """The digits as typed, with a decimal point and nothing doubtful before them."""
    match = _DIGITS.match(typed)
    assert match is not None  # it was read as a number before
    sign, whole, decimals = match.groups()
    minus = "-" if sign in ("-", "−") else ""
    return f"{minus}{whole.lstrip('0') or '0'}" + (f".{decimals}" if decimals else "")


def _said(written: str, slot: str, signal: Signal, case: Case, model: Model) -> Said | NotUsable:
    """Read as it will be read from the file, so that nothing is written that cannot be."""
    document = Document("", Mapping({}, {}, _PLACE), (written,))
    collector = Collector(document)
    node = Scalar(written, written, _PLACE, quoted=True)
    said = read_said(slot, node, signal, case.vehicle, collector, model.signals)
    if said is None:
        problem = collector.problems[0]
        return NotUsable(shown(problem.what), shown(problem.instead))
    return said


def _back(read: Typed, unit: str | None, was_bare: bool, said: Said, signal: Signal) -> Text | None:
    """What the number became: the unit taken, and the value in the signal's own unit."""
    own = signal.unit or ""
    if not own or not isinstance(said.value, float):
        return None
    if unit != own:
        return say(t.BECAME, number=number(said.value), unit=unit_said(own))
    taken = was_bare and read.unit is None and unit is not None
    return say(t.UNIT_TAKEN, unit=unit_said(unit or "")) if taken else None


def usual_unit(signal: Signal, case: Case, setting: Setting) -> str:
    """The unit last used for the signal on this case, else the shop's, else the signal's own."""
    for entry in reversed(case.entries):
        for said in entry.said:
            if said.slot.partition("@")[0] == signal.id and said.absence is None:
                used = _unit_of(said.typed)
                if used:
                    return used
    own = signal.unit or ""
    return setting.shop.units.get(own, own) if setting.shop is not None else own


def _unit_of(typed: str) -> str | None:
    try:
        return read_number(typed).unit
    except UnitError:
        return None


def _short(text: str) -> Text:
    whole = shown(text)
    return whole if len(whole) <= 40 else Text(whole[:39] + "…")
