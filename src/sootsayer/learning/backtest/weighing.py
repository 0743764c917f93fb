"""What a verdict is worth against a confirmed outcome. Pure."""

from __future__ import annotations

from collections.abc import Collection

from sootsayer.belief.network import Kind
from sootsayer.judgement.brief import Brief
from sootsayer.learning.backtest.found import Weighed
from sootsayer.learning.leading import NONE, Leading
from sootsayer.rulebook.model import Model


def weighed(said: Brief, model: Model, present: Collection[str]) -> Weighed:
    """One leading fault for each kind, in the order of `Kind`, and the squared distance of every
    confidence to what was there, on average over the faults; what does not apply has confidence 0.
    """
    confidences = {each.id: each.confidence for each in said.faults}
    every = sorted({*confidences, *present})
    squares = [(confidences.get(name, 0.0) - (name in present)) ** 2 for name in every]
    leads = tuple(_lead(kind, said, model, present) for kind in Kind)
    return Weighed(leads, sum(squares) / len(squares) if squares else 0.0)


def _lead(kind: Kind, said: Brief, model: Model, present: Collection[str]) -> Leading:
    """The more probable of `none` and the kind's first fault; `none` is right where no confirmed
    fault is of the kind."""
    first = next((each for each in said.faults if each.kind == kind.value), None)
    none = said.none[kind.value]
    if first is not None and first.confidence > none:
        return Leading(kind, first.id, first.confidence, first.id in present)
    there = any(name in model.faults and model.faults[name].kind is kind for name in present)
    return Leading(kind, NONE, none, not there)
