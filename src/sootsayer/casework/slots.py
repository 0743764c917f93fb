"""Naming slots: which signal, at which point, and what was meant where it is neither."""

from __future__ import annotations

from sootsayer.casework.collector import Collector
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import did_you_mean
from sootsayer.rulebook.model import Model, Signal
from sootsayer.rulebook.reads import successor_of


def find_signal(slot: str, place: Place, model: Model, collector: Collector) -> Signal | None:
    """The signal of `slot`, or None with the problem noted at `place`."""
    name, at, point = slot.partition("@")
    signal = model.signals.get(name)
    if signal is None:
        _unknown(slot, name, place, model, collector)
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


def _unknown(slot: str, name: str, place: Place, model: Model, collector: Collector) -> None:
    gone = model.retired.get(name)
    if gone is None:
        near = _meant(slot, name, model)
        instead = near or "name a signal that a pack declares"
        collector.add(place, f'unknown signal "{name}"', instead)
        return
    now = successor_of(model, name)
    collector.add(
        place,
        f'"{name}" is retired: {gone.why}',
        f'write "{now}"' if now else "leave it out",
    )


def _meant(slot: str, name: str, model: Model) -> str:
    """The slot that was meant, compared whole: a short name alone is near to nothing."""
    slots = [f"{signal.id}@{point}" for signal in model.signals.values() for point in signal.points]
    return did_you_mean(name, model.signals) or did_you_mean(slot, [*slots, *model.signals])


def _either(forms: list[str]) -> str:
    if len(forms) == 1:
        return forms[0]
    return f"{', '.join(forms[:-1])} or {forms[-1]}"
