"""What the roles of a log's columns are called on a screen."""

from __future__ import annotations

from sootsayer.casework.logs.words import (
    AFTER,
    AIR,
    BAROMETER,
    BEFORE,
    BOOST,
    COOLANT,
    DP,
    LOAD,
    ODOMETER,
    PEDAL,
    RPM,
    SPEED,
    STATUS,
    TIME,
    VOLTS,
    Role,
)
from sootsayer.catalogue import Said, say

LABELS = {
    TIME: "Time",
    RPM: "Engine speed",
    DP: "Differential pressure over the filter",
    AIR: "Air that the engine takes in",
    BEFORE: "Exhaust temperature before the filter",
    AFTER: "Exhaust temperature after the filter",
    COOLANT: "Coolant temperature",
    SPEED: "Road speed",
    PEDAL: "Accelerator pedal",
    LOAD: "Engine load",
    BOOST: "Intake pressure, absolute",
    BAROMETER: "Air pressure, absolute",
    STATUS: "Regeneration status",
    ODOMETER: "Odometer",
    VOLTS: "Signal voltage of the differential pressure sensor",
}


def label_of(role: Role) -> Said:
    """The role in words."""
    return say(LABELS[role.id])
