"""A vehicle as it really is, and as its instruments are: numbers that faults turn like knobs.

What each number means, in which range it lies on a sound vehicle and how far a fault turns it
stand in `rules/spreads/`; every range there has its basis.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from random import Random

from sootsayer.learning.ranges import Range
from sootsayer.physics.filter import Filter, from_cells, soot_layer, with_ash
from sootsayer.physics.gas import air_viscosity, barometer_at
from sootsayer.physics.pressure_drop import Permeability, wall_permeability_of
from sootsayer.physics.ranges import ZERO_CELSIUS

REFERENCE_FILTER = 2.8  # L, the size that clean resistances are stated for
CELLS, WALL_MIL, DIAMETER = 200.0, 14.0, 0.144  # of the filters simulated: 200 cpsi, 5.66 inches
M3_H, MBAR, GRAM = 1.0 / 3600.0, 100.0, 1e-3


@dataclass(frozen=True)
class Vehicle:
    """One vehicle. Names as in the spreads files, `-` for `_`; units there."""

    engine_litres: float
    filter_per_engine: float
    altitude: float
    weather: float
    clean_resistance: float
    deep_bed: float
    square_share: float
    soot_permeability: float
    soot_density: float
    soot_per_litre: float
    ash_permeability: float
    ash_density: float
    ash_plug_share: float
    ash_per_litre: float
    open_share: float
    silencer_times: float
    catalyst_drop: float
    gas_lost: float
    filling: float
    intake_temperature: float
    idle_speed: float
    speed_error: float
    pull_speed: float
    boost_unloaded: float
    boost_pull: float
    boost_lost: float
    charge_lost: float
    egr_idle: float
    egr_part: float
    egr_stuck: float
    low_pressure_egr: float
    temperature_idle: float
    temperature_part: float
    temperature_pull: float
    catalyst_rise: float
    coolant_idle: float
    coolant_road: float
    fuel_unloaded: float
    fuel_pull: float
    injector_spread: float
    dp_zero: float
    dp_gain: float
    dp_noise: float
    dp_step: float
    dp_stuck: float
    dp_stuck_at: float
    dp_swapped: float
    dp_clamped: float
    volts_per_mbar: float
    front_open: float
    front_blocked: float
    front_trapped: float
    rear_open: float
    rear_blocked: float
    rear_trapped: float
    port_before_catalyst: float
    supply_volts: float
    air_gain: float
    temperature_off: float
    model_gain: float
    model_kept: float
    measured_gain: float
    particles: float

    @property
    def filter_litres(self) -> float:
        """L, within the sizes fitted to such engines."""
        return min(max(self.engine_litres * self.filter_per_engine, 2.0), 4.0)

    @property
    def barometer(self) -> float:
        """Pa."""
        return barometer_at(self.altitude) + self.weather * MBAR

    @property
    def soot(self) -> float:
        """g."""
        return self.soot_per_litre * self.filter_litres

    @property
    def ash(self) -> float:
        """g."""
        return self.ash_per_litre * self.filter_litres

    @cached_property
    def clean_filter(self) -> Filter:
        return from_cells(CELLS, WALL_MIL, self.filter_litres, DIAMETER)

    @cached_property
    def brick(self) -> Filter:
        """The filter with its ash."""
        ash = self.ash * GRAM
        return with_ash(self.clean_filter, ash, self.ash_plug_share, self.ash_density)

    @cached_property
    def permeability(self) -> Permeability:
        """Of wall, soot and ash; the wall's such that the clean filter has its resistance, and
        lower once soot lies in it (deep bed)."""
        flow = 150.0 * M3_H
        resistance = self.clean_resistance * REFERENCE_FILTER / self.filter_litres
        viscosity = air_viscosity(ZERO_CELSIUS + 200.0)
        drop = (1.0 - self.square_share) * resistance * 150.0 * MBAR
        wall = wall_permeability_of(self.clean_filter, viscosity, flow, drop)
        filled = min(self.soot_per_litre, 1.0)  # the first gram a litre goes into the wall
        factor = 1.0 + (self.deep_bed - 1.0) * filled
        return Permeability(wall / factor, self.soot_permeability, self.ash_permeability)

    @cached_property
    def layer(self) -> float:
        """m of soot on the walls, without what lies inside them; at most what leaves a tenth of
        the channels open."""
        brick = self.brick
        room = brick.inlet_opening**2 * brick.inlet_channels * brick.length * self.soot_density
        on_top = max(self.soot_per_litre - 1.0, 0.0) * self.filter_litres * GRAM
        return soot_layer(brick, min(on_top, 0.9 * room), self.soot_density)


KNOBS = frozenset(field.name.replace("_", "-") for field in fields(Vehicle))


def draw_vehicle(
    sound: Mapping[str, Range], turned: Mapping[str, Mapping[str, Range]], random: Random
) -> Vehicle:
    """A vehicle of the `sound` ranges (every knob), with the knobs of its faults `turned`.

    `turned`: fault id to its own ranges. Where two faults turn one knob, what is farther from the
    sound vehicle's number counts. Each fault calls the generator apart from the others' knobs in
    the order of ids and names, so that a vehicle does not depend on how its faults were listed.
    """
    knobs = {name: sound[name].draw(random) for name in sorted(sound)}
    found = dict(knobs)
    for fault in sorted(turned):
        for name in sorted(turned[fault]):
            value = turned[fault][name].draw(random)
            if abs(value - knobs[name]) >= abs(found[name] - knobs[name]):
                found[name] = value
    return Vehicle(**{name.replace("-", "_"): value for name, value in found.items()})
