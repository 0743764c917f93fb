"""Opacity of exhaust: per cent N of light lost, and the light absorption coefficient k.

Beer and Lambert: N = 100 (1 - exp(-k L)), with an effective length L of 0.430 m (ISO 11614, from
memory).
"""

from __future__ import annotations

import math

from sootsayer.physics.ranges import within

EFFECTIVE_LENGTH = 0.430
"""m"""


def absorption_of(opacity: float, length: float = EFFECTIVE_LENGTH) -> float:
    """k in 1/m of `opacity` % (0 to 99.9) over `length` m (0.05 to 2). Raises ValueError
    outside."""
    within("opacity", opacity, 0.0, 99.9, "%")
    within("effective length", length, 0.05, 2.0, "m")
    return -math.log1p(-opacity / 100.0) / length


def opacity_of(absorption: float, length: float = EFFECTIVE_LENGTH) -> float:
    """% of light lost at `absorption` 1/m (0 to 20) over `length` m. Raises ValueError outside."""
    within("light absorption", absorption, 0.0, 20.0, "1/m")
    within("effective length", length, 0.05, 2.0, "m")
    return -100.0 * math.expm1(-absorption * length)
