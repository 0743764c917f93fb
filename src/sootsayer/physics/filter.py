"""The shape of a wall-flow filter: square channels, every other one plugged at either end.

After Konstandopoulos et al., SAE 2000-01-1016 (K2000): open share sigma = 1/(a + ws)^2 per
frontal area, inlet channels N = sigma pi D^2/8.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from sootsayer.physics.ranges import above, within

INCH = 0.0254
"""m, exact."""


@dataclass(frozen=True, slots=True)
class Filter:
    """A clean or ash-bearing filter, all lengths in m.

    `opening` a of a channel (0.5e-3 to 5e-3), `wall` ws (0.05e-3 to 2e-3), `length` L of the
    channels that filters (0.02 to 1), `diameter` D of the round brick (0.05 to 0.6), and
    `ash_layer`, the thickness of ash on the walls of the inlet channels (0 to under a/2).
    Raises ValueError outside the ranges.
    """

    opening: float
    wall: float
    length: float
    diameter: float
    ash_layer: float = 0.0

    def __post_init__(self) -> None:
        within("channel opening", self.opening, 0.5e-3, 5e-3, "m")
        within("wall thickness", self.wall, 0.05e-3, 2e-3, "m")
        within("filter length", self.length, 0.02, 1.0, "m")
        within("filter diameter", self.diameter, 0.05, 0.6, "m")
        within("ash layer", self.ash_layer, 0.0, 0.49 * self.opening, "m")

    @property
    def pitch(self) -> float:
        """m from channel to channel."""
        return self.opening + self.wall

    @property
    def volume(self) -> float:
        """m3 of the brick over its filtering length."""
        return math.pi / 4.0 * self.diameter**2 * self.length

    @property
    def inlet_channels(self) -> float:
        """How many channels take gas in: sigma pi D^2/8 (no whole number)."""
        return math.pi * self.diameter**2 / (8.0 * self.pitch**2)

    @property
    def inlet_opening(self) -> float:
        """m of an inlet channel that ash has left open."""
        return self.opening - 2.0 * self.ash_layer

    @property
    def area(self) -> float:
        """m2 of wall that filters: 4 a L N."""
        return 4.0 * self.opening * self.length * self.inlet_channels

    def channel_velocity(self, flow: float) -> float:
        """m/s at the inlet of the channels when `flow` m3/s enter: 8 Q/(pi D^2 sigma a^2)."""
        return flow / (self.inlet_channels * self.inlet_opening**2)


def from_cells(cells: float, wall_mil: float, volume: float, diameter: float) -> Filter:
    """A filter from the way it is sold: `cells` per square inch (50 to 400), `wall_mil` thousandths
    of an inch (4 to 40), `volume` L (0.3 to 60), `diameter` m. Raises ValueError outside."""
    within("cells per square inch", cells, 50.0, 400.0)
    within("wall", wall_mil, 4.0, 40.0, "mil")
    within("filter volume", volume, 0.3, 60.0, "L")
    within("filter diameter", diameter, 0.05, 0.6, "m")
    wall = wall_mil * 1e-3 * INCH
    length = volume * 1e-3 / (math.pi / 4.0 * diameter**2)
    return Filter(INCH / math.sqrt(cells) - wall, wall, length, diameter)


def soot_layer(filter_: Filter, mass: float, density: float) -> float:
    """Thickness w in m of `mass` kg of soot spread evenly on the inlet walls (K2000):
    w = (a - sqrt(a^2 - m/(N L rho)))/2, a being what ash has left open.

    `mass` 0 up to what fills the channels, `density` of the layer kg/m3 (20 to 1,000; K2000
    has 97 to 110). Raises ValueError outside.
    """
    within("soot layer density", density, 20.0, 1000.0, "kg/m3")
    opening = filter_.inlet_opening
    room = filter_.inlet_channels * filter_.length
    most = opening**2 * room * density
    within("soot", mass, 0.0, most * (1.0 - 1e-9), "kg")
    return (opening - math.sqrt(opening**2 - mass / (room * density))) / 2.0


def soot_of_layer(filter_: Filter, thickness: float, density: float) -> float:
    """kg of soot in a layer `thickness` m (0 to under half the opening): the way back."""
    within("soot layer density", density, 20.0, 1000.0, "kg/m3")
    opening = filter_.inlet_opening
    within("soot layer", thickness, 0.0, 0.4999999 * opening, "m")
    room = filter_.inlet_channels * filter_.length
    return (opening**2 - (opening - 2.0 * thickness) ** 2) * room * density


def with_ash(filter_: Filter, mass: float, plug_share: float, density: float) -> Filter:
    """The filter after `mass` kg of ash: shorter by the plug at the closed end of the inlet
    channels, which `plug_share` (0 to 1) of the ash forms, and narrower by the rest on the walls.

    `density` of packed ash kg/m3 (100 to 1,000; 200 to 450 is usual, from memory). Geometry
    only. Raises ValueError outside, or where ash leaves less than a tenth of length or opening.
    """
    within("ash", mass, 0.0, 10.0, "kg")
    within("plug share", plug_share, 0.0, 1.0)
    within("ash density", density, 100.0, 1000.0, "kg/m3")
    channels, opening = filter_.inlet_channels, filter_.inlet_opening
    plug = mass * plug_share / (density * channels * opening**2)
    within("length lost to ash", plug, 0.0, 0.9 * filter_.length, "m")
    length = filter_.length - plug
    left = opening**2 - mass * (1.0 - plug_share) / (density * channels * length)
    above("channel left open by ash", left, 0.01 * opening**2, opening**2, "m2")
    layer = filter_.ash_layer + (opening - math.sqrt(left)) / 2.0
    return replace(filter_, length=length, ash_layer=layer)
