"""What a comparison takes from the rulebook: which signals, findings and limits it looks at."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.advice.like_for_like import Tolerances
from sootsayer.rulebook.model import Model

FORMULA = "filter-resistance"
"""The quantity whose inputs are the pressure and what it is brought to the same flow with."""
TAKES = {
    "dp": "dp",
    "air": "air",
    "exhaust-temperature": "exhaust-temperature",
    "barometer": "barometer",
    "recirculated": "recirculated",
}
"""The formula's inputs, and the signals that are taken where no pack declares the quantity."""
UNITS = {"dp": "mbar", "air": "kg/h", "exhaust-temperature": "C", "barometer": "mbar"}
AT_REST = "rest"
NO_FLOW = frozenset({"rest", "applied", "cold-soak"})
"""Points at which nothing flows: a zero or a test, nothing to compare."""

FAMILY = "restriction"
BURNING = "regeneration-running"
COOLANT = "coolant@idle"
SPEED = "engine-speed"
EGR = "egr-while-reading"
WET = "filter-wet"
LEADS_BACK = "fitted-low-pressure-recirculation"
OIL = "oil-level"
MODELLED = "soot-shown"
FIGURES = (MODELLED, "soot-measured", "soot-figure")
"""Soot figures, which are told and never counted: modelled, from the same pressure, unscaled."""
WETTING = frozenset({"clean-in-place", "clean-off-the-vehicle"})
"""The actions, and the work by these names, that leave the filter wet."""

COOLANT_HOT = 80.0  # C, where the rulebook has no limit of the name
_OWN = Tolerances()


def signals_taken(model: Model) -> dict[str, str]:
    """The formula's input to the signal that the packs give it."""
    own = next((q.takes for q in model.quantities.values() if q.formula == FORMULA), {})
    return {**TAKES, **own}


def tolerances(limits: Mapping[str, float]) -> Tolerances:
    """As the limits in force say; where a rulebook lacks one, as written here."""
    return Tolerances(
        dry=limits.get("exhaust-dry-min", _OWN.dry),
        temperature=limits.get("like-temperature-max", _OWN.temperature),
        speed=limits.get("like-speed-max", _OWN.speed),
        scatter=limits.get("like-scatter", 100 * _OWN.scatter) / 100,
        zero=limits.get("like-zero-unread", _OWN.zero),
    )


def coolant_hot(limits: Mapping[str, float]) -> float:
    """C from which a reading counts as hot."""
    return limits.get("coolant-hot-min", COOLANT_HOT)
