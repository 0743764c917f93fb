"""Which facts count, for whom: the same case seen with more or less trust.

A slot may have facts from several sources. A view picks one for each slot, the best source
first, and leaves out what its reader may not rest on.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sootsayer.casework.model import Fact, FactSheet
from sootsayer.casework.quantities import computed
from sootsayer.casework.zero import without_zero
from sootsayer.engine.conditions import Value
from sootsayer.judgement.verdict import ChannelState
from sootsayer.rulebook.model import Model

SETTLED = (ChannelState.PROVEN, ChannelState.CORRECTED)


@dataclass(frozen=True, slots=True)
class View:
    """`facts`: the chosen fact of each slot; `values`: what the engine is given.

    `values` holds more than `facts` gives where a channel test was decided beforehand.
    """

    facts: Mapping[str, Fact]
    values: Mapping[str, Value]

    def given(self, decided: Mapping[str, Value]) -> View:
        """The view with derived slots that are already decided."""
        return View(self.facts, {**self.values, **decided})

    def before(self, name: str) -> Mapping[str, Value]:
        """The values without that of derived slot `name`, so that it is decided anew."""
        if name not in self.values:
            return self.values
        return {slot: value for slot, value in self.values.items() if slot != name}


@dataclass(frozen=True, slots=True)
class Trust:
    """What is known of the channels so far: the state of each, and the zero of a corrected one."""

    states: Mapping[str, ChannelState]
    zeros: Mapping[str, Fact]

    def distrusted(self, fact: Fact) -> bool:
        if not fact.channel and not fact.came_from:
            return False
        return any(self.states.get(c) is ChannelState.DISTRUSTED for c in fact.channels)

    def settled(self, fact: Fact) -> bool:
        """The fact came through no instrument, or through one that is proven or corrected."""
        if not fact.channel and not fact.came_from:
            return True
        return all(self.states.get(c) in SETTLED for c in fact.channels)

    def corrected(self, fact: Fact) -> Fact:
        """The fact with its channel's zero removed, if it has one."""
        zero = self.zeros.get(fact.channel) if fact.channel else None
        return fact if zero is None else without_zero(fact, zero)


def view(
    sheet: FactSheet,
    model: Model,
    keep: Callable[[Fact], bool],
    change: Callable[[Fact], Fact] | None = None,
) -> View:
    """For each slot the best fact that `keep` allows, as `change` turns it, and what follows."""
    facts: dict[str, Fact] = {}
    for slot, said in sheet.by_source.items():
        for fact in said:
            if keep(fact):
                facts[slot] = fact if change is None else change(fact)
                break
    return with_quantities(facts, model)


def with_quantities(facts: Mapping[str, Fact], model: Model) -> View:
    """The view of these facts and of the quantities computed from them."""
    every = {**facts, **computed(facts, model)}
    return View(every, {slot: fact.value for slot, fact in every.items()})
