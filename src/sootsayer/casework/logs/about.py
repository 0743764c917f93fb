"""What a log says of its vehicle above the names of its columns, and whether it is this one."""

from __future__ import annotations

import re
from collections.abc import Iterable

from sootsayer.casework.logs.cells import number
from sootsayer.casework.logs.model import Log
from sootsayer.casework.logs.naming import best_of, tokens
from sootsayer.casework.logs.words import BY_ID, ODOMETER
from sootsayer.casework.model import Vehicle
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import fixed, whole
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem

_KM = re.compile(r"([0-9][0-9 .,'’]{0,12}[0-9]|[0-9])\s*(km|mi|miles?)\b", re.I)
_LITRES = re.compile(r"([0-9]{1,2}(?:[.,][0-9]{1,3})?)\s*(?:l|litres?|liters?|liter)\b", re.I)
_CCM = re.compile(r"([0-9]{3,5})\s*(?:cm3|cm³|ccm|cc)\b", re.I)
_SIZE = {"engine": 1.0, "displacement": 1.0, "motor": 1.0, "hubraum": 1.0, "moteur": 1.0,
         "cylindree": 1.0}  # fmt: skip
OTHER_ENGINE = "the log is of an engine of {log} L, the case of one of {case} L"
OTHER_ODOMETER = "the log's odometer shows {log} km, the case {case} km"
OTHER_VEHICLE = "is it the log of another vehicle? Take nothing from it before that is settled"
_MILE = 1.609344
_VISIT = 3000.0
"""km that a vehicle may be driven between the header and the log of one visit."""


def odometer_in(head: Iterable[str]) -> float | None:
    """km, where a line above the names says the odometer."""
    for line in head:
        if best_of(tokens(line), BY_ID[ODOMETER].needs[0]) <= 0:
            continue
        found = _KM.search(line.replace(";", " ").replace("\t", " "))
        if found is None:
            continue
        digits = re.sub(r"[^0-9]", "", found.group(1))
        value = number(digits, False)
        if value is not None and value < 3_000_000:
            return value * (_MILE if found.group(2).lower().startswith("mi") else 1.0)
    return None


def litres_in(head: Iterable[str]) -> float | None:
    """L of displacement, where a line above the names says it."""
    for line in head:
        if best_of(tokens(line), _SIZE) <= 0:
            continue
        small, large = _CCM.search(line), _LITRES.search(line)
        if small:
            return int(small.group(1)) / 1000.0
        if large:
            return float(large.group(1).replace(",", "."))
    return None


def other_vehicle(log: Log, vehicle: Vehicle) -> list[Problem]:
    """Warnings where the log's odometer or displacement is not the case's."""
    at, found = Place(log.file, 1, 1), []
    known = vehicle.engine_litres
    if log.litres is not None and known is not None and abs(log.litres - known) > 0.15:
        found.append(Problem(
            at, say(OTHER_ENGINE, log=fixed(log.litres, 2), case=fixed(known, 2)),
            say(OTHER_VEHICLE),
        ))  # fmt: skip
    shown = vehicle.odometer_km
    if log.odometer is not None and shown is not None and not (
        shown - 5.0 <= log.odometer <= shown + _VISIT
    ):  # fmt: skip
        found.append(Problem(
            at, say(OTHER_ODOMETER, log=whole(log.odometer), case=whole(shown)),
            say(OTHER_VEHICLE),
        ))  # fmt: skip
    return found
