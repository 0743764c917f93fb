"""The header of a case: the vehicle and its own limits."""

from __future__ import annotations

from sootsayer.casework.collector import (
    Collector,
    integer_of,
    mapping_of,
    number_of,
    text_of,
    yes_no_of,
)
from sootsayer.casework.model import LimitSaid, Vehicle
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.physics.units import UnitError, convert_reading, read_number
from sootsayer.rulebook.model import Model


def read_vehicle(root: Mapping) -> Vehicle:
    """The vehicle; what has the wrong shape is left out here and reported by the schema."""
    node = mapping_of(root.get("vehicle"))
    if node is None:
        return Vehicle("")
    fitted = mapping_of(node.get("fitted"))
    return Vehicle(
        label=text_of(node.get("label")) or "",
        engine_litres=number_of(node.get("engine litres")),
        cylinders=integer_of(node.get("cylinders")),
        filter_litres=number_of(node.get("filter litres")),
        fitted={name: yes_no_of(fitted[name]) for name in sorted(fitted.items)} if fitted else {},
        places={
            name: value.place
            for body in (node, fitted)
            if body is not None
            for name, value in sorted(body.items.items())
        },
        odometer_km=number_of(node.get("odometer km")),
    )


def read_limits(root: Mapping, model: Model, collector: Collector) -> dict[str, LimitSaid]:
    """This vehicle's own limits in the unit of each limit; problems are noted."""
    node = mapping_of(root.get("limits"))
    limits: dict[str, LimitSaid] = {}
    for name, value in node.items.items() if node else ():
        known = model.limits.get(name)
        if known is None:
            collector.lacks(
                node.key_places[name] if node else value,
                say('unknown limit "{name}"', name=name),
                did_you_mean(name, model.limits) or say("name a limit of the rulebook"),
            )
            continue
        if not isinstance(value, Scalar):
            continue  # the schema says so
        try:
            number = read_number(value.text)
            unit = known.unit if number.unit is None else number.unit
            limits[name] = LimitSaid(
                convert_reading(number.value, unit, known.unit), value.text, value.place
            )
        except UnitError as error:
            collector.add(value, say("{name}: {what}", name=name, what=error.what), error.instead)
    return dict(sorted(limits.items()))
