"""The ranges and degrees from which vehicles are simulated, as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random

from sootsayer.learning.ranges import Range
from sootsayer.learning.simulated.vehicle import Vehicle, draw_vehicle


@dataclass(frozen=True, slots=True)
class Plan:
    """How the spreads of the packs are computed: `seed` and number of `vehicles` a fault;
    `zero_read`: share of vehicles whose sensor was read at rest; `unforeseen`: share given to what
    no simulation foresees; `behind`: what lies behind a lie, each set of faults with its share;
    `blocks`: the evidence blocks whose numbers follow from physics."""

    seed: int
    vehicles: int
    zero_read: float
    unforeseen: float
    behind: tuple[tuple[float, tuple[str, ...]], ...]
    blocks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Spreads:
    """`sound`: every knob's range on a sound vehicle; `faults`: fault id to the knobs it turns."""

    sound: Mapping[str, Range]
    faults: Mapping[str, Mapping[str, Range]]
    plan: Plan

    def vehicle(self, faults: frozenset[str], random: Random) -> Vehicle:
        """A vehicle with these faults; those that turn no knob leave it as it is."""
        turned = {fault: self.faults[fault] for fault in faults if fault in self.faults}
        return draw_vehicle(self.sound, turned, random)
