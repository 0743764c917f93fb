"""Pressure drop of a wall-flow filter, clean or loaded, and what a drop says of the soot.

Konstandopoulos et al., SAE 2000-01-1016 (K2000), eq. 1 and A15: Darcy flow through wall and soot
layer, laminar friction along the channels, evenly spread soot, no inlet and outlet losses (1e-2
to 1e-3 of the total on a loaded filter, K2000 A16) and no soot inside the wall, which in a real
filter makes the first gram or two cost more than the next.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sootsayer.physics.filter import Filter, soot_of_layer
from sootsayer.physics.ranges import within

CHANNEL_FRICTION = 28.454
"""F, friction of laminar flow in a square channel (K2000)."""
THICKEST = 0.4
"""The thickest soot layer that is inferred, as a share of the opening: 96 per cent filled. K2000
measured up to 0.28."""
_STEPS = 200


@dataclass(frozen=True, slots=True)
class Permeability:
    """m2, of `wall` k0 and `soot` layer ks (1e-16 to 1e-10 each) and of an `ash` layer.

    K2000 has k0 1.8e-13 to 5.3e-13 and ks 3.2e-14 to 3.3e-14; of ash 1e-13 is from memory.
    Raises ValueError outside the range.
    """

    wall: float
    soot: float = 3.2e-14
    ash: float = 1e-13

    def __post_init__(self) -> None:
        for name, value in (("wall", self.wall), ("soot", self.soot), ("ash", self.ash)):
            within(f"permeability of {name}", value, 1e-16, 1e-10, "m2")


@dataclass(frozen=True, slots=True)
class Drop:
    """Shares of a pressure drop, Pa: through wall, ash layer and soot layer, along inlet and
    outlet channels."""

    wall: float
    ash: float
    soot: float
    inlet: float
    outlet: float

    @property
    def total(self) -> float:
        """Pa."""
        return self.wall + self.ash + self.soot + self.inlet + self.outlet


def pressure_drop(
    filter_: Filter, permeability: Permeability, viscosity: float, flow: float, layer: float = 0.0
) -> Drop:
    """The drop over a filter that `flow` m3/s (0 to 5) of gas of `viscosity` Pa s (1e-5 to 6e-5)
    cross, with a soot layer of `layer` m (0 to under half of the open channel).

    K2000 eq. 1: (mu Q/2V) (a+ws)^2 [ws/(k0 a) + ln(b/(b-2w))/(2 ks) + (4 F L^2/3)
    (1/(b-2w)^4 + 1/a^4)], b = a where no ash lies; an ash layer adds ln(a/b)/(2 k_ash) by the
    same integral. Laminar, linear in Q. Raises ValueError outside the ranges.
    """
    within("exhaust flow", flow, 0.0, 5.0, "m3/s")
    within("viscosity", viscosity, 1e-5, 6e-5, "Pa s")
    a, b = filter_.opening, filter_.inlet_opening
    within("soot layer", layer, 0.0, 0.4999999 * b, "m")
    common = viscosity * flow * filter_.pitch**2 / (2.0 * filter_.volume)
    friction = 4.0 * CHANNEL_FRICTION * filter_.length**2 / 3.0
    return Drop(
        wall=common * filter_.wall / (permeability.wall * a),
        ash=common * math.log(a / b) / (2.0 * permeability.ash),
        soot=common * math.log(b / (b - 2.0 * layer)) / (2.0 * permeability.soot),
        inlet=common * friction / (b - 2.0 * layer) ** 4,
        outlet=common * friction / a**4,
    )


def soot_of_drop(
    filter_: Filter,
    permeability: Permeability,
    viscosity: float,
    flow: float,
    drop: float,
    density: float,
) -> float:
    """kg of soot in the filter when it shows `drop` Pa (0 to 200,000): eq. 1 solved for w,
    then the mass of that layer.

    A drop under that of the clean filter gives 0. Arguments as `pressure_drop`; `flow` above 0;
    `density` of the layer kg/m3. K2000's own filters come out 5 to 8 per cent high. Raises
    ValueError outside the ranges or where no layer explains so much.
    """
    within("pressure drop", drop, 0.0, 200_000.0, "Pa")
    within("exhaust flow", flow, 1e-6, 5.0, "m3/s")
    high = THICKEST * filter_.inlet_opening
    if pressure_drop(filter_, permeability, viscosity, flow, high).total < drop:
        raise ValueError(f"a pressure drop of {drop:g} Pa is more than soot alone can cause")
    clean = pressure_drop(filter_, permeability, viscosity, flow)
    scale = viscosity * flow * filter_.pitch**2 / (2.0 * filter_.volume)
    rest = (drop - clean.wall - clean.ash - clean.outlet) / scale
    if drop <= clean.total:
        return 0.0
    return soot_of_layer(filter_, _layer(filter_, permeability.soot, rest, high), density)


def _layer(filter_: Filter, soot: float, rest: float, high: float) -> float:
    """w in m up to `high` with ln(b/(b-2w))/(2 ks) + (4 F L^2/3)/(b-2w)^4 = `rest`.

    Newton's method kept between bounds: both terms grow ever faster with w, so after at most one
    step too far it comes down to the root.
    """
    b, friction = filter_.inlet_opening, 4.0 * CHANNEL_FRICTION * filter_.length**2 / 3.0
    low, w = 0.0, 0.0
    for _ in range(_STEPS):
        left = b - 2.0 * w
        over = math.log(b / left) / (2.0 * soot) + friction / left**4 - rest
        low, high = (low, w) if over > 0 else (w, high)
        step = over / (1.0 / (soot * left) + 8.0 * friction / left**5)
        nearer = w - step
        if not low <= nearer <= high:
            nearer = (low + high) / 2.0
        if abs(nearer - w) <= 1e-14 * b:
            return nearer
        w = nearer
    return w


def wall_permeability_of(filter_: Filter, viscosity: float, flow: float, drop: float) -> float:
    """k0 in m2 with which the clean filter shows `drop` Pa at `flow` m3/s: eq. 1, w = 0, solved.

    Lumps all that a real filter adds to the formula (coating, inlet and outlet) into its wall.
    Raises ValueError where the channels alone take as much.
    """
    channels = pressure_drop(filter_, Permeability(1e-10), viscosity, flow)
    rest = drop - channels.inlet - channels.outlet - channels.ash
    if rest <= 0:
        raise ValueError(f"the channels alone take {drop - rest:g} Pa of a drop of {drop:g} Pa")
    return 1e-10 * channels.wall / rest
