"""Naming slots: which signal, at which point, and what was meant where it is neither."""

from __future__ import annotations

from sootsayer.casework.collector import Collector
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import did_you_mean
from sootsayer.rulebook.model import Model, Signal


def find_signal(slot: str, place: Place, model: Model, collector: Collector) -> Signal | None:
    """The signal of `slot`, or None with the problem noted at `place`."""
    name, at, point = slot.partition("@")
    signal = model.signals.get(name)
    if signal is None:
        collector.add(
            place,
            f'unknown signal "{name}"',
            _meant(slot, name, model) or "`rules show` lists the signals",
        )
        return None
    forms = [f"{name}@{known}" for known in signal.points]
    if not signal.points:
        if at:
            collector.add(place, f"{name} is not read at a point", f"write {name}")
            return None
    elif not point:
        collector.add(place, f"{name} needs the point it was read at", f"write {_either(forms)}")
        return None
    elif point not in signal.points:
        what = (
            f"{name} is not read at {point}"
            if point in model.points
            else f'unknown point "{point}"'
        )
        near = did_you_mean(slot, forms)
        collector.add(place, what, near or f"write {_either(forms)}")
        return None
    return signal


def _meant(slot: str, name: str, model: Model) -> str:
    """The slot that was meant, compared whole: a short name alone is near to nothing."""
    slots = [f"{signal.id}@{point}" for signal in model.signals.values() for point in signal.points]
    return did_you_mean(name, model.signals) or did_you_mean(slot, [*slots, *model.signals])


def _either(forms: list[str]) -> str:
    if len(forms) == 1:
        return forms[0]
    return f"{', '.join(forms[:-1])} or {forms[-1]}"
