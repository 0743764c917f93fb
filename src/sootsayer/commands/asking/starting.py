"""A new case: what its header says, asked once, and its id by date and letter."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from datetime import date
from itertools import count, product
from string import ascii_lowercase

from sootsayer.casework.append import quoted
from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import fixed
from sootsayer.commands.asking.values import NotUsable
from sootsayer.commands.heard import says
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.physics.typed_numbers import read_typed
from sootsayer.physics.units import UnitError, convert
from sootsayer.rulebook.model import Model

_CUSTOMARY = ("additive", "reductant", "low-pressure recirculation")
_FITTED = "fitted-"
_MOST = {"engine litres": 30.0, "filter litres": 60.0, "odometer km": 10_000_000.0}
_LONGEST_LABEL = 80


@dataclass(frozen=True, slots=True)
class Draft:
    """The header as far as it is told; `left`: the keys still to be asked, in order. `questions`:
    how packs ask for what is fitted, by key."""

    left: tuple[str, ...]
    values: tuple[tuple[str, str], ...] = ()
    questions: tuple[tuple[str, str], ...] = ()


def new_draft(model: Model) -> Draft:
    """The sizes, then everything fitted or not that the rulebook asks about."""
    asked = {each.removeprefix(_FITTED) for each in model.signals if each.startswith(_FITTED)}
    known = {name.replace(" ", "-"): name for name in _CUSTOMARY}
    fitted = [*_CUSTOMARY, *sorted(asked - set(known))]
    sizes = ("label", "engine litres", "cylinders", "filter litres", "odometer km")
    keys = [f"fitted {name}" for name in fitted]
    signals = {key: model.signals.get(key.replace(" ", "-")) for key in keys}
    questions = tuple((key, each.asks) for key, each in signals.items() if each and each.asks)
    return Draft((*sizes, *keys), questions=questions)


def asks(draft: Draft) -> Said:
    """The question that is next; raises IndexError where all is told."""
    key = draft.left[0]
    if key.startswith("fitted "):
        question = dict(draft.questions).get(key)
        if question is not None:
            return say(t.NEW_FITTED_ASKS, asks=question)
        return say(t.NEW_FITTED, name=key.removeprefix("fitted "))
    return say(
        {
            "label": t.NEW_LABEL, "engine litres": t.NEW_ENGINE, "cylinders": t.NEW_CYLINDERS,
            "filter litres": t.NEW_FILTER, "odometer km": t.NEW_ODOMETER,
        }[key]
    )  # fmt: skip


def told(draft: Draft, text: str) -> Draft | NotUsable:
    """The draft with the answer to its next question."""
    key, typed = draft.left[0], " ".join(text.split())
    value = _value(key, typed)
    if isinstance(value, NotUsable):
        return value
    values = draft.values if value is None else (*draft.values, (key, value))
    return replace(draft, left=draft.left[1:], values=values)


def _value(key: str, typed: str) -> str | NotUsable | None:
    if key == "label":
        if _is_nothing(typed) or len(typed) > _LONGEST_LABEL:
            return NotUsable(say(t.NO_LABEL), say(t.NO_LABEL_NEXT))
        return typed
    if _is_nothing(typed):
        return "unknown" if key.startswith("fitted ") else None
    if key.startswith("fitted "):
        told_so = "yes" if says(typed, h.YES) else "no" if says(typed, h.NO) else None
        if told_so is None:
            return NotUsable(say(t.NOT_YES_NO_BARE, text=typed[:40]), say(t.NOT_YES_NO_NEXT))
        return told_so
    if key == "cylinders":
        if typed.isascii() and typed.isdigit() and 1 <= int(typed[:6]) <= 16:
            return str(int(typed))
        return NotUsable(say(t.NO_CYLINDERS, text=typed[:40]), say(t.NO_CYLINDERS_NEXT))
    return _size(key, typed)


def _is_nothing(typed: str) -> bool:
    return not typed or says(typed, h.NOTHING)


def _size(key: str, typed: str) -> str | NotUsable:
    unit = "km" if key == "odometer km" else "L"
    try:
        number = read_typed(typed)
        value = convert(number.value, number.unit or unit, unit)
    except UnitError as error:
        return NotUsable(shown(error.what), shown(error.instead))
    if not 0 < value <= _MOST[key]:
        instead = say(t.NO_LITRES_NEXT, most=fixed(_MOST[key]))
        return NotUsable(say(t.NO_LITRES, text=typed[:40]), instead)
    return f"{value:.3f}".rstrip("0").rstrip(".")


def header_text(draft: Draft, case_id: str) -> str:
    """The case file without entries."""
    plain = [(key, value) for key, value in draft.values if not key.startswith("fitted ")]
    fitted = [
        (key.removeprefix("fitted "), value)
        for key, value in draft.values
        if key.startswith("fitted ")
    ]
    parts = [f"{key}: {quoted(value) if key == 'label' else value}" for key, value in plain]
    if fitted:
        inner = ", ".join(f"{key}: {value}" for key, value in fitted)
        parts.append(f"fitted: {{{inner}}}")
    vehicle = ", ".join(parts)
    return f"case: {case_id}\nformat: 1\nvehicle: {{{vehicle}}}\nentries:\n"


def fresh_ids(day: date, used: Collection[str]) -> Iterator[str]:
    """`2031-03-14-a`, `-b`, ... `-z`, `-aa`, ...: those that no case has."""
    for length in count(1):
        for letters in product(ascii_lowercase, repeat=length):
            name = f"{day.isoformat()}-{''.join(letters)}"
            if name not in used:
                yield name
