"""Naming slots: which signal, at which point, and what was meant where it is neither."""

from __future__ import annotations

from sootsayer.casework.collector import Collector
from sootsayer.catalogue import say
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
            what = say("{name} is not read at a point", name=name)
            collector.lacks(place, what, say("write {name}", name=name))
            return None
    elif not point:
        what = say("{name} needs the point it was read at", name=name)
        collector.lacks(place, what, _write_one(forms))
        return None
    elif point not in signal.points:
        what = (
            say("{name} is not read at {point}", name=name, point=point)
            if point in model.points
            else say('unknown point "{point}"', point=point)
        )
        near = did_you_mean(slot, forms)
        collector.lacks(place, what, near or _write_one(forms))
        return None
    return signal


def _unknown(slot: str, name: str, place: Place, model: Model, collector: Collector) -> None:
    gone = model.retired.get(name)
    if gone is None:
        near = _meant(slot, name, model)
        instead = near or say("name a signal that a pack declares")
        collector.lacks(place, say('unknown signal "{name}"', name=name), instead)
        return
    now = successor_of(model, name)
    collector.lacks(
        place,
        say('"{name}" is retired: {why}', name=name, why=gone.why),
        say('write "{name}"', name=now) if now else say("leave it out"),
    )


def _meant(slot: str, name: str, model: Model) -> str:
    """The slot that was meant, compared whole: a short name alone is near to nothing."""
    slots = [f"{signal.id}@{point}" for signal in model.signals.values() for point in signal.points]
    return did_you_mean(name, model.signals) or did_you_mean(slot, [*slots, *model.signals])


def _write_one(forms: list[str]) -> str:
    """To write one of these slots."""
    if len(forms) == 1:
        return say("write {name}", name=forms[0])
    return say("write {names} or {last}", names=", ".join(forms[:-1]), last=forms[-1])
